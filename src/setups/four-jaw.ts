import { larger, magnitude, nanometres, roundedTo, roundReal, type Length } from '../measure/index.ts';
import { learned, NO_MOVE_YET, type Gains, type Pair } from './jaw-gain.ts';

/** A jaw by its number on the chuck, round it in order: one is opposite three, two opposite four. */
export type Jaw = 1 | 2 | 3 | 4;

/** What the indicator showed on the work under a jaw; more is nearer to the indicator. */
export type JawReading = { readonly jaw: Jaw; readonly indicator: Length };

/** The indicator range wanted: twice the throw, or nothing to run true. `step` is what an amount is rounded to for saying. */
export type JawAim = { readonly low: Length; readonly aim: Length; readonly high: Length; readonly step: Length };

/** A move of the work across one pair of jaws, as far as the indicator on it should go. */
export type JawMove = { readonly loosen: Jaw; readonly tighten: Jaw; readonly amount: Length };

/**
 * What to do next in a four-jaw chuck: read these jaws, make this move, or (the jaws say that it is there) turn the spindle
 * round by hand and read low and high. `range` is the range that the jaws amount to, once all four are read.
 */
export type JawAdvice =
  | { readonly next: 'read'; readonly jaws: readonly Jaw[] }
  | { readonly next: 'move'; readonly move: JawMove; readonly range: Length | null }
  | { readonly next: 'sweep'; readonly range: Length };

type Side = { readonly plus: Length | null; readonly minus: Length | null; readonly off: number | null };
/** A move that was told: `from` is where its pair stood, `otherRead` says that the other pair was read since. */
type Outstanding = { readonly pair: Pair; readonly amount: number; readonly from: number; readonly otherRead: boolean };

/**
 * Where the dialling in stands. `sides` holds, for each pair, the latest readings (null where they are to be taken again) and
 * the last known offset of the work toward the first jaw of the pair, in nm, which stays while the pair is read again.
 */
export type Chuck = {
  readonly sides: Readonly<Record<Pair, Side>>;
  readonly asked: Outstanding | null;
  readonly gains: Gains;
  readonly moves: number;
};

const JAWS: Readonly<Record<Pair, readonly [Jaw, Jaw]>> = { across: [1, 3], along: [2, 4] };
const PAIRS = ['across', 'along'] as const;
const pairOf = (jaw: Jaw): Pair => (jaw === 1 || jaw === 3 ? 'across' : 'along');

const unread: Side = { plus: null, minus: null, off: null };
const untouched: Chuck = { sides: { across: unread, along: unread }, asked: null, gains: NO_MOVE_YET, moves: 0 };

/** Share of the tolerance that the jaws must come within before the sweep is asked for: the sweep decides the rest (ours). */
const GUARD = 0.9;
/** A longer move than this drags the other pair along enough to read it again: 10 thou, in nm (ours). */
const DISTURBS = 254_000;
/** A pair that has gone less than this share of what was asked was read again, not moved (ours). */
const MOVED = 0.3;

/** The chuck after one more reading: a jaw that was read already begins a new round of its pair. */
function withReading(chuck: Chuck, { jaw, indicator }: JawReading): Chuck {
  const pair = pairOf(jaw);
  const side = chuck.sides[pair];
  const first = JAWS[pair][0] === jaw;
  const again = first ? side.plus !== null : side.minus !== null;
  const plus = first ? indicator : again ? null : side.plus;
  const minus = first ? (again ? null : side.minus) : indicator;
  if (plus === null || minus === null) return { ...chuck, sides: { ...chuck.sides, [pair]: { ...side, plus, minus } } };
  // The two readings of a pair differ by twice the offset along it, exactly, whatever the offset across (docs/setups.md).
  const off = (plus - minus) / 2;
  const sides = { ...chuck.sides, [pair]: { plus, minus, off } };
  const { asked } = chuck;
  if (asked === null) return { ...chuck, sides };
  // In the first round the other pair is read as a matter of course: a move that was told before then has not been made yet.
  if (asked.pair !== pair) return { ...chuck, sides, asked: side.off === null ? null : { ...asked, otherRead: true } };
  const went = (off - asked.from) / asked.amount;
  if (went < MOVED) return { ...chuck, sides, asked: null };
  const other: Pair = pair === 'across' ? 'along' : 'across';
  const disturbed = !asked.otherRead && chuck.sides[other].off !== null && Math.abs(asked.amount) > DISTURBS;
  return {
    sides: disturbed ? { ...sides, [other]: { ...sides[other], plus: null, minus: null } } : sides,
    asked: null,
    gains: learned(chuck.gains, pair, asked.amount, off - asked.from),
    moves: chuck.moves + 1,
  };
}

const rangeOf = (across: number, along: number): number => 2 * Math.hypot(across, along);

/**
 * So much of the throw may lie off the line of its jaws: a quarter, 14 degrees; the throw is the same on all its circle
 * (ours).
 */
const OFF_LINE = 1 / 4;

