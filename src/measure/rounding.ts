import { assert } from './result.ts';

/**
 * How a quotient that is not whole becomes an integer. Always an argument, never a default:
 * - `half-even`: nearest, ties to even (IEEE 754 roundTiesToEven; no drift over many sums)
 * - `half-away`: nearest, ties away from zero (what a person does on paper)
 * - `floor`, `ceiling`: toward minus and plus infinity
 * - `toward-zero`, `away-from-zero`: by magnitude
 */
export type Rounding = 'half-even' | 'half-away' | 'floor' | 'ceiling' | 'toward-zero' | 'away-from-zero';

/**
 * Picks between the two integers around a value that is neither: `toward` is nearer to zero, `away` one further from it, and
 * `past` says on which side of the middle the value lies (below 0: nearer to `toward`, 0: a tie, above 0: nearer to `away`).
 */
function pick(toward: number, away: number, past: number, rounding: Rounding): number {
  switch (rounding) {
    case 'floor':
      return Math.min(toward, away);
    case 'ceiling':
      return Math.max(toward, away);
    case 'toward-zero':
      return toward;
    case 'away-from-zero':
      return away;
    case 'half-even':
      if (past === 0) return toward % 2 === 0 ? toward : away;
      return past < 0 ? toward : away;
    case 'half-away':
      return past < 0 ? toward : away;
  }
}

/** `numerator / denominator` as an integer. Exact for safe integers; the denominator is positive. Never gives -0. */
export function roundedQuotient(numerator: number, denominator: number, rounding: Rounding): number {
  assert(Number.isSafeInteger(numerator), `a numerator is a safe integer, got ${numerator}`);
  assert(Number.isSafeInteger(denominator) && denominator > 0, `a denominator is a positive safe integer, got ${denominator}`);
  // The remainder of a floating division is exact, and so is the division once it is taken off.
  const remainder = numerator % denominator;
  const toward = (numerator - remainder) / denominator;
  if (remainder === 0) return toward + 0;
  // Half of the denominator may not be whole, twice the remainder always is.
  return pick(toward, toward + Math.sign(numerator), Math.abs(remainder) * 2 - denominator, rounding) + 0;
}

/** A real number to an integer under a rounding mode, for values that arrive as floating point. Never gives -0. */
export function roundReal(value: number, rounding: Rounding): number {
  const toward = Math.trunc(value);
  const part = Math.abs(value - toward);
  if (part === 0) return toward + 0;
  return pick(toward, toward + Math.sign(value), part - 0.5, rounding) + 0;
}
