import type { Length } from '../measure/index.ts';
import { asLength, roundsLeft as quotient, type Estimate } from '../trade/index.ts';
import { RISK } from './priors.ts';

/** How the last of the metal comes off. */
export type Filing = 'filing' | 'polishing';

/** A stretch of filing between two readings: what came off, in nm with the spread of the readings, over how many rounds. */
export type Filed = { readonly removed: Estimate; readonly rounds: number };

/**
 * What one round takes, before any was measured: a quarter of a thou with the file, a tenth of one with cloth, within about
 * a factor of two. A round varies by a third about its own average. Common practice, no source.
 */
const BEFORE: Readonly<Record<Filing, Estimate>> = {
  filing: { mean: 6_350, spread: 3_800 },
  polishing: { mean: 2_540, spread: 1_500 },
};
const ROUND_VARIES = 0.35;

/**
 * What a round takes on the average, from the log: the prior and each stretch weighted by one over its variance (the normal
 * case of Bayes' rule). A stretch of n rounds says removed/n, within √(u² + n·v²)/n, v the variation of a round.
 */
export function perRoundFrom(working: Filing, log: readonly Filed[]): Estimate {
  const before = BEFORE[working];
  let weight = 1 / before.spread ** 2;
  let sum = before.mean * weight;
  for (const { removed, rounds } of log) {
    if (rounds <= 0) continue;
    const varies = ROUND_VARIES * Math.max(removed.mean / rounds, before.mean / 2);
    const variance = (removed.spread ** 2 + rounds * varies ** 2) / rounds ** 2;
    weight += 1 / variance;
    sum += removed.mean / rounds / variance;
  }
  // Metal does not grow under a file: what the log seems to say below a quarter of the usual is noise of the readings.
  return { mean: Math.max(sum / weight, before.mean / 4), spread: Math.sqrt(1 / weight) };
}

/** What a round is where strokes or seconds are counted: half a minute at forty strokes a minute (TM 1-1500-204-23-9). */
export const A_ROUND = { rounds: 1, strokes: 20, seconds: 30 } as const;

/** What so many rounds are expected to take. */
export const removedBy = ({ mean, spread }: Estimate, rounds: number): Estimate => ({
  mean: rounds * mean,
  spread: Math.hypot(rounds * spread, Math.sqrt(rounds) * ROUND_VARIES * mean),
});

/** Where the log knows next to nothing of the rate, it is still within a factor of two or so: 0.6 of it either way (ours). */
const RATE_AT_MOST = 0.6;

/** Rounds to a size: likely, and the least and most that 95 % of cases lie between. */
export type RoundsLeft = { readonly least: number; readonly likely: number; readonly most: number; readonly perRound: Length };

/** The rounds left to take an amount off; the least is rounded down and one at the least, the most rounded up. */
export function roundsLeftFor(left: Estimate, each: Estimate): RoundsLeft {
  const likely = Math.max(quotient(asLength(left.mean, 'half-even'), asLength(Math.max(each.mean, 1), 'half-even')), 0);
  // The relative variances add: of the rate, of the amount left, of the single rounds.
  const relative = Math.hypot(
    Math.min(each.spread / each.mean, RATE_AT_MOST),
    left.mean > 0 ? left.spread / left.mean : 0,
    ROUND_VARIES / Math.sqrt(Math.max(likely, 1)),
  );
  return {
    least: Math.max(1, Math.floor(likely / (1 + 2 * relative))),
    likely: Math.max(1, Math.round(likely)),
    most: Math.max(1, Math.ceil(likely * (1 + 2 * relative))),
    perRound: asLength(each.mean, 'half-even'),
  };
}

/** Where the file goes: one end of the journal alone, or the whole of it. */
export type FileWhere = 'chuck-end' | 'free-end' | 'all-along';

/** How far one end may stand above the other before filing goes there first, in standard deviations of the difference. */
const HIGH_END = 2;
/**
 * Where to file: at the end that is larger for certain, or where it binds; all along where neither is known. `allowed` is the
 * taper that nobody chases, in nm: a share of the window.
 */
export function whereToFile(taper: Estimate, allowed: number, binds: 'chuck-end' | 'free-end' | null): FileWhere {
  const certain = Math.max(HIGH_END * taper.spread, allowed);
  if (taper.mean > certain) return 'free-end';
  if (taper.mean < -certain) return 'chuck-end';
  return binds ?? 'all-along';
}

/** The share of the likely rounds that is filed before the first reading, while nobody knows what a round takes. */
const FIRST_STRETCH = 0.7;

/**
 * How many rounds before the next reading: as many as leave the chance of going under at the stated risk, only some of the
 * likely ones while the rate is not yet measured, and one at the least.
 */
export function roundsBeforeReading(left: Estimate, room: number, each: Estimate, measured: boolean): number {
  const wanted = measured ? left.mean / each.mean : (FIRST_STRETCH * left.mean) / each.mean;
  const { deviations } = measured ? RISK.filing : RISK.firstFiling;
  let rounds = 0;
  while (rounds < Math.ceil(wanted - 0.25)) {
    const taken = removedBy(each, rounds + 1);
    if (taken.mean + deviations * Math.hypot(taken.spread, left.spread) > room) break;
    rounds += 1;
  }
  return rounds;
}
