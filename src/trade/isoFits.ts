import { fail, minus, ok, plus, type Length, type Result } from '../measure/index.ts';
import { holeDeviations, shaftDeviations, type Deviations } from './isoDeviations.ts';
import type { FitFault } from './isoGrades.ts';

/** Two limits of a size, both allowed. */
export type SizeLimits = { readonly low: Length; readonly high: Length };

/** A pair of hole and shaft. A clearance is positive, an interference negative; `least` is the tightest pair. */
export type FitLimits = {
  readonly hole: SizeLimits;
  readonly shaft: SizeLimits;
  readonly leastClearance: Length;
  readonly mostClearance: Length;
};

const DESIGNATION = /^(JS|js|[A-Za-z])(\d{1,2})$/;

function deviationsOf(size: Length, designation: string): Result<Deviations & { readonly of: 'hole' | 'shaft' }, FitFault> {
  const parts = DESIGNATION.exec(designation);
  const letter = parts?.[1];
  if (parts === null || letter === undefined) return fail({ key: 'not-a-designation', text: designation });
  const of = letter === letter.toUpperCase() ? 'hole' : 'shaft';
  const read = (of === 'hole' ? holeDeviations : shaftDeviations)(size, letter, Number(parts[2]));
  return read.ok ? ok({ ...read.value, of }) : read;
}

/** The limits of a size by its ISO 286 designation: a hole in capitals (`H7`), a shaft in small letters (`g6`). */
export function isoLimits(size: Length, designation: string): Result<SizeLimits, FitFault> {
  const read = deviationsOf(size, designation);
  return read.ok ? ok({ low: plus(size, read.value.lower), high: plus(size, read.value.upper) }) : read;
}

/** What a hole and a shaft within their limits give, at the tightest and at the loosest. */
export function fitLimitsOf(hole: SizeLimits, shaft: SizeLimits): FitLimits {
  return { hole, shaft, leastClearance: minus(hole.low, shaft.high), mostClearance: minus(hole.high, shaft.low) };
}

/** The limits of an ISO 286 fit, hole first: `isoFit(millimetres(25), 'H7/g6')`. */
export function isoFit(size: Length, designation: string): Result<FitLimits, FitFault> {
  const [first, second, ...more] = designation.split('/');
  if (first === undefined || second === undefined || more.length > 0) return fail({ key: 'not-a-designation', text: designation });
  const hole = deviationsOf(size, first);
  if (!hole.ok) return hole;
  const shaft = deviationsOf(size, second);
  if (!shaft.ok) return shaft;
  if (hole.value.of !== 'hole' || shaft.value.of !== 'shaft') return fail({ key: 'not-a-designation', text: designation });
  const placed = ({ lower, upper }: Deviations): SizeLimits => ({ low: plus(size, lower), high: plus(size, upper) });
  return ok(fitLimitsOf(placed(hole.value), placed(shaft.value)));
}
