import fc from 'fast-check';
import Quantity from 'js-quantities';
import { Matrix, solve } from 'ml-matrix';
import { mean, sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import {
  asDiameter,
  degrees,
  inches,
  millimetres,
  nanometres,
  sixtyFourths,
  toDegrees,
  toInches,
  toMillimetres,
} from '../../src/measure/index.ts';
import {
  circleThrough,
  deflection,
  eccentricityOf,
  feetPerMinute,
  metresPerMinute,
  rpmFor,
  toFeetPerMinute,
  typeA,
} from '../../src/trade/index.ts';

// The same questions put to general-purpose libraries that know nothing of shops.

const as = (amount: number, from: string, to: string): number => Quantity(amount, from).to(to).scalar;

describe('units, by js-quantities', () => {
  test('inches, sixty-fourths and surface speeds (seed 4251)', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 100_000 }), (count) => {
        expect(inches(count / 10_000)).toBe(Math.round(as(count / 10_000, 'inch', 'nm')));
        expect(sixtyFourths(count)).toBe(Math.round(as(count / 64, 'inch', 'nm')));
        expect(toInches(millimetres(count / 1000))).toBeCloseTo(as(count / 1000, 'mm', 'inch'), 10);
        expect(feetPerMinute(count / 100).metresPerMinute).toBeCloseTo(as(count / 100, 'ft/min', 'm/min'), 9);
        expect(toFeetPerMinute(metresPerMinute(count / 100))).toBeCloseTo(as(count / 100, 'm/min', 'ft/min'), 9);
      }),
      { seed: 4251 },
    );
  });

  test('turns a minute from a surface speed, with the units carried along', () => {
    for (const [speed, diameter] of [
      [100, 1],
      [90, 1.25],
      [450, 3.5],
    ] as const) {
      const turns = as(speed, 'ft/min', 'inch/min') / (Math.PI * diameter);
      expect(rpmFor(feetPerMinute(speed), asDiameter(inches(diameter)))).toBeCloseTo(turns, 9);
    }
  });
});

describe('statistics, by simple-statistics', () => {
  test('mean and standard deviation of readings (seed 4252)', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 24_900_000, max: 25_100_000 }), { minLength: 2, maxLength: 30 }), (readings) => {
        const found = typeA(readings.map(nanometres));
        expect(found?.mean).toBeCloseTo(mean(readings), 3);
        expect(found?.deviation).toBeCloseTo(sampleStandardDeviation(readings), 3);
        expect(found?.freedom).toBe(readings.length - 1);
      }),
      { seed: 4252 },
    );
  });
});

