import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { RISK } from '../../src/coach/index.ts';
import { degrees, nanometres, toRadians } from '../../src/measure/index.ts';
import { chanceBelow, eccentricityOf } from '../../src/trade/index.ts';
import { cases, printed } from '../trade/fixture.ts';

describe('the chance that a size lies inside its limit', () => {
  test.each(cases<{ y: number; u: number; limit: number; places: number; chance: number }>('conformance'))(
    '$y ± $u against $limit: $chance ($source)',
    ({ y, u, limit, places, chance }) => expect(printed(chanceBelow(limit, { mean: y, spread: u }), places)).toBe(chance),
  );
  test.each(Object.entries(RISK))('the deviations of %s are those of its chance', (_name, { chance, deviations }) => {
    const beyond = 1 - chanceBelow(deviations, { mean: 0, spread: 1 });
    // The number of deviations is cut to two places.
    expect(beyond / chance).toBeGreaterThan(0.93);
    expect(beyond / chance).toBeLessThan(1.07);
  });
});

/*
 * At equal angles the least squares are plain sums: centre Σy/n, a = 2Σy·cosθ/n, b = 2Σy·sinθ/n (a text on roundness,
 * liquisearch.com, seen; NIST/SEMATECH handbook of statistical methods, 2.3.4.4, has the same fit). The program solves the
 * normal equations instead.
 */
describe('the fit of a runout', () => {
  test('is that of the sums for equal angles (seed 2344)', () => {
    const readings = fc.array(fc.integer({ min: -500_000, max: 500_000 }).map(nanometres), { minLength: 3, maxLength: 24 });
    // Whole nanometres, and the angle of the high spot in millionths of a degree or so.
    const close = (got: number, wanted: number): void => expect(Math.abs(got - wanted)).toBeLessThanOrEqual(1);
    fc.assert(
      fc.property(readings, (values) => {
        const angleOf = (index: number): number => (360 * index) / values.length;
        const fitted = eccentricityOf(values.map((value, index) => ({ at: degrees(angleOf(index), 'half-even'), value })));
        if (fitted === null) throw new Error('three readings or more at equal angles determine the fit');
        const sum = (of: (angle: number) => number): number =>
          values.reduce((total, value, index) => total + value * of((angleOf(index) * Math.PI) / 180), 0) / values.length;
        const [a, b] = [2 * sum(Math.cos), 2 * sum(Math.sin)];
        close(
          fitted.mean,
          sum(() => 1),
        );
        close(fitted.offset, Math.hypot(a, b));
        close(fitted.offset * Math.cos(toRadians(fitted.highSpot)), a);
        close(fitted.offset * Math.sin(toRadians(fitted.highSpot)), b);
      }),
      { seed: 2344 },
    );
  });
});
