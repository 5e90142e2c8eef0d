import { fail, inches, NM_PER_INCH, ok, plus, thou, type Length, type Result } from '../measure/index.ts';
import { fitLimitsOf, type FitLimits } from './isoFits.ts';

/** Classes of ANSI B4.1-1967: running and sliding, locational clearance, transition, interference, and force fits. */
export const INCH_FITS = [
  ...(['RC1', 'RC2', 'RC3', 'RC4', 'RC5', 'RC6', 'RC7', 'RC8', 'RC9'] as const),
  ...(['LC1', 'LC2', 'LC3', 'LC4', 'LC5', 'LC6', 'LC7', 'LC8', 'LC9', 'LC10', 'LC11'] as const),
  ...(['LT1', 'LT2', 'LT3', 'LT4', 'LT5', 'LT6', 'LN1', 'LN2', 'LN3', 'FN1', 'FN2', 'FN3', 'FN4', 'FN5'] as const),
] as const;
export type InchFit = (typeof INCH_FITS)[number];
type ForceFit = Extract<InchFit, `FN${number}`>;

export type InchFitFault =
  | { readonly key: 'inch-size-out-of-range'; readonly size: Length; readonly fit: InchFit }
  | { readonly key: 'no-such-fit'; readonly text: string };

/** Upper ends of the size ranges, in hundredths of an inch; a size on a boundary belongs to the lower range. */
const RANGES = [12, 24, 40, 71, 119, 197, 315, 473] as const;
/** Force fits stand in finer ranges. */
const FORCE_RANGES = [12, 24, 40, 56, 71, 95, 119, 158, 197, 256, 315, 394, 473] as const;
/** The range of `RANGES` in which each of the finer ones lies. */
const FORCE_IN = [0, 1, 2, 3, 3, 4, 4, 5, 5, 6, 6, 7, 7] as const;

/** Hole tolerances in thousandths of an inch by grade, one column a range; the low limit of every hole is the nominal size. */
const HOLES: Readonly<Record<string, readonly number[]>> = {
  H5: [0.2, 0.2, 0.25, 0.3, 0.4, 0.4, 0.5, 0.6],
  H6: [0.25, 0.3, 0.4, 0.4, 0.5, 0.6, 0.7, 0.9],
  H7: [0.4, 0.5, 0.6, 0.7, 0.8, 1.0, 1.2, 1.4],
  H8: [0.6, 0.7, 0.9, 1.0, 1.2, 1.6, 1.8, 2.2],
  H9: [1.0, 1.2, 1.4, 1.6, 2.0, 2.5, 3.0, 3.5],
  H10: [1.6, 1.8, 2.2, 2.8, 3.5, 4.0, 4.5, 5.0],
  H11: [2.5, 3.0, 3.5, 4.0, 5.0, 6.0, 7.0, 9.0],
  H12: [4, 5, 6, 7, 8, 10, 12, 14],
  H13: [6, 7, 9, 10, 12, 16, 18, 22],
};

type Shafts = readonly (readonly [high: number, low: number] | null)[];
type FitRow = { readonly hole: string; readonly shafts: Shafts };

/** Reads a row of shaft limits, high over low, one cell a range: `-0.1/-0.25 none 0.5/0.1`. */
const limits = (row: string): Shafts =>
  row.split(' ').map((cell) => {
    const [high, low] = cell.split('/').map(Number);
    return cell === 'none' || high === undefined || low === undefined ? null : [high, low];
  });
const grade = (name: string): readonly number[] => HOLES[name] ?? [];
const under = (name: string): Shafts => grade(name).map((width) => [0, -width]);
const halves = (name: string): Shafts => grade(name).map((width) => [width / 2, -width / 2]);
const below = (highs: readonly number[], name: string): Shafts =>
  highs.map((high, index) => [high, high - (grade(name)[index] ?? 0)]);

/**
 * Hole grade and shaft limits in thousandths of an inch, by class.
 * RC: ANSI B4.1-1967 as printed in Machinery's Handbook, 31st ed., tables 8a and 8b; every clearance agrees with the
 * Aeronautical Engineer's Data Book, table 12.5. LN: the same handbook, table 12. LT: table 10; LT4 and LT6 over 3.15 in by
 * their symbols (H8/k7, H7/n7). LC1 to LC5: by the standard's own symbols (H6/h5, H7/h6, H8/h7, H10/h9, H7/g6) from the rows
 * above. LC6 to LC11: to 1.19 in as printed in an open copy of the standard's table; over that LC6 to LC9 by their symbols
 * (H9/f8, H10/e9, H10/d9, H11/c10), LC10 and LC11 from memory.
 */
