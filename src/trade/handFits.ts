import { micrometres, minus, plus, scaled, type Length } from '../measure/index.ts';
import type { SizeLimits } from './isoFits.ts';

/** Fits made by hand against the very mate, in plain shop words. */
export const HAND_FITS = ['slide', 'run', 'locate', 'tap', 'press'] as const;
export type HandFit = (typeof HAND_FITS)[number];

/** Clearances on the diameter; an interference is negative. */
export type Clearances = { readonly least: Length; readonly most: Length };

/** What is left between hole and shaft, the tightest pair and the loosest; an interference is negative. Exact. */
export const clearances = (hole: SizeLimits, shaft: SizeLimits): Clearances => ({
  least: minus(hole.low, shaft.high),
  most: minus(hole.high, shaft.low),
});

/**
 * Clearance as a constant and a share of the diameter. At 25 mm (1 in): slide 17 to 38 µm (.0007 to .0015), run 37 to 63 µm
 * (.0015 to .0025), locate 2 to 13 µm, tap 0 to -10 µm, press -15 to -35 µm. Common practice, no source; close to RC3, RC5, LC2,
 * LT3 and FN1 at 1 in.
 */
const RULES: Readonly<
  Record<HandFit, { readonly least: readonly [um: number, perMm: number]; readonly most: readonly [um: number, perMm: number] }>
> = {
  slide: { least: [10, 0.3], most: [25, 0.5] },
  run: { least: [20, 0.7], most: [38, 1.0] },
  locate: { least: [2, 0], most: [8, 0.2] },
  tap: { least: [-5, -0.2], most: [0, 0] },
  press: { least: [-15, -0.8], most: [-5, -0.4] },
};

/** What each fit feels like when it is right. */
export const HAND_FIT_FEELS: Readonly<Record<HandFit, string>> = {
  slide: 'slides on by hand and does not rock',
  run: 'spins freely with oil and has a little play',
  locate: 'goes on by hand with a push, no play',
  tap: 'goes on with a light tap of a soft hammer',
  press: 'wants a press or heat',
};

/** The clearances of a fit by hand at a diameter. Rounded to the nearest nanometre. */
export function handClearances(fit: HandFit, diameter: Length): Clearances {
  const { least, most } = RULES[fit];
  const at = ([um, perMm]: readonly [number, number]): Length =>
    plus(micrometres(um), scaled(diameter, perMm / 1000, 'half-even'));
  return { least: at(least), most: at(most) };
}