describe('least squares, by the QR and SVD of ml-matrix', () => {
  const reading = fc.record({ at: fc.integer({ min: 0, max: 359 }), value: fc.integer({ min: -2_000_000, max: 2_000_000 }) });

  test('offset and high spot from any readings round the spindle (seed 4253)', () => {
    fc.assert(
      fc.property(fc.uniqueArray(reading, { minLength: 6, maxLength: 24, selector: ({ at }) => at }), (readings) => {
        const spread = Math.max(...readings.map(({ at }) => at)) - Math.min(...readings.map(({ at }) => at));
        fc.pre(spread > 200);
        const radians = readings.map(({ at }) => (at * Math.PI) / 180);
        const answer = solve(
          new Matrix(radians.map((at) => [1, Math.cos(at), Math.sin(at)])),
          Matrix.columnVector(readings.map(({ value }) => value)),
          true,
        ).to1DArray();
        const [c = 0, a = 0, b = 0] = answer;
        const found = eccentricityOf(
          readings.map(({ at, value }) => ({ at: degrees(at, 'half-even'), value: nanometres(value) })),
        );
        if (found === null) throw new Error('six angles over 200° determine an offset');
        expect(Math.abs(found.mean - c)).toBeLessThanOrEqual(2);
        expect(Math.abs(found.offset - Math.hypot(a, b))).toBeLessThanOrEqual(2);
        if (Math.hypot(a, b) > 10_000) {
          const off = Math.abs(toDegrees(found.highSpot) - (((Math.atan2(b, a) * 180) / Math.PI + 360) % 360));
          expect(Math.min(off, 360 - off)).toBeLessThan(0.01);
        }
      }),
      { seed: 4253 },
    );
  });

  test('the circle through scattered points (seed 4254)', () => {
    const near = fc.integer({ min: -50_000, max: 50_000 });
    fc.assert(
      fc.property(
        fc.integer({ min: -90, max: 90 }),
        fc.integer({ min: -90, max: 90 }),
        fc.integer({ min: 5, max: 120 }),
        fc.array(fc.tuple(fc.integer({ min: 0, max: 359 }), near), { minLength: 8, maxLength: 20 }),
        (x, y, radius, around) => {
          const points = around.map(([at, off]) => {
            const r = radius * 1e6 + off;
            return {
              x: nanometres(Math.round(x * 1e6 + r * Math.cos((at * Math.PI) / 180))),
              y: nanometres(Math.round(y * 1e6 + r * Math.sin((at * Math.PI) / 180))),
            };
          });
          const angles = around.map(([at]) => at);
          fc.pre(Math.max(...angles) - Math.min(...angles) > 200 && new Set(angles).size > 5);
          const rows = points.map((point) => [toMillimetres(point.x), toMillimetres(point.y), 1]);
          const [d = 0, e = 0, f = 0] = solve(
            new Matrix(rows),
            Matrix.columnVector(rows.map(([u = 0, v = 0]) => -(u * u + v * v))),
            true,
          ).to1DArray();
          const found = circleThrough(points);
          expect(toMillimetres(found?.centre.x ?? nanometres(0))).toBeCloseTo(-d / 2, 4);
          expect(toMillimetres(found?.centre.y ?? nanometres(0))).toBeCloseTo(-e / 2, 4);
          expect(toMillimetres(found?.radius ?? nanometres(0))).toBeCloseTo(Math.sqrt((d * d + e * e) / 4 - f), 4);
        },
      ),
      { seed: 4254 },
    );
  });
});

describe('bending, by beam elements solved with ml-matrix', () => {
  /** Stiffness of one beam element of length l (Euler and Bernoulli), for deflection and slope at both of its ends, times E·I. */
  const element = (l: number): readonly (readonly number[])[] =>
    [
      [12, 6 * l, -12, 6 * l],
      [6 * l, 4 * l * l, -6 * l, 2 * l * l],
      [-12, -6 * l, 12, -6 * l],
      [6 * l, 2 * l * l, -6 * l, 4 * l * l],
    ].map((row) => row.map((entry) => entry / l ** 3));

  /** The largest deflection under a unit load at each node in turn, of a beam of unit length, with some freedoms held. */
  function worst(nodes: number, held: readonly number[]): number {
    const size = 2 * (nodes + 1);
    const whole = Matrix.zeros(size, size);
    for (let index = 0; index < nodes; index += 1)
      element(1 / nodes).forEach((row, i) =>
        row.forEach((entry, j) => whole.set(2 * index + i, 2 * index + j, whole.get(2 * index + i, 2 * index + j) + entry)),
      );
    const free = Array.from({ length: size }, (_, index) => index).filter((index) => !held.includes(index));
    const stiff = whole.selection(free, free);
    const gives = free.flatMap((freedom, place) => {
      if (freedom % 2 === 1) return [];
      const load = Matrix.columnVector(free.map((_, index) => (index === place ? 1 : 0)));
      return [solve(stiff, load).get(place, 0)];
    });
    return Math.max(...gives);
  }

  // 29/70 is as near to √2 − 1, where a propped bar gives most, as makes no difference.
  const NODES = 70;
  test.each([
    ['chuck', [0, 1]],
    ['between-centres', [0, 2 * NODES]],
    ['chuck-and-tailstock', [0, 1, 2 * NODES]],
  ] as const)('%s: a bar of 20 by 200 under 100 N, and one with a hole of 12', (holding, held) => {
    const gives = worst(NODES, held);
    for (const bore of [0, 12]) {
      const momentMm4 = (Math.PI * (20 ** 4 - bore ** 4)) / 64;
      const expected = (gives * 100 * 200 ** 3) / (200_000 * momentMm4);
      const found = toMillimetres(
        deflection(holding, asDiameter(millimetres(20)), millimetres(200), 100, 200, millimetres(bore)),
      );
      // Both to the nanometre.
      expect(Math.abs(found - expected)).toBeLessThanOrEqual(1e-6);
    }
  });
});