const CLASSES: Readonly<Record<Exclude<InchFit, ForceFit>, FitRow>> = {
  RC1: { hole: 'H5', shafts: limits('-0.1/-0.25 -0.15/-0.3 -0.2/-0.35 -0.25/-0.45 -0.3/-0.55 -0.4/-0.7 -0.4/-0.7 -0.5/-0.9') },
  RC2: { hole: 'H6', shafts: limits('-0.1/-0.3 -0.15/-0.35 -0.2/-0.45 -0.25/-0.55 -0.3/-0.7 -0.4/-0.8 -0.4/-0.9 -0.5/-1.1') },
  RC3: { hole: 'H7', shafts: limits('-0.3/-0.55 -0.4/-0.7 -0.5/-0.9 -0.6/-1.0 -0.8/-1.3 -1.0/-1.6 -1.2/-1.9 -1.4/-2.3') },
  RC4: { hole: 'H8', shafts: limits('-0.3/-0.7 -0.4/-0.9 -0.5/-1.1 -0.6/-1.3 -0.8/-1.6 -1.0/-2.0 -1.2/-2.4 -1.4/-2.8') },
  RC5: { hole: 'H8', shafts: limits('-0.6/-1.0 -0.8/-1.3 -1.0/-1.6 -1.2/-1.9 -1.6/-2.4 -2.0/-3.0 -2.5/-3.7 -3.0/-4.4') },
  RC6: { hole: 'H9', shafts: limits('-0.6/-1.2 -0.8/-1.5 -1.0/-1.9 -1.2/-2.2 -1.6/-2.8 -2.0/-3.6 -2.5/-4.3 -3.0/-5.2') },
  RC7: { hole: 'H9', shafts: limits('-1.0/-1.6 -1.2/-1.9 -1.6/-2.5 -2.0/-3.0 -2.5/-3.7 -3.0/-4.6 -4.0/-5.8 -5.0/-7.2') },
  RC8: { hole: 'H10', shafts: limits('-2.5/-3.5 -2.8/-4.0 -3.0/-4.4 -3.5/-5.1 -4.5/-6.5 -5.0/-7.5 -6.0/-9.0 -7.0/-10.5') },
  RC9: { hole: 'H11', shafts: limits('-4.0/-5.6 -4.5/-6.0 -5.0/-7.2 -6.0/-8.8 -7.0/-10.5 -8.0/-12.0 -9.0/-13.5 -10.0/-15.0') },
  LC1: { hole: 'H6', shafts: under('H5') },
  LC2: { hole: 'H7', shafts: under('H6') },
  LC3: { hole: 'H8', shafts: under('H7') },
  LC4: { hole: 'H10', shafts: under('H9') },
  LC5: { hole: 'H7', shafts: below([-0.1, -0.15, -0.2, -0.25, -0.3, -0.4, -0.4, -0.5], 'H6') },
  LC6: { hole: 'H9', shafts: below([-0.3, -0.4, -0.5, -0.6, -0.8, -1.0, -1.2, -1.4], 'H8') },
  LC7: { hole: 'H10', shafts: below([-0.6, -0.8, -1.0, -1.2, -1.6, -2.0, -2.5, -3.0], 'H9') },
  LC8: { hole: 'H10', shafts: below([-1.0, -1.2, -1.6, -2.0, -2.5, -3.0, -4.0, -5.0], 'H9') },
  LC9: { hole: 'H11', shafts: below([-2.5, -2.8, -3.0, -3.5, -4.5, -5.0, -6.0, -7.0], 'H10') },
  LC10: { hole: 'H12', shafts: limits('-4/-8 -4.5/-9.5 -5/-11 -6/-13 -7/-15 -8/-18 -10/-22 -11/-25') },
  LC11: { hole: 'H13', shafts: limits('-5/-11 -6/-13 -7/-16 -8/-18 -10/-22 -12/-28 -14/-32 -16/-38') },
  LT1: { hole: 'H7', shafts: halves('H6') },
  LT2: { hole: 'H8', shafts: halves('H7') },
  LT3: { hole: 'H7', shafts: limits('none none 0.5/0.1 0.5/0.1 0.6/0.1 0.7/0.1 0.8/0.1 1.0/0.1') },
  LT4: { hole: 'H8', shafts: limits('none none 0.7/0.1 0.8/0.1 0.9/0.1 1.1/0.1 1.3/0.1 1.5/0.1') },
  LT5: { hole: 'H7', shafts: limits('0.5/0.25 0.6/0.3 0.8/0.4 0.9/0.5 1.1/0.6 1.3/0.7 1.5/0.8 1.9/1.0') },
  LT6: { hole: 'H7', shafts: limits('0.65/0.25 0.8/0.3 1.0/0.4 1.2/0.5 1.4/0.6 1.7/0.7 2.0/0.8 2.4/1.0') },
  LN1: { hole: 'H6', shafts: limits('0.45/0.25 0.5/0.3 0.65/0.4 0.8/0.4 1.0/0.5 1.1/0.6 1.3/0.8 1.6/1.0') },
  LN2: { hole: 'H7', shafts: limits('0.65/0.4 0.8/0.5 1.0/0.6 1.1/0.7 1.3/0.8 1.6/1.0 2.1/1.4 2.5/1.6') },
  LN3: { hole: 'H7', shafts: limits('0.75/0.5 0.9/0.6 1.2/0.8 1.4/1.0 1.7/1.2 2.0/1.4 2.3/1.6 2.9/2.0') },
};

