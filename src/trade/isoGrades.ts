import { fail, micrometres, NM_PER_MM, ok, type Length, type Result } from '../measure/index.ts';

/** Why a size or a designation has no limits here. */
export type FitFault =
  | { readonly key: 'size-out-of-range'; readonly size: Length; readonly most: Length }
  | { readonly key: 'no-such-grade'; readonly grade: number }
  | { readonly key: 'no-such-deviation'; readonly letter: string }
  | { readonly key: 'not-defined'; readonly designation: string }
  | { readonly key: 'not-a-designation'; readonly text: string };

/** Upper ends of the size ranges of the grades, in mm; a size on a boundary belongs to the lower range. */
const RANGES_MM = [3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500] as const;

/**
 * Standard tolerance grades in µm, one column a size range (ISO 286-1:2010, table 1, IT3 to IT13).
 * IT5 to IT11 from 3 to 180 mm as seen in the sources of docs/sources.md; the rest from an open copy of the table, agreeing
 * with memory.
 */
const GRADES_UM: ReadonlyMap<number, readonly number[]> = new Map([
  [3, [2, 2.5, 2.5, 3, 4, 4, 5, 6, 8, 10, 12, 13, 15]],
  [4, [3, 4, 4, 5, 6, 7, 8, 10, 12, 14, 16, 18, 20]],
  [5, [4, 5, 6, 8, 9, 11, 13, 15, 18, 20, 23, 25, 27]],
  [6, [6, 8, 9, 11, 13, 16, 19, 22, 25, 29, 32, 36, 40]],
  [7, [10, 12, 15, 18, 21, 25, 30, 35, 40, 46, 52, 57, 63]],
  [8, [14, 18, 22, 27, 33, 39, 46, 54, 63, 72, 81, 89, 97]],
  [9, [25, 30, 36, 43, 52, 62, 74, 87, 100, 115, 130, 140, 155]],
  [10, [40, 48, 58, 70, 84, 100, 120, 140, 160, 185, 210, 230, 250]],
  [11, [60, 75, 90, 110, 130, 160, 190, 220, 250, 290, 320, 360, 400]],
  [12, [100, 120, 150, 180, 210, 250, 300, 350, 400, 460, 520, 570, 630]],
  [13, [140, 180, 220, 270, 330, 390, 460, 540, 630, 720, 810, 890, 970]],
]);

/** Which of the ranges a size lies in, from 0, or null beyond the last; `endsMm` are the upper ends. */
export function rangeOf(size: Length, endsMm: readonly number[]): number | null {
  if (size <= 0) return null;
  const index = endsMm.findIndex((end) => size <= end * NM_PER_MM);
  return index < 0 ? null : index;
}

/** The largest size that has limits here. */
export const LARGEST_ISO_SIZE = micrometres(500_000);

/** The width of a standard tolerance grade at a nominal size, for sizes over 0 to 500 mm and IT3 to IT13. */
export function toleranceOf(size: Length, grade: number): Result<Length, FitFault> {
  const row = GRADES_UM.get(grade);
  if (row === undefined) return fail({ key: 'no-such-grade', grade });
  const range = rangeOf(size, RANGES_MM);
  const width = range === null ? undefined : row[range];
  return width === undefined ? fail({ key: 'size-out-of-range', size, most: LARGEST_ISO_SIZE }) : ok(micrometres(width));
}
