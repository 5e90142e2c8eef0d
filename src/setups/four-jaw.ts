import { nanometres, roundReal, type Length } from '../measure/index.ts';
import { firstHold, moved, offsetOf, otherPair, pairRead, READING_NM, turnRead, type Hold, type Pair } from './jaw-belief.ts';
import { bestMove, chanceThere, NEAR, type JawAim } from './jaw-choice.ts';

/** A jaw by its number on the chuck, round it in order: one is opposite three, two opposite four. */
export type Jaw = 1 | 2 | 3 | 4;

/** What the indicator showed on the work under a jaw; more is nearer to the indicator. */
export type JawReading = { readonly jaw: Jaw; readonly indicator: Length };
/** The least and the most that the indicator showed in a whole turn of the spindle. */
export type TurnReading = { readonly low: Length; readonly high: Length };
export type ChuckReading = JawReading | TurnReading;

/** A move of the work across one pair of jaws, as far as the indicator on it should go. */
export type JawMove = { readonly loosen: Jaw; readonly tighten: Jaw; readonly amount: Length };

/**
 * What to do next in a four-jaw chuck: read these jaws, make this move, or (the jaws say that it may be there) turn the spindle
 * round by hand and read low and high. `range` is the range that the readings amount to, once all four jaws are read.
 */
export type JawAdvice =
  | { readonly next: 'read'; readonly jaws: readonly Jaw[] }
  | { readonly next: 'move'; readonly move: JawMove; readonly range: Length | null }
  | { readonly next: 'sweep'; readonly range: Length }
  | { readonly next: 'done'; readonly range: Length };

type Side = { readonly plus: Length | null; readonly minus: Length | null; readonly known: boolean };
/** A move that was told, and the chuck as it is believed to be if it has been made. */
type Outstanding = { readonly pair: Pair; readonly amount: number; readonly from: number; readonly then: Hold };

/**
 * Where the dialling in stands. `sides` holds, for each pair, the readings of its present round (null where they are to be
 * taken), and whether it was ever read; `hold` what all readings amount to; `turned` that the spindle was turned round since the
 * last move.
 */
export type Chuck = {
  readonly sides: Readonly<Record<Pair, Side>>;
  readonly hold: Hold;
  readonly asked: Outstanding | null;
  readonly turned: boolean;
  readonly moves: number;
};

const JAWS: Readonly<Record<Pair, readonly [Jaw, Jaw]>> = { across: [1, 3], along: [2, 4] };
const PAIRS = ['across', 'along'] as const;
const pairOf = (jaw: Jaw): Pair => (jaw === 1 || jaw === 3 ? 'across' : 'along');

const unread: Side = { plus: null, minus: null, known: false };

const untouched = (): Chuck => ({
  sides: { across: unread, along: unread },
  hold: firstHold(),
  asked: null,
  turned: false,
  moves: 0,
});

/**
 * After a move, the other pair is read again where it is known no better than this: always when it is to run true, after
 * a move of about 10 thou when it is only beside a throw (ours).
 */
const readAgainNm = ({ aim }: JawAim): number => (aim === 0 ? 1.5 : 2.2) * READING_NM;
/** A pair that has gone less than this share of what was asked, and nowhere near it, was read again, not moved (ours). */
const MOVED = 0.3;
const NOWHERE_NEAR = 3;
/** Where the chance of being there is this, it is worth a turn of the spindle to see; and then this is enough (ours). */
const WORTH_A_TURN = 0.7;
const SURE = 0.75;

const again = (side: Side): Side => ({ ...side, plus: null, minus: null });

/** The chuck after one more reading: a jaw that was read already begins a new round of its pair. */
function withReading(chuck: Chuck, { jaw, indicator }: JawReading, aim: JawAim): Chuck {
  const pair = pairOf(jaw);
  const side = chuck.sides[pair];
  const first = JAWS[pair][0] === jaw;
  const begun = first ? side.plus !== null : side.minus !== null;
  const plus = first ? indicator : begun ? null : side.plus;
  const minus = first ? (begun ? null : side.minus) : indicator;
  if (plus === null || minus === null) return { ...chuck, sides: { ...chuck.sides, [pair]: { ...side, plus, minus } } };
  // The two readings of a pair differ by twice the offset along it, exactly, whatever the offset across (docs/setups.md).
  const off = (plus - minus) / 2;
  const sides = { ...chuck.sides, [pair]: { plus, minus, known: true } };
  const { asked } = chuck;
  const stayed = pairRead(chuck.hold, pair, off);
  if (asked === null) return { ...chuck, sides, hold: stayed };
  // In the first round the other pair is read as a matter of course: a move that was told before then has not been made yet.
  if (asked.pair !== pair)
    return { ...chuck, sides, hold: stayed, asked: side.known ? { ...asked, then: pairRead(asked.then, pair, off) } : null };
  const expected = offsetOf(asked.then, pair);
  const away = Math.abs(off - expected.mean) / Math.hypot(expected.spread, READING_NM);
  if ((off - asked.from) / asked.amount < MOVED && away > NOWHERE_NEAR) return { ...chuck, sides, hold: stayed, asked: null };
  const hold = pairRead(asked.then, pair, off);
  const other = otherPair(pair);
  const disturbed = offsetOf(hold, other).spread > readAgainNm(aim);
  return {
    sides: disturbed ? { ...sides, [other]: again(sides[other]) } : sides,
    hold,
    asked: null,
    turned: false,
    moves: chuck.moves + 1,
  };
}

