import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { resample } from '../../src/ear/index.ts';
import { Resampler } from '../../src/ear/resample.ts';

const tone = (hz: number, rateHz: number, seconds: number): Float32Array =>
  Float32Array.from({ length: Math.round(rateHz * seconds) }, (_, at) => Math.sin((2 * Math.PI * hz * at) / rateHz));

/** Level of the middle of a sound against a full tone, in decibels; the ends, where the filter runs in, are left out. */
function levelDb(samples: Float32Array): number {
  const middle = samples.subarray(Math.floor(samples.length * 0.2), Math.floor(samples.length * 0.8));
  return 10 * Math.log10(2 * (middle.reduce((sum, value) => sum + value * value, 0) / middle.length) + 1e-20);
}

describe('resample to 16 kHz', () => {
  const rates = [8_000, 11_025, 22_050, 32_000, 44_100, 48_000, 96_000];

  test.each(rates.flatMap((rate) => [200, 1_000, 3_000, 6_500].filter((hz) => hz < rate * 0.45).map((hz) => [hz, rate])))(
    'a tone of %d Hz at %d Hz keeps its level and its place',
    (hz, rate) => {
      const out = resample(tone(hz, rate, 0.5), rate);
      expect(out.length).toBe(Math.ceil((Math.round(rate * 0.5) * 16_000) / rate));
      const same = tone(hz, 16_000, 0.51);
      const off = out.map((value, at) => value - same[at]!);
      expect(levelDb(off)).toBeLessThan(-60);
    },
  );

  test.each(rates.filter((rate) => rate > 20_000).flatMap((rate) => [8_700, 9_500, 10_900].map((hz) => [hz, rate])))(
    'a tone of %d Hz at %d Hz, which would fold back, is 70 dB down',
    (hz, rate) => {
      expect(levelDb(resample(tone(hz, rate, 0.5), rate))).toBeLessThan(-70);
    },
  );

  test('a steady level passes unchanged', () => {
    const out = resample(new Float32Array(4_410).fill(0.5), 44_100);
    expect(Math.abs(out[800]! - 0.5)).toBeLessThan(1e-5);
  });

  test('in pieces it is the same as at once (seed 21)', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 700 }), { minLength: 1, maxLength: 8 }),
        fc.constantFrom(44_100, 48_000, 22_050, 8_000),
        (sizes, rate) => {
          const sound = tone(440, rate, sizes.reduce((sum, size) => sum + size, 0) / rate);
          const whole = resample(sound, rate);
          const resampler = new Resampler(rate, 16_000);
          const pieces: number[] = [];
          let at = 0;
          for (const size of sizes) {
            pieces.push(...resampler.push(sound.subarray(at, at + size)));
            at += size;
          }
          pieces.push(...resampler.push(sound.subarray(at)), ...resampler.flush());
          expect(pieces).toEqual([...whole]);
        },
      ),
      { seed: 21, numRuns: 40 },
    );
  });
});
