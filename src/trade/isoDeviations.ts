import { fail, micrometres, minus, negated, ok, plus, roundedTo, zero, type Length, type Result } from '../measure/index.ts';
import { LARGEST_ISO_SIZE, rangeOf, toleranceOf, type FitFault } from './isoGrades.ts';

/** Upper ends of the finer ranges in which fundamental deviations stand, in mm. */
const RANGES_MM = [
  3, 6, 10, 14, 18, 24, 30, 40, 50, 65, 80, 100, 120, 140, 160, 180, 200, 225, 250, 280, 315, 355, 400, 450, 500,
] as const;

/**
 * Fundamental deviations of shafts in µm, without their sign (ISO 286-1:2010, tables 4 and 5): of c to g the distance that the
 * upper limit lies under the nominal size, of k to u the distance that the lower limit lies over it. `null`: not defined.
 * c to s from 3 to 180 mm as seen in the sources of docs/sources.md; the rest from an open copy of the table, agreeing with
 * memory. k is that of grades 4 to 7; in the others it is 0.
 */
const DEVIATIONS_UM: Readonly<Record<string, readonly (number | null)[]>> = {
  c: [60, 70, 80, 95, 95, 110, 110, 120, 130, 140, 150, 170, 180, 200, 210, 230, 240, 260, 280, 300, 330, 360, 400, 440, 480],
  d: [20, 30, 40, 50, 50, 65, 65, 80, 80, 100, 100, 120, 120, 145, 145, 145, 170, 170, 170, 190, 190, 210, 210, 230, 230],
  e: [14, 20, 25, 32, 32, 40, 40, 50, 50, 60, 60, 72, 72, 85, 85, 85, 100, 100, 100, 110, 110, 125, 125, 135, 135],
  f: [6, 10, 13, 16, 16, 20, 20, 25, 25, 30, 30, 36, 36, 43, 43, 43, 50, 50, 50, 56, 56, 62, 62, 68, 68],
  g: [2, 4, 5, 6, 6, 7, 7, 9, 9, 10, 10, 12, 12, 14, 14, 14, 15, 15, 15, 17, 17, 18, 18, 20, 20],
  k: [0, 1, 1, 1, 1, 2, 2, 2, 2, 2, 2, 3, 3, 3, 3, 3, 4, 4, 4, 4, 4, 4, 4, 5, 5],
  m: [2, 4, 6, 7, 7, 8, 8, 9, 9, 11, 11, 13, 13, 15, 15, 15, 17, 17, 17, 20, 20, 21, 21, 23, 23],
  n: [4, 8, 10, 12, 12, 15, 15, 17, 17, 20, 20, 23, 23, 27, 27, 27, 31, 31, 31, 34, 34, 37, 37, 40, 40],
  p: [6, 12, 15, 18, 18, 22, 22, 26, 26, 32, 32, 37, 37, 43, 43, 43, 50, 50, 50, 56, 56, 62, 62, 68, 68],
  r: [10, 15, 19, 23, 23, 28, 28, 34, 34, 41, 43, 51, 54, 63, 65, 68, 77, 80, 84, 94, 98, 108, 114, 126, 132],
  s: [14, 19, 23, 28, 28, 35, 35, 43, 43, 53, 59, 71, 79, 92, 100, 108, 122, 130, 140, 158, 170, 190, 208, 232, 252],
  t: [
    null,
    null,
    null,
    null,
    null,
    null,
    41,
    48,
    54,
    66,
    75,
    91,
    104,
    122,
    134,
    146,
    166,
    180,
    196,
    218,
    240,
    268,
    294,
    330,
    360,
  ],
  u: [18, 23, 28, 33, 33, 41, 48, 60, 70, 87, 102, 124, 144, 170, 190, 210, 236, 258, 284, 315, 350, 390, 435, 490, 540],
};

/** The two limits of a size, as distances from the nominal size: over it positive, under it negative. */
export type Deviations = { readonly lower: Length; readonly upper: Length };

const UNDER = new Set(['c', 'd', 'e', 'f', 'g']);

function tabled(letter: string, size: Length): Result<Length, FitFault> {
  const row = DEVIATIONS_UM[letter];
  if (row === undefined) return fail({ key: 'no-such-deviation', letter });
  const range = rangeOf(size, RANGES_MM);
  if (range === null) return fail({ key: 'size-out-of-range', size, most: LARGEST_ISO_SIZE });
  const distance = row[range] ?? null;
  return distance === null ? fail({ key: 'not-defined', designation: letter }) : ok(micrometres(distance));
}