/**
 * Where the work should go along each pair: the throw along the pair that it is already further off on, so much less as the other
 * pair, left alone, gives already; nothing on the other.
 */
function wanted(across: number, along: number, aim: JawAim): Readonly<Record<Pair, number>> {
  const offset = aim.aim / 2;
  const first = Math.abs(across) >= Math.abs(along);
  const [main, other] = first ? [across, along] : [along, across];
  const beside = Math.abs(other) <= OFF_LINE * offset ? other : 0;
  const full = Math.sqrt(offset ** 2 - beside ** 2) * (main < 0 ? -1 : 1);
  return first ? { across: full, along: 0 } : { across: 0, along: full };
}

/**
 * The move that takes the work from `off` to `to` along a pair, by what the last moves have taught; null where it is too
 * small.
 */
function moveOf(
  pair: Pair,
  off: number,
  to: number,
  aim: JawAim,
  gains: Gains,
): { move: JawMove; outstanding: Outstanding } | null {
  const needed = (to - off) / gains[pair];
  const amount = roundedTo(nanometres(roundReal(Math.abs(needed), 'half-even')), aim.step, 'half-even');
  if (amount === 0) return null;
  const [plus, minus] = JAWS[pair];
  const towardPlus = needed > 0;
  // Work goes away from the jaw that is tightened.
  const move = { loosen: towardPlus ? plus : minus, tighten: towardPlus ? minus : plus, amount };
  return { move, outstanding: { pair, amount: towardPlus ? amount : -amount, from: off, otherRead: false } };
}

function advise(chuck: Chuck, aim: JawAim): { readonly advice: JawAdvice; readonly outstanding: Outstanding | null } {
  const { across, along } = chuck.sides;
  const read = (jaws: readonly Jaw[]): ReturnType<typeof advise> => ({ advice: { next: 'read', jaws }, outstanding: null });
  const begun = PAIRS.flatMap((pair) => {
    const { plus, minus } = chuck.sides[pair];
    const [first, second] = JAWS[pair];
    return plus === null && minus !== null ? [first] : plus !== null && minus === null ? [second] : [];
  });
  if (begun.length > 0) return read(begun);
  if (across.off === null && along.off === null) return read([1, 2, 3, 4]);
  if (across.off === null || along.off === null) {
    const [known, rest] = across.off === null ? (['along', 'across'] as const) : PAIRS;
    const { off } = chuck.sides[known];
    // To run true, one pair can be put right before the other is read; a throw needs all four, to choose the jaw it goes toward.
    const near = aim.aim > 0 || off === null || rangeOf(off, 0) <= aim.high * GUARD;
    const made = near ? null : moveOf(known, off, 0, aim, chuck.gains);
    if (made === null) return read(JAWS[rest]);
    return { advice: { next: 'move', move: made.move, range: null }, outstanding: made.outstanding };
  }
  const stale = PAIRS.find((pair) => chuck.sides[pair].plus === null);
  if (stale !== undefined) return read(JAWS[stale]);
  // A pair that was told to move and was not read since is not known.
  if (chuck.asked !== null) return read(JAWS[chuck.asked.pair]);
  const off = { across: across.off, along: along.off };
  const to = wanted(off.across, off.along, aim);
  const range = nanometres(roundReal(rangeOf(off.across, off.along), 'half-even'));
  const tolerance = GUARD * larger(magnitude(nanometres(aim.high - aim.aim)), magnitude(nanometres(aim.aim - aim.low)));
  if (Math.abs(range - aim.aim) <= tolerance) return { advice: { next: 'sweep', range }, outstanding: null };
  // The pair whose move alone brings the range nearest to the aim goes first.
  const after: Readonly<Record<Pair, number>> = { across: rangeOf(to.across, off.along), along: rangeOf(off.across, to.along) };
  const [first, second] =
    Math.abs(after.along - aim.aim) < Math.abs(after.across - aim.aim) ? (['along', 'across'] as const) : PAIRS;
  const made =
    moveOf(first, off[first], to[first], aim, chuck.gains) ?? moveOf(second, off[second], to[second], aim, chuck.gains);
  if (made === null) return { advice: { next: 'sweep', range }, outstanding: null };
  return { advice: { next: 'move', move: made.move, range }, outstanding: made.outstanding };
}

/**
 * What the readings of the jaws, in the order they were taken, come to: the next thing to do, and what was learned on the way.
 * Pure and total; the same readings of one round give the same advice in any order. A reading of a jaw that was read already
 * says that the move was made.
 */
export function dialIn(readings: readonly JawReading[], aim: JawAim): { readonly advice: JawAdvice; readonly chuck: Chuck } {
  let chuck = untouched;
  let advised = advise(chuck, aim);
  for (const reading of readings) {
    chuck = withReading(chuck, reading);
    advised = advise(chuck, aim);
    if (advised.outstanding !== null) chuck = { ...chuck, asked: advised.outstanding };
  }
  return { advice: advised.advice, chuck };
}
