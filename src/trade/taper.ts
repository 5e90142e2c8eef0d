import {
  assert,
  degrees,
  minus,
  nanometres,
  NM_PER_INCH,
  roundReal,
  scaled,
  toInches,
  type Angle,
  type Diameter,
  type Length,
  type Rounding,
} from '../measure/index.ts';

/** A taper as the change of diameter over a length along the axis. */
export type Taper = { readonly large: Diameter; readonly small: Diameter; readonly over: Length };

/** The ratio of diameter to length: (D − d)/l. */
export function taperRatio({ large, small, over }: Taper): number {
  assert(over > 0, 'a taper has a length');
  return minus(large, small) / over;
}

/** Taper per foot in inches, as shops and tables give it. */
export const taperPerFoot = (taper: Taper): number => 12 * taperRatio(taper);

/** Tailstock set-over for a whole work length L between centres: L·(D − d)/(2·l). */
export const setOver = (taper: Taper, workLength: Length, rounding: Rounding): Length =>
  scaled(workLength, taperRatio(taper) / 2, rounding);

/** Set-over from a taper per foot: TPF·L/24. */
export const setOverByFoot = (perFoot: number, workLength: Length, rounding: Rounding): Length =>
  nanometres(roundReal((perFoot / 24) * toInches(workLength) * NM_PER_INCH, rounding));

/** The compound's angle from the axis: atan((D − d)/(2·l)), half the included angle. */
export const compoundAngle = (taper: Taper): Angle => degrees((Math.atan(taperRatio(taper) / 2) * 180) / Math.PI, 'half-even');

/** The same from a taper per foot. */
export const compoundAngleByFoot = (perFoot: number): Angle => degrees((Math.atan(perFoot / 24) * 180) / Math.PI, 'half-even');

/** Morse tapers, taper per foot in inches, by number: five places as two tables on the web print them (docs/sources.md). */
export const MORSE_TAPER_PER_FOOT = [0.6246, 0.59858, 0.59941, 0.60235, 0.62326, 0.63151] as const;

/** How far a taper plug goes in for a change of diameter: Δd·l/(D − d). */
export const advanceFor = (taper: Taper, change: Length, rounding: Rounding): Length =>
  scaled(change, 1 / taperRatio(taper), rounding);