/** js and JS: the grade in two halves; half of an odd grade of 7 to 11 is rounded down to the whole µm (ISO 286-1, 4.3.2.5). */
function halved(width: Length, grade: number): Deviations {
  const half = micrometres(width / 2000);
  const rounded = grade >= 7 && grade <= 11 ? roundedTo(half, micrometres(1), 'toward-zero') : half;
  return { lower: negated(rounded), upper: rounded };
}

/** Upper ends of the ranges in which j and J stand, in mm. */
const J_RANGES_MM = [3, 6, 10, 18, 30, 50, 80, 120, 180, 250] as const;

/**
 * Limits of j5, j6 and J7 in µm, lower and upper: seats for rolling bearings, tabled one by one (ISO 286-2:2010). To 120 mm as
 * tables of bearing fits print them (docs/sources.md), j5 and j6 beyond and all to 3 mm from memory.
 */
const J_UM: Readonly<Record<string, readonly (readonly [lower: number, upper: number])[]>> = {
  j5: [[-2, 2], [-2, 3], [-2, 4], [-3, 5], [-4, 5], [-5, 6], [-7, 6], [-9, 6], [-11, 7], [-13, 7]],
  j6: [[-2, 4], [-2, 6], [-2, 7], [-3, 8], [-4, 9], [-5, 11], [-7, 12], [-9, 13], [-11, 14], [-13, 16]],
  J7: [[-6, 4], [-6, 6], [-7, 8], [-8, 10], [-9, 12], [-11, 14], [-12, 18], [-13, 22], [-14, 26], [-16, 30]],
};

function tabledJ(designation: string, size: Length): Result<Deviations, FitFault> {
  const row = J_UM[designation];
  const range = rangeOf(size, J_RANGES_MM);
  const pair = range === null ? undefined : row?.[range];
  if (row === undefined) return fail({ key: 'not-defined', designation });
  if (pair === undefined) return fail({ key: 'size-out-of-range', size, most: micrometres(250_000) });
  return ok({ lower: micrometres(pair[0]), upper: micrometres(pair[1]) });
}

/** The limits of a shaft such as g6, at a size over 0 to 500 mm: letters c to h, j5 and j6, js, k to u; grades 3 to 13. */
export function shaftDeviations(size: Length, letter: string, grade: number): Result<Deviations, FitFault> {
  const width = toleranceOf(size, grade);
  if (!width.ok) return width;
  if (letter === 'h') return ok({ lower: negated(width.value), upper: zero });
  if (letter === 'js') return ok(halved(width.value, grade));
  if (letter === 'j') return tabledJ(`j${grade}`, size);
  const distance = tabled(letter, size);
  if (!distance.ok) return distance;
  if (UNDER.has(letter)) return ok({ lower: minus(negated(distance.value), width.value), upper: negated(distance.value) });
  const lower = letter === 'k' && (grade < 4 || grade > 7) ? zero : distance.value;
  return ok({ lower, upper: plus(lower, width.value) });
}

/**
 * The limits of a hole such as H7. C to H mirror the shaft's. K to U mirror it too, moved by the difference of the grade and the
 * next finer one, over 3 mm, for K, M and N to IT8 and for P and beyond to IT7, so that H7/p6 and P7/h6 give the same fit
 * (ISO 286-1, annex B.3). N coarser than IT8 has its upper limit on the nominal size. M6 from 250 to 315 mm is -9, not -11.
 */
export function holeDeviations(size: Length, letter: string, grade: number): Result<Deviations, FitFault> {
  const width = toleranceOf(size, grade);
  if (!width.ok) return width;
  const small = letter.toLowerCase();
  if (small === 'h') return ok({ lower: zero, upper: width.value });
  if (small === 'js') return ok(halved(width.value, grade));
  if (small === 'j') return tabledJ(`J${grade}`, size);
  const distance = tabled(small, size);
  if (!distance.ok) return distance;
  if (UNDER.has(small)) return ok({ lower: distance.value, upper: plus(distance.value, width.value) });
  const early = small === 'k' || small === 'm' || small === 'n';
  const overThree = size > micrometres(3000);
  if (small === 'k' && overThree && grade > 8) return fail({ key: 'not-defined', designation: `K${grade}` });
  if (small === 'n' && overThree && grade > 8) return ok({ lower: negated(width.value), upper: zero });
  const finer = toleranceOf(size, grade - 1);
  if (!finer.ok) return finer;
  const moved = overThree && grade <= (early ? 8 : 7) ? minus(width.value, finer.value) : zero;
  const exception = small === 'm' && grade === 6 && size > micrometres(250_000) && size <= micrometres(315_000);
  const upper = exception ? micrometres(-9) : plus(negated(distance.value), moved);
  return ok({ lower: minus(upper, width.value), upper });
}
