import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { logMels, MEL_BANDS, melFrames } from '../../../src/ear/network/mel.ts';

// Made by models/training/mel_fixture.py: the front end that the network was trained on, in numpy.
const wanted = JSON.parse(readFileSync(new URL('mels.json', import.meta.url), 'utf8')) as number[][];

const sound = Float32Array.from({ length: 1600 }, (_, n) => {
  const rising = 0.3 * Math.sin((2 * Math.PI * (200 + 1.5 * n) * n) / 16_000);
  return rising + (n > 800 ? 0.05 * Math.sin((2 * Math.PI * 6100 * n) / 16_000) : 0);
});

describe('the front end of the network', () => {
  it('makes the mels that training heard', () => {
    const mels = logMels(sound);
    expect(mels.length).toBe(wanted.length * MEL_BANDS);
    wanted.flat().forEach((value, at) => expect(Math.abs(mels[at]! - value), `value ${at}`).toBeLessThan(2e-3));
  });

  it.each([
    [0, 0],
    [511, 0],
    [512, 1],
    [671, 1],
    [672, 2],
    [16_000, 97],
  ])('finds in %i samples %i whole frames', (samples, frames) => {
    expect(melFrames(samples)).toBe(frames);
    expect(logMels(new Float32Array(samples)).length).toBe(frames * MEL_BANDS);
  });
});
