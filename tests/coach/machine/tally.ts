import type { Outcome } from './journal.ts';

/** What many journals come to; shares of all of them, and means. */
export type Tally = {
  readonly journals: number;
  readonly inWindow: number;
  readonly under: number;
  readonly over: number;
  readonly accepted: number;
  readonly wronglyAccepted: number;
  readonly undecided: number;
  readonly cuts: number;
  readonly readings: number;
  readonly rounds: number;
};

export function tallyOf(outcomes: readonly Outcome[]): Tally {
  const share = (is: (outcome: Outcome) => boolean): number => outcomes.filter(is).length / Math.max(outcomes.length, 1);
  const mean = (of: (outcome: Outcome) => number): number =>
    outcomes.reduce((sum, outcome) => sum + of(outcome), 0) / Math.max(outcomes.length, 1);
  return {
    journals: outcomes.length,
    inWindow: share(({ inWindow }) => inWindow),
    under: share(({ under }) => under),
    over: share(({ over }) => over),
    accepted: share(({ verdict }) => verdict === 'accepted'),
    wronglyAccepted: share(({ verdict, inWindow }) => verdict === 'accepted' && !inWindow),
    undecided: share(({ verdict }) => verdict === 'undecided'),
    cuts: mean(({ cuts }) => cuts),
    readings: mean(({ readings }) => readings),
    rounds: mean(({ rounds }) => rounds),
  };
}
