import type { Estimate } from '../trade/index.ts';

/** How a part goes on its mate, as the job knows it. */
export type FitFeel = 'wont-start' | 'tight' | 'binds-at-the-shoulder' | 'binds-at-the-end' | 'slides' | 'loose';

/**
 * The clearance on the diameter that each feel speaks for, in nm: mean and standard deviation about one inch. Common practice, no
 * source; "slides" lies in the slide fit of the hand fits, "loose" beyond it.
 */
const FELT: Readonly<Record<FitFeel, Estimate>> = {
  'wont-start': { mean: -10_000, spread: 10_000 },
  tight: { mean: 3_000, spread: 5_000 },
  'binds-at-the-shoulder': { mean: 2_000, spread: 6_000 },
  'binds-at-the-end': { mean: 2_000, spread: 6_000 },
  slides: { mean: 20_000, spread: 9_000 },
  loose: { mean: 50_000, spread: 20_000 },
};

/** Feel and numbers further apart than this many standard deviations contradict each other. */
const DISAGREE = 3;

/**
 * The clearance from the measured sizes and the feel together: each weighted by one over its variance (the normal case of Bayes'
 * rule). `agree` is false where they contradict each other: a burr, a taper, or one of the two sizes wrong.
 */
export function clearanceFrom(
  bore: Estimate,
  shaft: Estimate,
  feel: FitFeel,
): { readonly clearance: Estimate; readonly agree: boolean } {
  const measured = { mean: bore.mean - shaft.mean, spread: Math.hypot(bore.spread, shaft.spread) };
  const felt = FELT[feel];
  const weights = [1 / measured.spread ** 2, 1 / felt.spread ** 2] as const;
  const whole = weights[0] + weights[1];
  const mean = (measured.mean * weights[0] + felt.mean * weights[1]) / whole;
  const agree = Math.abs(measured.mean - felt.mean) <= DISAGREE * Math.hypot(measured.spread, felt.spread);
  return { clearance: { mean, spread: Math.sqrt(1 / whole) }, agree };
}
