import { describe, expect, it } from 'vitest';
import { byCoach, byPlainRule, journalOf, tallyOf } from './machine/index.ts';

/**
 * The benchmark in small (`npm run bench -- coach` runs 10 000): its goals, loosened by what so few journals can show. Of 300
 * journals one under size is .33 %; a true share of .2 % gives more than 4 of them in one run of 2 000 (Poisson).
 */
const FIRST_SEED = 4_000_000;
const JOURNALS = 300;

describe(`the coach against the plain rule, seeds from ${FIRST_SEED}`, () => {
  const seeds = Array.from({ length: JOURNALS }, (_, index) => FIRST_SEED + index);
  const coach = tallyOf(seeds.map((seed) => byCoach(journalOf(seed))));
  const plain = tallyOf(seeds.map((seed) => byPlainRule(journalOf(seed), 250, true)));

  it('goes under size hardly ever, and far less often than the plain rule', () => {
    expect(plain.under).toBeGreaterThan(0.05);
    expect(coach.under).toBeLessThanOrEqual(4 / JOURNALS);
    expect(coach.under).toBeLessThan(plain.under / 5);
  });
  it('hardly ever accepts what is outside', () => {
    expect(coach.wronglyAccepted).toBeLessThanOrEqual(3 / JOURNALS);
    expect(plain.wronglyAccepted).toBeGreaterThan(0.05);
  });
  it('ends in the window, and takes no more readings but for chance', () => {
    expect(coach.inWindow).toBeGreaterThan(0.96);
    expect(coach.readings).toBeLessThan(plain.readings * 1.05);
    expect(coach.cuts).toBeLessThan(plain.cuts);
  });
  it('comes out the same on every run', () => {
    const again = tallyOf(seeds.slice(0, 20).map((seed) => byCoach(journalOf(seed))));
    expect(again).toEqual(tallyOf(seeds.slice(0, 20).map((seed) => byCoach(journalOf(seed)))));
  });
});