/** The chuck after a turn of the spindle. While a move is outstanding nobody knows whether it was before or after it. */
function withTurn(chuck: Chuck, { low, high }: TurnReading): Chuck {
  if (chuck.asked !== null || !chuck.sides.across.known || !chuck.sides.along.known) return chuck;
  const sides = { across: again(chuck.sides.across), along: again(chuck.sides.along) };
  return { ...chuck, sides, hold: turnRead(chuck.hold, Math.abs(high - low)), turned: true };
}

type Advised = { readonly advice: JawAdvice; readonly outstanding: Outstanding | null };

function told(chuck: Chuck, pair: Pair, amount: number, range: Length | null): Advised {
  const [plus, minus] = JAWS[pair];
  // Work goes away from the jaw that is tightened.
  const [loosen, tighten] = amount > 0 ? [plus, minus] : [minus, plus];
  const move = { loosen, tighten, amount: nanometres(Math.abs(amount)) };
  const outstanding = { pair, amount, from: offsetOf(chuck.hold, pair).mean, then: moved(chuck.hold, pair, amount) };
  return { advice: { next: 'move', move, range }, outstanding };
}

function advise(chuck: Chuck, aim: JawAim): Advised {
  const read = (jaws: readonly Jaw[]): Advised => ({ advice: { next: 'read', jaws }, outstanding: null });
  const begun = PAIRS.flatMap((pair) => {
    const { plus, minus } = chuck.sides[pair];
    const [first, second] = JAWS[pair];
    return plus === null && minus !== null ? [first] : plus !== null && minus === null ? [second] : [];
  });
  if (begun.length > 0) return read(begun);
  const { across, along } = chuck.sides;
  if (!across.known && !along.known) return read([1, 2, 3, 4]);
  if (!across.known || !along.known) {
    const [known, rest] = across.known ? PAIRS : (['along', 'across'] as const);
    // To run true, one pair can be put right before the other is read; a throw needs all four, to choose the jaw it goes toward.
    const off = offsetOf(chuck.hold, known).mean;
    const near = aim.aim > 0 || 2 * Math.abs(off) <= aim.high;
    const made = near ? null : bestMove(chuck.hold, aim, [known]);
    return made === null ? read(JAWS[rest]) : told(chuck, known, made.amount, null);
  }
  // A pair that was told to move and was not read since is not known.
  if (chuck.asked !== null) return read(JAWS[chuck.asked.pair]);
  const range = nanometres(
    roundReal(2 * Math.hypot(offsetOf(chuck.hold, 'across').mean, offsetOf(chuck.hold, 'along').mean), 'half-even'),
  );
  const there = chanceThere(chuck.hold, aim);
  const done: Advised = { advice: { next: 'done', range }, outstanding: null };
  if (chuck.turned && there >= SURE) return done;
  const stale = PAIRS.filter((pair) => chuck.sides[pair].plus === null).flatMap((pair) => JAWS[pair]);
  if (stale.length > 0) return read([...stale].sort());
  const sweep: Advised = { advice: { next: 'sweep', range }, outstanding: null };
  if (!chuck.turned && there >= WORTH_A_TURN) return sweep;
  const made = bestMove(chuck.hold, aim, PAIRS);
  const near = made !== null && made.chance >= NEAR;
  // No move makes it likelier to be there than it is.
  if (made === null || (near && made.chance <= there)) return chuck.turned ? done : sweep;
  return told(chuck, made.pair, made.amount, range);
}

/**
 * What the readings of the jaws and of whole turns, in the order they were taken, come to: the next thing to do, and what was
 * learned on the way. Pure and total; the same readings of one round give the same advice in any order. A reading of a jaw that
 * was read already says that the move was made.
 */
export function dialIn(readings: readonly ChuckReading[], aim: JawAim): { readonly advice: JawAdvice; readonly chuck: Chuck } {
  let chuck = untouched();
  let advised = advise(chuck, aim);
  for (const reading of readings) {
    chuck = 'jaw' in reading ? withReading(chuck, reading, aim) : withTurn(chuck, reading);
    advised = advise(chuck, aim);
    if (advised.outstanding !== null) chuck = { ...chuck, asked: advised.outstanding };
  }
  return { advice: advised.advice, chuck };
}
