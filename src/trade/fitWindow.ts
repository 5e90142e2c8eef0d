import { fail, larger, midway, minus, ok, plus, smaller, type Length, type Result } from '../measure/index.ts';
import type { Clearances } from './handFits.ts';
import type { SizeLimits } from './isoFits.ts';

/** A bore as measured: readings with the place along it and the direction across it, from the same instrument. */
export type BoreReading = { readonly value: Length; readonly place: 'near' | 'middle' | 'far'; readonly across: 'one-way' | 'other-way' };

/** What a set of readings of a bore says about its shape. `taper` is signed: positive where the far end is larger. */
export type BoreShape = {
  readonly smallest: Length;
  readonly largest: Length;
  /** The largest difference between the two directions at one place; null where no place was measured both ways. */
  readonly outOfRound: Length | null;
  /** Far less near, each as the smallest reading there; null where one end was not measured. */
  readonly taper: Length | null;
};

/** The shape of a bore from its readings; null without any. Exact. */
export function boreShape(readings: readonly BoreReading[]): BoreShape | null {
  const [first] = readings;
  if (first === undefined) return null;
  let smallest = first.value;
  let largest = first.value;
  for (const { value } of readings) {
    smallest = smaller(smallest, value);
    largest = larger(largest, value);
  }
  const at = (place: BoreReading['place'], across: BoreReading['across'] | null): Length | null =>
    readings.filter((reading) => reading.place === place && (across === null || reading.across === across)).reduce<Length | null>(
      (least, { value }) => (least === null ? value : smaller(least, value)), null,
    );
  let outOfRound: Length | null = null;
  for (const place of ['near', 'middle', 'far'] as const) {
    const one = at(place, 'one-way');
    const other = at(place, 'other-way');
    if (one === null || other === null) continue;
    const difference = minus(larger(one, other), smaller(one, other));
    outOfRound = outOfRound === null ? difference : larger(outOfRound, difference);
  }
  const near = at('near', null);
  const far = at('far', null);
  return { smallest, largest, outOfRound, taper: near === null || far === null ? null : minus(far, near) };
}

/** Why no diameter can be promised to fit. */
export type FitWindowFault = { readonly key: 'bore-too-uncertain'; readonly room: Length; readonly uncertainty: Length };

export type FitWindow = SizeLimits & { readonly aim: Length };

/**
 * The window for a shaft that goes into a bore measured with an expanded uncertainty: it clears the smallest place by the least
 * clearance even where the bore is smaller than read by the uncertainty, and the most clearance still holds where the bore is
 * larger than read (the decision rule of ISO 14253-1, applied to the mate). The aim is the middle, rounded half to even.
 */
export function fitWindow(smallestBore: Length, uncertainty: Length, clearances: Clearances): Result<FitWindow, FitWindowFault> {
  const low = plus(minus(smallestBore, clearances.most), uncertainty);
  const high = minus(minus(smallestBore, clearances.least), uncertainty);
  if (low > high) return fail({ key: 'bore-too-uncertain', room: minus(clearances.most, clearances.least), uncertainty });
  return ok({ low, high, aim: midway(low, high, 'half-even') });
}

/**
 * The window for a bore over a shaft measured with an expanded uncertainty, the same the other way round: it clears the largest
 * place by the least clearance even where the shaft is larger than read by the uncertainty, and the most clearance still holds
 * where it is smaller.
 */
export function boreWindow(largestShaft: Length, uncertainty: Length, clearances: Clearances): Result<FitWindow, FitWindowFault> {
  const low = plus(plus(largestShaft, clearances.least), uncertainty);
  const high = minus(plus(largestShaft, clearances.most), uncertainty);
  if (low > high) return fail({ key: 'bore-too-uncertain', room: minus(clearances.most, clearances.least), uncertainty });
  return ok({ low, high, aim: midway(low, high, 'half-even') });
}