/**
 * Force fits to 3.94 in as printed in Machinery's Handbook, 27th ed., table 11, p. 663; from .24 to 3.15 in the interferences
 * agree with the Aeronautical Engineer's Data Book, table 12.4. From 3.94 to 4.73 in from memory.
 */
const FORCE: Readonly<Record<ForceFit, FitRow>> = {
  FN1: {
    hole: 'H6',
    shafts: limits(
      '0.5/0.3 0.6/0.4 0.75/0.5 0.8/0.5 0.9/0.6 1.1/0.7 1.2/0.8 ' + '1.3/0.9 1.4/1.0 1.8/1.3 1.9/1.4 2.4/1.8 2.6/2.0',
    ),
  },
  FN2: {
    hole: 'H7',
    shafts: limits(
      '0.85/0.6 1.0/0.7 1.4/1.0 1.6/1.2 1.6/1.2 1.9/1.4 1.9/1.4 ' + '2.4/1.8 2.4/1.8 2.7/2.0 2.9/2.2 3.7/2.8 3.9/3.0',
    ),
  },
  FN3: { hole: 'H7', shafts: limits('none none none none none none 2.1/1.6 2.6/2.0 2.8/2.2 3.2/2.5 3.7/3.0 4.4/3.5 4.9/4.0') },
  FN4: {
    hole: 'H7',
    shafts: limits(
      '0.95/0.7 1.2/0.9 1.6/1.2 1.8/1.4 1.8/1.4 2.1/1.6 2.3/1.8 ' + '3.1/2.5 3.4/2.8 4.2/3.5 4.7/4.0 5.9/5.0 6.9/6.0',
    ),
  },
  FN5: {
    hole: 'H8',
    shafts: limits('1.3/0.9 1.7/1.2 2.0/1.4 2.3/1.6 2.5/1.8 3.0/2.2 3.3/2.5 4.0/3.0 5.0/4.0 6.2/5.0 7.2/6.0 8.4/7.0 9.4/8.0'),
  },
};

const isForce = (name: InchFit): name is ForceFit => name in FORCE;

const rangeIn = (size: Length, ends: readonly number[]): number =>
  size <= 0 ? -1 : ends.findIndex((end) => size * 100 <= end * NM_PER_INCH);

/** Reads a class name such as `RC4`. */
export function parseInchFit(text: string): Result<InchFit, InchFitFault> {
  const found = INCH_FITS.find((name) => name === text);
  return found === undefined ? fail({ key: 'no-such-fit', text }) : ok(found);
}

/** The limits of an ANSI B4.1 fit at a nominal size over 0 to 4.73 in. */
export function inchFit(size: Length, name: InchFit): Result<FitLimits, InchFitFault> {
  const force = isForce(name);
  const range = rangeIn(size, force ? FORCE_RANGES : RANGES);
  const { hole, shafts } = isForce(name) ? FORCE[name] : CLASSES[name];
  const width = grade(hole)[force ? (FORCE_IN[range] ?? -1) : range];
  const shaft = shafts[range] ?? null;
  if (width === undefined || shaft === null) return fail({ key: 'inch-size-out-of-range', size, fit: name });
  const at = (deviation: number): Length => plus(size, thou(deviation));
  return ok(fitLimitsOf({ low: size, high: at(width) }, { low: at(shaft[1]), high: at(shaft[0]) }));
}

/** The largest nominal size of the tables. */
export const LARGEST_INCH_SIZE = inches(4.73);
