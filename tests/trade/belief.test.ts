import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { believed, chanceBelow, independent, seen, shifted } from '../../src/trade/index.ts';

describe('the belief', () => {
  it('weighs two numbers by one over their variance, as the normal case of Bayes’ rule says', () => {
    // Prior 10 ± 2, seen 14 ± 1: mean (10/4 + 14/1)/(1/4 + 1) = 13.2, variance 1/(1/4 + 1) = .8; worked by hand.
    const after = believed(seen(independent([{ mean: 10, spread: 2 }]), [1], 14, 1), [1]);
    expect(after.mean).toBeCloseTo(13.2, 12);
    expect(after.spread ** 2).toBeCloseTo(0.8, 12);
  });
  it('does not care in which order two readings come (seed 5)', () => {
    const number = fc.double({ min: -50, max: 50, noNaN: true });
    const spread = fc.double({ min: 0.5, max: 20, noNaN: true });
    fc.assert(
      fc.property(number, number, spread, spread, (a, b, ua, ub) => {
        const start = independent([
          { mean: 1, spread: 5 },
          { mean: 0, spread: 3 },
        ]);
        const one = seen(seen(start, [1, 0.5], a, ua), [1, -0.5], b, ub);
        const other = seen(seen(start, [1, -0.5], b, ub), [1, 0.5], a, ua);
        for (const weights of [
          [1, 0],
          [0, 1],
          [1, 1],
        ]) {
          expect(believed(one, weights).mean).toBeCloseTo(believed(other, weights).mean, 6);
          expect(believed(one, weights).spread).toBeCloseTo(believed(other, weights).spread, 6);
        }
      }),
      { seed: 5 },
    );
  });
  it('never knows less after a reading, and never more after a shift', () => {
    const start = independent([{ mean: 0, spread: 4 }]);
    expect(believed(seen(start, [1], 3, 100), [1]).spread).toBeLessThan(4);
    expect(believed(shifted(start, [1], 2, 3), [1])).toEqual({ mean: 2, spread: 5 });
  });
  // Table of the normal distribution (GUM, table G.1 gives the two-sided 95 % at 1.960 and 99.73 % at 3).
  test.each([
    [0, 0.5],
    [1.96, 0.975],
    [-1.96, 0.025],
    [3, 0.99865],
  ])('the chance below %d standard deviations is %d', (z, chance) => {
    expect(chanceBelow(z, { mean: 0, spread: 1 })).toBeCloseTo(chance, 5);
  });
});
