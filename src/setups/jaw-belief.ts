import { micrometres, thou } from '../measure/index.ts';
import { believed, changed, combined, independent, seen, type Belief, type Estimate, type Weights } from '../trade/index.ts';

/** The pair of jaws one and three, or two and four. */
export type Pair = 'across' | 'along';
export const otherPair = (pair: Pair): Pair => (pair === 'across' ? 'along' : 'across');

/**
 * What is believed of the work in the chuck and of the hand on the key. The belief holds, in this order: the offset across and
 * along (nm), how far the work goes for what is asked of each pair, and what each pair loses when it is turned back (nm).
 * `way` is the way that each pair was turned last: 1 toward its first jaw, −1 away, 0 not yet.
 */
export type Hold = { readonly belief: Belief; readonly way: Readonly<Record<Pair, number>> };

const COUNT = 6;
const AT: Readonly<Record<Pair, number>> = { across: 0, along: 1 };
const GAIN: Readonly<Record<Pair, number>> = { across: 2, along: 3 };
const LOST: Readonly<Record<Pair, number>> = { across: 4, along: 5 };

/** How far a work may be off before anything is read: anywhere. */
const ANYWHERE_NM = 1e8;
/** Spread of the gain before the first move: 10 % of what was asked, most of it the same hand on both pairs (ours). */
const HAND = 0.08;
const EACH = 0.05;
/** What a pair loses when it is turned back, before it was: half a thou, give or take a third (ours). */
const BACKLASH = { mean: thou(0.5), spread: thou(0.3) } as const;
/** A move is out by this share of itself beside its gain; nipping up lets the work settle by so much, on both pairs (ours). */
const SCATTER = 0.055;
const SETTLES: number = micrometres(5);
/** The share of a move that the other pair feels (ours). */
const DRAGS = 0.02;
/** Half the difference of two readings of an indicator of half thous or hundredths (ours). */
export const READING_NM = 3_700;
/** A gain is never believed beyond these: more is a slip of the dial, not a jaw (ours). */
const LEAST = 0.6;
const MOST = 1.6;

const weights = (...pairs: readonly (readonly [index: number, weight: number])[]): Weights => {
  const all = new Array<number>(COUNT).fill(0);
  for (const [index, weight] of pairs) all[index] = weight;
  return all;
};

/** Before anything was read or moved. */
export function firstHold(): Hold {
  const gain = { mean: 1, spread: EACH };
  const separate = independent([
    { mean: 0, spread: ANYWHERE_NM },
    { mean: 0, spread: ANYWHERE_NM },
    gain,
    gain,
    BACKLASH,
    BACKLASH,
  ]);
  // One hand turns both pairs: its share of the spread is common to them.
  const covariances = separate.covariances.map((row, i) =>
    row.map((cell, j) => cell + (i >= 2 && i <= 3 && j >= 2 && j <= 3 ? HAND ** 2 : 0)),
  );
  return { belief: { means: separate.means, covariances }, way: { across: 0, along: 0 } };
}

export const offsetOf = ({ belief }: Hold, pair: Pair): Estimate => believed(belief, weights([AT[pair], 1]));
export const gainOf = ({ belief }: Hold, pair: Pair): Estimate => believed(belief, weights([GAIN[pair], 1]));
/** What the pair is expected to lose if it is turned that way now, nm. */
export const lostOf = ({ belief, way }: Hold, pair: Pair, toward: number): number =>
  way[pair] !== 0 && way[pair] !== toward ? (belief.means[LOST[pair]] ?? 0) : 0;

const clamped = (belief: Belief): Belief => ({
  ...belief,
  means: belief.means.map((mean, index) => (index === 2 || index === 3 ? Math.min(MOST, Math.max(LEAST, mean)) : mean)),
});

/** After a pair was read: its offset, with the spread of a reading. */
export const pairRead = (hold: Hold, pair: Pair, offset: number): Hold => ({
  ...hold,
  belief: clamped(seen(hold.belief, weights([AT[pair], 1]), offset, READING_NM)),
});

/**
 * After a whole turn of the spindle: the offset is half the range. Taken along the line on which the work is thought to be off.
 */
export function turnRead(hold: Hold, range: number): Hold {
  const [across, along] = [offsetOf(hold, 'across').mean, offsetOf(hold, 'along').mean];
  const off = Math.hypot(across, along);
  if (off === 0) return hold;
  const line = weights([AT.across, across / off], [AT.along, along / off]);
  return { ...hold, belief: clamped(seen(hold.belief, line, range / 2, READING_NM)) };
}

/** After a pair was moved by so much as asked, toward its first jaw where it is positive, nm. */
export function moved(hold: Hold, pair: Pair, amount: number): Hold {
  const toward = Math.sign(amount);
  const back = hold.way[pair] !== 0 && hold.way[pair] !== toward;
  const gone = weights([GAIN[pair], amount], ...(back ? ([[LOST[pair], -toward]] as const) : []));
  const own = changed(hold.belief, AT[pair], gone, 0, combined([SETTLES, SCATTER * amount]));
  const belief = changed(own, AT[otherPair(pair)], weights(), 0, combined([SETTLES, DRAGS * amount]));
  return { belief, way: { ...hold.way, [pair]: toward } };
}

/** Places of a round normal distribution, each as likely as the others: eight rings of eight, turned against each other. */
const PLACES: readonly (readonly [number, number])[] = Array.from({ length: 64 }, (_, index) => {
  const ring = Math.floor(index / 8);
  const radius = Math.sqrt(-2 * Math.log(1 - (ring + 0.5) / 8));
  const angle = (2 * Math.PI * ((index % 8) + (ring % 2) / 2)) / 8 + 0.1;
  return [radius * Math.cos(angle), radius * Math.sin(angle)] as const;
});

/** The chance that the work is off by no less and no more than so much, nm: the share of those places that are. */
export function chanceWithin({ belief }: Hold, least: number, most: number): number {
  const [x = 0, y = 0] = belief.means;
  const [[xx = 0, xy = 0] = [], [, yy = 0] = []] = belief.covariances;
  // The square root of the covariance (Cholesky) takes the round distribution to this one.
  const first = Math.sqrt(xx);
  const mixed = first === 0 ? 0 : xy / first;
  const second = Math.sqrt(Math.max(yy - mixed ** 2, 0));
  let inside = 0;
  for (const [u, v] of PLACES) {
    const off = Math.hypot(x + first * u, y + mixed * u + second * v);
    if (off >= least && off <= most) inside += 1;
  }
  return inside / PLACES.length;
}
