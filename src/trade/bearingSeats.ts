import {
  dividedBy,
  fail,
  larger,
  micrometres,
  minus,
  ok,
  plus,
  smaller,
  times,
  type Length,
  type Result,
} from '../measure/index.ts';
import { isoLimits, type SizeLimits } from './isoFits.ts';
import { rangeOf, type FitFault } from './isoGrades.ts';

/** The ring that a seat holds: the inner one on a shaft, the outer one in a housing. */
export type BearingRing = 'inner' | 'outer';

/** Upper ends of the ranges of bore and outside diameter, in mm. */
const RANGES_MM = {
  inner: [2.5, 10, 18, 30, 50, 80, 120, 180, 250],
  outer: [6, 18, 30, 50, 80, 120, 150, 180, 250],
} as const;

/**
 * How far the mean diameter of a ring may lie under its nominal size, in µm; over it never: ISO 492, Normal class, radial
 * bearings but tapered ones. Bores as catalogues print them, outside diameters as a table of housing fits does (docs/sources.md).
 */
const UNDER_UM = {
  inner: [8, 8, 8, 10, 12, 15, 20, 25, 30],
  outer: [8, 8, 9, 11, 13, 15, 18, 25, 30],
} as const;

/** The largest ring that has a tolerance here. */
const LARGEST_RING = micrometres(250_000);

/** How far a ring of the Normal class may lie under its nominal size. */
export function ringTolerance(ring: BearingRing, nominal: Length): Result<Length, FitFault> {
  const range = rangeOf(nominal, RANGES_MM[ring]);
  const under = range === null ? undefined : UNDER_UM[ring][range];
  return under === undefined ? fail({ key: 'size-out-of-range', size: nominal, most: LARGEST_RING }) : ok(micrometres(under));
}

/** A ring as it was measured, with what the reading may be off either way. */
export type MeasuredRing = { readonly size: Length; readonly uncertainty: Length };

/**
 * The size that a ring is taken for: the middle of its tolerance, or its reading, never beyond what its maker guarantees. A
 * reading that may be off by more than half of the tolerance says nothing that the maker has not said better.
 */
export function ringSize(ring: BearingRing, nominal: Length, measured: MeasuredRing | null): Result<Length, FitFault> {
  const tolerance = ringTolerance(ring, nominal);
  if (!tolerance.ok) return tolerance;
  const middle = minus(nominal, dividedBy(tolerance.value, 2, 'half-even'));
  if (measured === null || times(measured.uncertainty, 2) > tolerance.value) return ok(middle);
  return ok(smaller(larger(measured.size, minus(nominal, tolerance.value)), nominal));
}

/**
 * The limits of a seat by its ISO 286 class, moved with the ring as it was measured: as wide as the class, and placed so that
 * this ring is held as tightly as the class holds the middle one. What comes of it lies within what the class allows of any ring.
 */
export function seatLimits(
  ring: BearingRing,
  nominal: Length,
  designation: string,
  measured: MeasuredRing | null,
): Result<SizeLimits, FitFault> {
  const limits = isoLimits(nominal, designation);
  if (!limits.ok) return limits;
  const [middle, size] = [ringSize(ring, nominal, null), ringSize(ring, nominal, measured)];
  if (!middle.ok) return middle;
  if (!size.ok) return size;
  const by = minus(size.value, middle.value);
  return ok({ low: plus(limits.value.low, by), high: plus(limits.value.high, by) });
}

/** How a ring is loaded: the load stands still against it, or goes round it lightly, or with the usual weight. */
export const SEAT_LOADS = ['still', 'light', 'normal'] as const;
export type SeatLoad = (typeof SEAT_LOADS)[number];

/** Shaft classes for ball bearings on solid steel shafts: upper end in mm and class. */
const SHAFTS: Readonly<Record<SeatLoad, readonly (readonly [toMm: number, designation: string])[]>> = {
  still: [[250, 'h6']],
  light: [
    [17, 'js5'],
    [100, 'j6'],
    [140, 'k6'],
  ],
  normal: [
    [10, 'js5'],
    [17, 'j5'],
    [100, 'k5'],
    [140, 'm5'],
    [200, 'm6'],
  ],
};

/** Housing classes, cast iron and steel in one piece, whatever the size. */
const HOUSINGS: Readonly<Record<SeatLoad, string>> = { still: 'H7', light: 'M7', normal: 'N7' };

/**
 * The class that makers advise for a seat: of a shaft by load and bore, of a housing by load. Light is up to .05 of the bearing's
 * dynamic rating, normal to .1 (docs/sources.md).
 */
export function seatClass(ring: BearingRing, load: SeatLoad, nominal: Length): Result<string, FitFault> {
  if (ring === 'outer') return ok(HOUSINGS[load]);
  const rows = SHAFTS[load];
  const range = rangeOf(
    nominal,
    rows.map(([toMm]) => toMm),
  );
  const row = range === null ? undefined : rows[range];
  return row === undefined
    ? fail({ key: 'size-out-of-range', size: nominal, most: micrometres((rows.at(-1)?.[0] ?? 0) * 1000) })
    : ok(row[1]);
}
