import { describe, expect, it } from 'vitest';
import { perRoundFrom, roundsLeftFor, type Filed } from '../../src/coach/index.ts';
import { micrometres } from '../../src/measure/index.ts';
import { chanceFrom } from './machine/random.ts';

/** A file of its own rate, each round its own; readings to a micrometer. All invented, the prior of the coach among them. */
const USUAL_UM = 6.35;
const READING_UM = 1.5;

/** The share of so many fits whose rounds came to lie in the range that was told. */
function covered(seed: number, stretches: number, fits: number): number {
  const draw = chanceFrom(seed);
  let inside = 0;
  for (let fit = 0; fit < fits; fit += 1) {
    const rate = USUAL_UM * Math.exp(0.45 * draw.normal(0, 1));
    const round = (): number => Math.max(rate * (1 + 0.35 * draw.normal(0, 1)), 0.1 * rate);
    const log: Filed[] = [];
    for (let stretch = 0; stretch < stretches; stretch += 1) {
      const taken = round() + round() + round();
      const seen = taken + Math.SQRT2 * READING_UM * draw.normal(0, 1);
      log.push({ removed: { mean: seen * 1000, spread: Math.SQRT2 * READING_UM * 1000 }, rounds: 3 });
    }
    const left = draw.uniform(10, 50);
    const seen = left + READING_UM * draw.normal(0, 1);
    const { least, most } = roundsLeftFor({ mean: seen * 1000, spread: READING_UM * 1000 }, perRoundFrom('filing', log));
    let rounds = 0;
    for (let off = 0; off < left; off += round()) rounds += 1;
    if (rounds >= least && rounds <= most) inside += 1;
  }
  return inside / fits;
}

describe('rounds left', () => {
  it.each([0, 1, 2, 4])('lie in the range that is told 93 times in 100, with %d stretches measured (seed 71)', (stretches) => {
    expect(covered(71, stretches, 4000)).toBeGreaterThan(0.93);
  });
  it('stay within reach where the readings contradict each other', () => {
    const log: readonly Filed[] = [{ removed: { mean: -2000, spread: 3000 }, rounds: 3 }];
    const { likely, most } = roundsLeftFor({ mean: micrometres(28), spread: 1500 }, perRoundFrom('filing', log));
    expect(most / likely).toBeLessThan(2.6);
  });
});
