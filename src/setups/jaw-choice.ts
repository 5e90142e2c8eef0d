import { nanometres, roundedTo, roundReal, type Length } from '../measure/index.ts';
import { chanceWithin, gainOf, lostOf, moved, offsetOf, otherPair, type Hold, type Pair } from './jaw-belief.ts';

/** The indicator range wanted: twice the throw, or nothing to run true. `step` is what an amount is rounded to for saying. */
export type JawAim = { readonly low: Length; readonly aim: Length; readonly high: Length; readonly step: Length };

/** A move that could be asked for, nm toward the first jaw of its pair, and the chance of being there after it. */
export type Choice = { readonly pair: Pair; readonly amount: number; readonly chance: number };

/** So much of the throw may lie off the line of its jaws, 30 degrees; the throw is the same on all its circle (ours). */
const OFF_LINE = 0.5;
/** From this chance on, the move with the best chance is taken; below it nothing is near yet (ours). */
export const NEAR = 0.15;
/** Steps about the expected move that are weighed. */
const ABOUT = [0, -1, 1, -2, 2] as const;

/** The chance that the range lies in what is wanted. */
export const chanceThere = (hold: Hold, aim: JawAim): number => chanceWithin(hold, aim.low / 2, aim.high / 2);

const stepped = (amount: number, step: Length): number =>
  roundedTo(nanometres(roundReal(amount, 'half-even')), step, 'half-even');

/** What is to be asked of a pair so that it gets to a place: what it loses in turning back on top, by what its moves give. */
function askFor(hold: Hold, pair: Pair, to: number): number {
  const go = to - offsetOf(hold, pair).mean;
  const toward = Math.sign(go);
  return (go + toward * lostOf(hold, pair, toward)) / gainOf(hold, pair).mean;
}

/** Where each pair should go: the side pair to nothing, the main one to the throw, less what the side pair gives already. */
function placesFor(hold: Hold, aim: JawAim, main: Pair): Readonly<Record<Pair, number>> {
  const offset = aim.aim / 2;
  const beside = offsetOf(hold, otherPair(main)).mean;
  const given = Math.abs(beside) <= OFF_LINE * offset ? beside : 0;
  const full = Math.sqrt(offset ** 2 - given ** 2) * (offsetOf(hold, main).mean < 0 ? -1 : 1);
  return main === 'across' ? { across: full, along: 0 } : { across: 0, along: full };
}

/**
 * The move to ask for: the one with the best chance of being there after it; while none is near, the side pair out of the way
 * first, then the main one, which is the one that is further off. Null where every move is less than a step.
 */
export function bestMove(hold: Hold, aim: JawAim, pairs: readonly Pair[]): Choice | null {
  const off = (pair: Pair): number => Math.abs(offsetOf(hold, pair).mean);
  const main: Pair = off('across') >= off('along') ? 'across' : 'along';
  const places = placesFor(hold, aim, main);
  const choices = pairs.flatMap((pair) =>
    ABOUT.map((steps) => stepped(askFor(hold, pair, places[pair]), aim.step) + steps * aim.step)
      .filter((amount) => amount !== 0)
      .map((amount): Choice => ({ pair, amount, chance: chanceThere(moved(hold, pair, amount), aim) })),
  );
  const best = choices.reduce<Choice | null>((top, choice) => (top === null || choice.chance > top.chance ? choice : top), null);
  if (best !== null && best.chance >= NEAR) return best;

  const side = otherPair(main);
  const sideFirst = aim.aim > 0 && off(side) > (OFF_LINE * aim.aim) / 2;
  const pair = pairs.find((candidate) => candidate === (sideFirst ? side : main)) ?? pairs[0] ?? main;
  const amount = stepped(askFor(hold, pair, places[pair]), aim.step);
  return amount === 0 ? best : { pair, amount, chance: chanceThere(moved(hold, pair, amount), aim) };
}
