import { describe, expect, it } from 'vitest';
import type { Tone } from '../../src/job/index.ts';
import { lengthMs, TONE_PEAK, TONES, toneSound, type Note } from '../../src/voice/index.ts';

const NAMES = Object.keys(TONES) as Tone[];
const PAIRS = NAMES.flatMap((a, at) => NAMES.slice(at + 1).map((b): readonly [Tone, Tone] => [a, b]));

const soundedMs = (tone: Tone): readonly number[] => TONES[tone].filter((note) => note.hz > 0).map((note) => note.ms);
const contour = (notes: readonly Note[]): readonly number[] => notes.filter((note) => note.hz > 0).map((note) => note.hz);

/** Whether two rhythms can be told apart with the pitch taken away: another number of notes, or one note 1.4 times as long. */
function rhythmsDiffer(a: readonly number[], b: readonly number[]): boolean {
  if (a.length !== b.length) return true;
  return a.some((ms, at) => Math.max(ms, b[at]!) >= 1.4 * Math.min(ms, b[at]!));
}

describe('tones', () => {
  it('are told apart by a rule that finds equal rhythms equal', () => {
    expect(rhythmsDiffer([100, 200], [110, 220])).toBe(false);
  });

  it.each(PAIRS)('%s and %s differ in rhythm', (a, b) => {
    expect(rhythmsDiffer(soundedMs(a), soundedMs(b))).toBe(true);
  });

  it.each(PAIRS)('%s and %s differ in pitch', (a, b) => {
    expect(contour(TONES[a])).not.toEqual(contour(TONES[b]));
  });

  it.each(NAMES)('%s is as long as its table says, below the safe level, and starts and ends at rest', (tone) => {
    const sound = toneSound(tone);
    const peak = sound.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    expect(lengthMs(sound)).toBeCloseTo(TONES[tone].reduce((sum, note) => sum + note.ms, 0), 0);
    expect(peak).toBeLessThanOrEqual(TONE_PEAK);
    expect(peak).toBeGreaterThan(TONE_PEAK / 2);
    expect(Math.abs(sound[0]!)).toBeLessThan(0.001);
    expect(Math.abs(sound.at(-1)!)).toBeLessThan(0.001);
  });

  // The pitch really played: zero crossings of the first note against its table, within 3 %.
  it.each(NAMES)('%s plays the pitch of its table', (tone) => {
    const first = TONES[tone][0]!;
    const sound = toneSound(tone).subarray(0, Math.round((first.ms * 16_000) / 1000));
    let crossings = 0;
    for (let at = 1; at < sound.length; at++) if (sound[at - 1]! <= 0 && sound[at]! > 0) crossings++;
    expect(Math.abs(crossings - (first.hz * first.ms) / 1000)).toBeLessThanOrEqual(1.5);
  });

  it('rise when it is well and fall when it is not', () => {
    const rise = (tone: Tone): number => contour(TONES[tone]).at(-1)! - contour(TONES[tone])[0]!;
    expect(rise('stored')).toBeGreaterThan(0);
    expect(rise('at-size')).toBeGreaterThan(0);
    expect(rise('under-size')).toBeLessThan(0);
    expect(rise('please-repeat')).toBeLessThan(0);
  });
});
