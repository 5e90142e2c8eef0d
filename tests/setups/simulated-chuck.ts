import { inches, nanometres, roundedTo, thou, type Length } from '../../src/measure/index.ts';
import { dialIn, type ChuckReading, type Jaw, type JawAim } from '../../src/setups/index.ts';

/** Numbers that are the same on every run: mulberry32, good enough for a shop. */
export function chance(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

export const between = (draw: () => number, low: number, high: number): number => low + draw() * (high - low);
export const normal = (draw: () => number, deviation: number): number =>
  deviation * Math.sqrt(-2 * Math.log(1 - draw())) * Math.cos(2 * Math.PI * draw());

/**
 * How a jaw and the hand on its key behave; inches, our own figures (no source). `gain` is how far the work goes for what was
 * asked, `pairs` how much the pairs differ in it; `scatter` of each move beside that; `backlash` is lost when a pair is turned
 * back; `spring` is how far the work settles anywhere when the jaws are nipped up; `cross` the share of a move that the other
 * pair feels; `reading` is how far off the dial is read, either way, before it is taken to the nearest `division`.
 */
export type ChuckHabits = {
  readonly gain: number;
  readonly pairs: number;
  readonly scatter: number;
  readonly backlash: number;
  readonly spring: number;
  readonly cross: number;
  readonly reading: number;
  readonly division: number;
};

export const REALISTIC: ChuckHabits = {
  gain: 0.12,
  pairs: 0.06,
  scatter: 0.05,
  backlash: 0.001,
  spring: 0.0002,
  cross: 0.03,
  reading: 0.00025,
  division: 0.0005,
};

/** How far off the work is thrown into the chuck at the start, either way along each pair, in inches. */
export const WORST_START = 0.25;

/** The indicator is to come within this of twice the throw, in inches. */
export const TOLERANCE = 0.001;

export type DialledIn = { readonly moves: number; readonly error: number; readonly finished: boolean };

/**
 * Dials in one invented chuck by what is advised, reading what is asked for and the pair that was moved; `error` is that
 * of the true range, in inches.
 */
export function simulated(
  draw: () => number,
  throw_: number,
  habits: ChuckHabits,
  mostMoves: number,
  start = WORST_START,
): DialledIn {
  const range = inches(2 * throw_);
  const aim: JawAim = {
    low: nanometres(Math.max(0, range - thou(1))),
    aim: range,
    high: nanometres(range + thou(1)),
    step: thou(0.5),
  };
  const hand = between(draw, 1 - habits.gain, 1 + habits.gain);
  const gain = [hand + between(draw, -habits.pairs, habits.pairs), hand + between(draw, -habits.pairs, habits.pairs)] as const;
  const lost = [between(draw, 0, habits.backlash), between(draw, 0, habits.backlash)] as const;
  const turned = [0, 0];
  const at = [between(draw, -start, start), between(draw, -start, start)];
  const radius = between(draw, 0.5, 1.5);
  const readings: ChuckReading[] = [];
  const off = (index: number): number => at[index] ?? 0;

  const slip = (): number => between(draw, -habits.reading, habits.reading);
  const dial = (shown: number): Length => roundedTo(inches(shown + slip()), inches(habits.division), 'half-even');
  const read = (jaw: Jaw): void => {
    const [along, across] =
      jaw === 1 ? [off(0), off(1)] : jaw === 3 ? [-off(0), off(1)] : jaw === 2 ? [off(1), off(0)] : [-off(1), off(0)];
    const shown = along + Math.sqrt(radius ** 2 - across ** 2) - radius;
    readings.push({ jaw, indicator: dial(shown) });
  };
  const trueError = (): number => 2 * Math.hypot(off(0), off(1)) - 2 * throw_;

  let moves = 0;
  for (;;) {
    const { advice } = dialIn(readings, aim);
    if (advice.next === 'done') return { moves, error: trueError(), finished: true };
    if (advice.next === 'sweep') {
      // The spindle is turned round by hand: low and high are read off the dial, wherever its zero stands.
      const half = trueError() / 2 + throw_;
      const zero = between(draw, -habits.division, habits.division);
      const low = dial(zero - half);
      const high = dial(zero + half);
      readings.push({ low, high });
      continue;
    }
    if (advice.next === 'read') {
      const jaws = draw() < 0.5 ? advice.jaws : [...advice.jaws].reverse();
      for (const jaw of jaws) read(jaw);
      continue;
    }
    if (moves === mostMoves) return { moves, error: trueError(), finished: false };
    moves += 1;
    const { loosen, amount } = advice.move;
    const pair = loosen === 1 || loosen === 3 ? 0 : 1;
    // The work goes toward the jaw that is loosened.
    const way = loosen === 1 || loosen === 2 ? 1 : -1;
    const asked = amount / inches(1);
    const back = turned[pair] !== 0 && turned[pair] !== way ? lost[pair] : 0;
    turned[pair] = way;
    const went = Math.max(0, asked * gain[pair] * (1 + normal(draw, habits.scatter)) - back);
    at[pair] = off(pair) + way * went + normal(draw, habits.spring);
    at[1 - pair] = off(1 - pair) + went * between(draw, -habits.cross, habits.cross) + normal(draw, habits.spring);
    for (const jaw of pair === 0 ? ([1, 3] as const) : ([4, 2] as const)) read(jaw);
  }
}
