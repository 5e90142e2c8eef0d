/** The pair of jaws one and three, or two and four. */
export type Pair = 'across' | 'along';

/** How far the work really goes for what was asked of each pair: the best estimates and their covariance. */
export type Gains = {
  readonly across: number;
  readonly along: number;
  readonly variance: Readonly<Record<Pair, number>>;
  readonly shared: number;
};

/** Spread of the gain before the first move: 15 % of what was asked, two thirds of it the same hand on both pairs (ours). */
const SPREAD = 0.15;
const SHARED = 2 / 3;
/** What a move is out by beside its gain: 6 % of it, and half a thou of reading, in nm (ours). */
const SCATTER = 0.06;
const READING_NM = 12_700;
/** A gain is never believed beyond these: more is a slip of the dial, not a jaw (ours). */
const LEAST = 0.6;
const MOST = 1.6;

export const NO_MOVE_YET: Gains = {
  across: 1,
  along: 1,
  variance: { across: SPREAD ** 2, along: SPREAD ** 2 },
  shared: SHARED * SPREAD ** 2,
};

const within = (gain: number): number => Math.min(MOST, Math.max(LEAST, gain));

/**
 * The gains after a move: asked `amount`, went `went` (nm, same sign). A linear Gaussian update (Kalman) of two gains that share
 * part of their spread: went = gain·amount + scatter. What one pair teaches tells something of the other.
 */
export function learned(gains: Gains, pair: Pair, amount: number, went: number): Gains {
  const noise = READING_NM ** 2 + (SCATTER * amount) ** 2;
  const other: Pair = pair === 'across' ? 'along' : 'across';
  const spread = amount ** 2 * gains.variance[pair] + noise;
  const surprise = went - gains[pair] * amount;
  const own = (amount * gains.variance[pair]) / spread;
  const lent = (amount * gains.shared) / spread;
  const variance = {
    [pair]: gains.variance[pair] * (1 - own * amount),
    [other]: gains.variance[other] - lent * amount * gains.shared,
  } as Record<Pair, number>;
  const next = { [pair]: within(gains[pair] + own * surprise), [other]: within(gains[other] + lent * surprise) } as Record<
    Pair,
    number
  >;
  return { across: next.across, along: next.along, variance, shared: gains.shared * (1 - own * amount) };
}
