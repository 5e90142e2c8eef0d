import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { asRadius, degrees, inches, millimetres, thou, toMillimetres, type Radius } from '../../src/measure/index.ts';
import { highSpotOf, offLine, turnFrom, type SpotConditions, type SpotReading } from '../../src/setups/index.ts';
import { chance } from './simulated-chuck.ts';
import { equally, spotted, SQUARE_AND_DIAL } from './simulated-spot.ts';

const flat: SpotConditions = { radius: null, readingError: thou(0.5), angleError: 0.5 };
const mm = (...pairs: readonly (readonly [number, number])[]): SpotReading[] =>
  pairs.map(([at, value]) => ({ degrees: at, indicator: millimetres(value) }));
const whole = (values: readonly number[]): SpotReading[] =>
  mm(...values.map((value, index) => [(360 * index) / values.length, value] as const));

/* Least squares computed with scipy, the check values of the project's geometry section. */
const worked: readonly (readonly [readings: SpotReading[], offset: number, angle: number])[] = [
  [whole([0.0825, 0.140741, 0.128253, 0.052352, -0.0425, -0.100741, -0.088253, -0.012352]), 0.125, 60],
  [whole([0.01, 0.004, -0.006, 0]), 0.0082462, 14.0362],
  [mm([0, 10.25], [50, 10.25], [140, -0.381], [200, -4.97], [310, 5.071]), 7.99988, 24.998],
];

describe('the high spot', () => {
  test.each(worked)('worked example %#', (readings, offset, angle) => {
    const spot = highSpotOf(readings, { ...flat, readingError: millimetres(0.01), angleError: 0 });
    expect(toMillimetres(spot?.offset ?? inches(9))).toBeCloseTo(offset, 4);
    expect(spot?.degrees).toBeCloseTo(angle, 2);
  });

  test('three exact readings at any angles that are apart give it exactly, on the true circle (seed 61)', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 359 }),
        fc.integer({ min: 20, max: 240 }),
        fc.tuple(fc.integer({ min: 40, max: 120 }), fc.integer({ min: 40, max: 120 })),
        (high, throw_, [one, two]) => {
          const [e, r] = [throw_ / 1000, 0.45];
          const readings = [0, one, one + two].map((at) => {
            const psi = ((at - high) * Math.PI) / 180;
            return { degrees: at, indicator: inches(e * Math.cos(psi) + Math.sqrt(r * r - (e * Math.sin(psi)) ** 2) - r) };
          });
          const radius: Radius = asRadius(inches(r));
          const spot = highSpotOf(readings, { ...flat, radius });
          expect(Math.abs(turnFrom(high, spot?.degrees ?? high + 90))).toBeLessThan(0.01);
          expect(Math.abs((spot?.offset ?? 0) - inches(e))).toBeLessThan(thou(0.01));
        },
      ),
      { seed: 61, numRuns: 300 },
    );
  });

  test('two readings, or three at one angle, tell nothing', () => {
    expect(highSpotOf(mm([0, 1], [90, 2]), flat)).toBeNull();
    expect(highSpotOf(mm([10, 1], [10, 2], [10, 1.5]), flat)).toBeNull();
    expect(highSpotOf(mm([0, 1], [120, 1], [240, 1]), flat)).toBeNull();
  });

  test('one reading that does not go with the others is named and left out', () => {
    const good = equally(8).map((at) => ({ degrees: at, indicator: inches(0.1 * Math.cos(((at - 30) * Math.PI) / 180)) }));
    const bad = good.map((reading, index) =>
      index === 3 ? { ...reading, indicator: inches(reading.indicator / 25_400_000 + 0.01) } : reading,
    );
    expect(highSpotOf(good, flat)).toMatchObject({ odd: null, disagree: false });
    const spot = highSpotOf(bad, flat);
    expect(spot?.odd?.degrees).toBe(135);
    expect(spot?.degrees).toBeCloseTo(30, 1);
  });

  test('four that do not go together are said so, and none is blamed', () => {
    const spot = highSpotOf(mm([0, 1], [90, 0.5], [180, -1], [270, 0.5]), flat);
    expect(spot).toMatchObject({ odd: null, disagree: true });
    expect(spot?.uncertaintyDegrees).toBeGreaterThan(3);
  });

  test.each([3, 4, 6, 8])('%i readings equally round: inside what is stated 95 times in 100 (seed 62)', (count) => {
    const draw = chance(62);
    const runs = 600;
    let inside = 0;
    let throws = 0;
    for (let run = 0; run < runs; run += 1) {
      const one = spotted(draw, equally(count), SQUARE_AND_DIAL);
      if (one?.inside === true) inside += 1;
      if (one?.throwInside === true) throws += 1;
    }
    expect(inside / runs).toBeGreaterThanOrEqual(0.95);
    expect(throws / runs).toBeGreaterThanOrEqual(0.95);
  });
});

test('turning goes the short way', () => {
  expect(turnFrom(0, 60)).toBe(60);
  expect(turnFrom(270, 60)).toBe(150);
  expect(turnFrom(60, 350)).toBe(-70);
  expect(turnFrom(0, 180)).toBe(180);
});

test('a degree off on an inch and a quarter is eleven thou off its line: r·sin 1° = .625 × .017452 (computed)', () => {
  expect(offLine(asRadius(inches(0.625)), degrees(1, 'half-even')) / 25_400).toBeCloseTo(10.908, 2);
});
