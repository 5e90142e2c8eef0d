import { assert, type DisplayUnit } from '../measure/index.ts';
import { PRIOR } from './candidate.ts';

/** Where the point that nobody said may be: how many of the figures come after it, and how usual that is. */
export type Placement = { readonly places: number; readonly prior: number };

const habit = (places: number): Placement => ({ places, prior: PRIOR.habit });
const also = (places: number): Placement => ({ places, prior: PRIOR.also });
const rare = (places: number): Placement => ({ places, prior: PRIOR.rare });
const stretch = (places: number): Placement => ({ places, prior: PRIOR.stretch });

/**
 * Figures said without a point, by shape: `d` a digit, `p` a pair said as one number ("twenty seven", "twelve"), `h` a
 * number with "hundred", `o` a nought that leads; noughts elsewhere are digits. "Six twenty seven" is `dp`.
 * In inch work the figures end at the thousandth unless they are more than a thousandth needs; then at the tenth.
 * Common practice, no source; the rows of docs/numbers.md are held against it.
 */
const INCH: Readonly<Record<string, readonly Placement[]>> = {
  o: [habit(0)],
  d: [habit(3), also(0), stretch(1)], // six: .006, 6.000
  p: [habit(3), also(0), stretch(2)], // sixty two: .062
  h: [habit(3)], // six hundred twenty seven; twelve hundred fifty
  od: [habit(3), also(2)], // oh five: .005, .05
  dd: [also(2), also(1), rare(3)], // six two: .62, 6.2
  dp: [habit(3), rare(2)], // six twenty seven; two fifty at 2.50
  ddd: [habit(3), rare(2)], // six two seven
  pd: [habit(4), rare(3), rare(1)], // sixty two five: .0625
  pp: [habit(3), habit(4), rare(2)], // thirteen twelve: 1.312; sixty two fifty: .6250
  pdd: [habit(3), habit(4), rare(2)], // thirteen oh five
  op: [habit(3), rare(2)], // oh forty: .040
  odd: [habit(3)], // oh six two
  opd: [habit(4)], // oh sixty two five
  oddd: [habit(4)],
  dh: [habit(3)], // one six hundred: 1.600
  hd: [habit(4), rare(3)], // six hundred five, as .6005
  dpd: [habit(4), rare(3)], // six twenty seven five: .6275
  ddp: [habit(3), rare(4)], // one two fifty: 1.250
  dddd: [habit(3), habit(4)], // one two five oh: 1.250; six two seven five: .6275
  ppd: [habit(4), rare(3)], // thirteen twelve five: 1.3125
  pdp: [habit(3), rare(4)], // twelve six twenty: 12.620
  pddd: [habit(3), rare(4)],
  ph: [habit(3)],
  ddpd: [habit(4), rare(3)], // one three twelve five: 1.3125
  ddddd: [habit(4), rare(3), rare(5)],
  pdpd: [habit(4)],
  pdddd: [habit(4)],
};

/** In millimetre work the first numbers are whole millimetres, and what follows comes after the point. */
const MILLIMETRE: Readonly<Record<string, readonly Placement[]>> = {
  o: [habit(0)],
  d: [habit(0), rare(2)],
  p: [habit(0), stretch(2)],
  h: [habit(0)],
  od: [habit(2), rare(1)], // oh five: .05
  dd: [habit(1), stretch(0)], // nine five: 9.5
  dp: [habit(2), habit(0)], // nine fifteen: 9.15; one twenty: 120
  ddd: [habit(2), rare(1), rare(0)], // nine oh five: 9.05
  pd: [habit(1)], // twenty five four: 25.4
  pp: [habit(2)], // nineteen fifteen: 19.15
  pdd: [habit(2)], // nineteen oh five: 19.05
  op: [habit(2)],
  odd: [habit(3), also(2)],
  opd: [habit(3)],
  oddd: [habit(3)],
  dh: [stretch(3)],
  hd: [habit(1)],
  dpd: [habit(1), also(3)], // one twenty five four: 125.4
  ddp: [also(2), also(3)],
  dddd: [also(2), also(3), also(1)],
  ppd: [habit(3)], // nineteen twelve five: 19.125
  pdp: [habit(3)], // nineteen one twenty five: 19.125
  pddd: [habit(3)],
  ph: [stretch(3)],
  ddpd: [also(3)],
  ddddd: [also(3), also(2)],
  pdpd: [stretch(3)],
  pdddd: [stretch(3)],
};

/** A cut or a dial in millimetre work: hundredths first, whole millimetres where the metal allows. */
const CUT_MILLIMETRE: Readonly<Record<string, readonly Placement[]>> = {
  ...MILLIMETRE,
  d: [habit(2), also(0)],
  p: [habit(2), stretch(0)],
  h: [habit(2), stretch(0)],
  dp: [habit(2), stretch(0)],
};

/** An indicator in millimetre work counts hundredths; whole turns of it are hardly ever said alone. */
const INDICATOR_MILLIMETRE: Readonly<Record<string, readonly Placement[]>> = { ...CUT_MILLIMETRE, d: [habit(2), stretch(0)] };

/** What the figures are of: a size, a cut or a dial, or what an indicator shows. */
export type Counting = 'size' | 'cut' | 'indicator';

const MILLIMETRES = { size: MILLIMETRE, cut: CUT_MILLIMETRE, indicator: INDICATOR_MILLIMETRE } as const;

/** Where the point may be in figures of a shape. */
export function placements(shape: string, unit: DisplayUnit, counting: Counting): readonly Placement[] {
  const table = unit === 'inch' ? INCH : MILLIMETRES[counting];
  const found = table[shape];
  assert(found !== undefined, `figures of the shape ${shape} have their places`);
  return found;
}

/** The shapes that have their places, for holding the table against the rules that make shapes. */
export const shapesOf = (unit: DisplayUnit): readonly string[] => Object.keys(unit === 'inch' ? INCH : MILLIMETRE);
