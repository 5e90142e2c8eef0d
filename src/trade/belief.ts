import { assert } from '../measure/index.ts';

/**
 * What is believed of several quantities at once: a normal distribution, by its means and covariances (row by row). The unit of
 * each is the owner's; sizes are real nanometres.
 */
export type Belief = { readonly means: readonly number[]; readonly covariances: readonly (readonly number[])[] };

/** How much each quantity counts in a sum. */
export type Weights = readonly number[];

/** Mean and standard deviation of one number. */
export type Estimate = { readonly mean: number; readonly spread: number };

/** A belief in quantities that have nothing to do with each other yet. */
export function independent(quantities: readonly Estimate[]): Belief {
  return {
    means: quantities.map(({ mean }) => mean),
    covariances: quantities.map(({ spread }, row) => quantities.map((_, column) => (row === column ? spread ** 2 : 0))),
  };
}

const dot = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, value, index) => sum + value * (b[index] ?? 0), 0);

/** What a weighted sum of the quantities is believed to be: h·m, with the variance h·P·h. */
export function believed({ means, covariances }: Belief, weights: Weights): Estimate {
  const spread = Math.sqrt(
    Math.max(
      0,
      dot(
        weights,
        covariances.map((row) => dot(row, weights)),
      ),
    ),
  );
  return { mean: dot(weights, means), spread };
}

/**
 * The belief after a weighted sum of the quantities was seen as `value` with a standard uncertainty: gain K = P·h/(h·P·h + u²),
 * means m + K·(value − h·m), covariances P − K·hᵀ·P (R. E. Kalman, J. Basic Eng. 82, 1960; the normal case of Bayes' rule).
 */
export function seen(belief: Belief, weights: Weights, value: number, uncertainty: number): Belief {
  const carried = belief.covariances.map((row) => dot(row, weights));
  const variance = dot(weights, carried) + uncertainty ** 2;
  assert(variance > 0, 'what is known exactly cannot be learned from');
  const surprise = value - dot(weights, belief.means);
  return {
    means: belief.means.map((mean, index) => mean + ((carried[index] ?? 0) * surprise) / variance),
    covariances: belief.covariances.map((row, i) =>
      row.map((cell, j) => cell - ((carried[i] ?? 0) * (carried[j] ?? 0)) / variance),
    ),
  };
}

/**
 * The belief after quantity `index` has changed by a weighted sum of all of them and by `amount`, with a spread of its own: the
 * prediction step of the same filter, F = I + e·wᵀ.
 */
export function changed(belief: Belief, index: number, weights: Weights, amount: number, spread: number): Belief {
  const carried = belief.covariances.map((row) => dot(row, weights));
  const own = dot(weights, carried);
  return {
    means: belief.means.map((mean, i) => (i === index ? mean + dot(weights, belief.means) + amount : mean)),
    covariances: belief.covariances.map((row, i) =>
      row.map((cell, j) => {
        const along = (i === index ? (carried[j] ?? 0) : 0) + (j === index ? (carried[i] ?? 0) : 0);
        return cell + along + (i === index && j === index ? own + spread ** 2 : 0);
      }),
    ),
  };
}

/** The belief after the quantities moved together by `amount` times each one's share, with one spread. */
export function shifted({ means, covariances }: Belief, shares: Weights, amount: number, spread: number): Belief {
  return {
    means: means.map((mean, i) => mean + amount * (shares[i] ?? 0)),
    covariances: covariances.map((row, i) => row.map((cell, j) => cell + spread ** 2 * (shares[i] ?? 0) * (shares[j] ?? 0))),
  };
}

/** The chance that a normal quantity is below a value: the usual series of Abramowitz and Stegun 26.2.17, good to 8e-8. */
export function chanceBelow(value: number, { mean, spread }: Estimate): number {
  if (spread === 0) return value > mean ? 1 : 0;
  const z = (value - mean) / spread;
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const series = t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const beyond = (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) * series;
  return z > 0 ? 1 - beyond : beyond;
}
