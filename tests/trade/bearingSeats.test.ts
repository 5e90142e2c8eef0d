import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { micrometres, millimetres, minus, nanometres, plus, type Length } from '../../src/measure/index.ts';
import {
  isoLimits,
  ringSize,
  ringTolerance,
  seatClass,
  seatLimits,
  type BearingRing,
  type SeatLoad,
} from '../../src/trade/index.ts';
import { cases, value } from './fixture.ts';

describe('seats for rolling bearings', () => {
  type Row = { ring: BearingRing; over: number; to: number; seat: string; clearance: number; interference: number };
  test.each(cases<Row>('bearing-seats'))(
    '$seat over $over to $to mm: clearance $clearance, interference $interference',
    ({ ring, over, to, seat, clearance, interference }) => {
      for (const nominal of [nanometres(millimetres(over) + 1), millimetres(to)]) {
        const limits = value(isoLimits(nominal, seat));
        const smallest = minus(nominal, value(ringTolerance(ring, nominal)));
        const [loosest, tightest] =
          ring === 'inner'
            ? [minus(nominal, limits.low), minus(limits.high, smallest)]
            : [minus(limits.high, smallest), minus(nominal, limits.low)];
        expect([loosest, tightest]).toEqual([micrometres(clearance), micrometres(interference)]);
      }
    },
  );

  test.each(cases<{ ring: BearingRing; load: SeatLoad; mm: number; seat: string }>('bearing-classes'))(
    '$ring ring, $load load, $mm mm: $seat',
    ({ ring, load, mm, seat }) => expect(value(seatClass(ring, load, millimetres(mm)))).toBe(seat),
  );

  // 20 k5 is +2 to +11 µm, a bore of 20 is 0 to -10: the middle ring, 19.995, is held by 7 to 16. Worked by hand.
  const nominal = millimetres(20);
  const measured = (size: Length, uncertaintyUm: number) => ({ size, uncertainty: micrometres(uncertaintyUm) });
  test.each([
    ['nothing measured', null, 20.002, 20.011],
    ['the middle ring', measured(millimetres(19.995), 3), 20.002, 20.011],
    ['a small ring', measured(millimetres(19.991), 3), 19.998, 20.007],
    ['a reading beyond what the maker guarantees', measured(millimetres(20.004), 3), 20.007, 20.016],
    ['a reading too rough to tell', measured(millimetres(19.98), 13), 20.002, 20.011],
  ])('20 k5, %s', (_what, ring, low, high) =>
    expect(value(seatLimits('inner', nominal, 'k5', ring))).toEqual({ low: millimetres(low), high: millimetres(high) }),
  );

  test('a seat moved with its ring holds it as tightly as the class may hold any (seed 492)', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('g6', 'h6', 'j5', 'j6', 'k5', 'k6', 'm5', 'm6'),
        fc.integer({ min: 3_000, max: 250_000 }),
        fc.integer({ min: 0, max: 1000 }),
        (seat, sizeUm, share) => {
          const at = micrometres(sizeUm);
          const tolerance = value(ringTolerance('inner', at));
          const ring = nanometres(at - Math.round((tolerance * share) / 1000));
          const moved = value(seatLimits('inner', at, seat, { size: ring, uncertainty: micrometres(1) }));
          const limits = value(isoLimits(at, seat));
          expect(moved.low - ring).toBeGreaterThanOrEqual(limits.low - at);
          expect(moved.high - ring).toBeLessThanOrEqual(limits.high - minus(at, tolerance));
          expect(minus(moved.high, moved.low)).toBe(minus(limits.high, limits.low));
        },
      ),
      { seed: 492 },
    );
  });

  test('beyond the tables there is no size, and no class that is not tabled', () => {
    expect(ringSize('inner', millimetres(251), null)).toMatchObject({ ok: false, error: { key: 'size-out-of-range' } });
    expect(seatClass('inner', 'light', plus(millimetres(140), micrometres(1)))).toMatchObject({ ok: false });
    expect(isoLimits(nominal, 'j7')).toMatchObject({ ok: false, error: { key: 'not-defined' } });
  });
});
