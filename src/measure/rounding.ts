/**
 * How a quotient that is not whole becomes an integer. Always an argument, never a default:
 * - `half-even`: nearest, ties to even (IEEE 754 roundTiesToEven; no drift over many sums)
 * - `half-away`: nearest, ties away from zero (what a person does on paper)
 * - `floor`, `ceiling`: toward minus and plus infinity
 * - `toward-zero`, `away-from-zero`: by magnitude
 */
export type Rounding = 'half-even' | 'half-away' | 'floor' | 'ceiling' | 'toward-zero' | 'away-from-zero';

/** `numerator / denominator` as an integer. Exact for safe integers; the denominator is positive. */
export function roundedQuotient(numerator: number, denominator: number, rounding: Rounding): number {
  const quotient = Math.floor(numerator / denominator);
  // The floor of a floating quotient can be off by one near 2^53; the remainder, which is exact, puts it right.
  const whole = quotient + Math.floor((numerator - quotient * denominator) / denominator);
  const remainder = numerator - whole * denominator;
  if (remainder === 0) return whole + 0;
  const up = whole + 1;
  const twice = remainder * 2;
  switch (rounding) {
    case 'floor':
      return whole;
    case 'ceiling':
      return up + 0;
    case 'toward-zero':
      return (numerator < 0 ? up : whole) + 0;
    case 'away-from-zero':
      return numerator < 0 ? whole : up;
    case 'half-even':
      if (twice !== denominator) return (twice < denominator ? whole : up) + 0;
      return (whole % 2 === 0 ? whole : up) + 0;
    case 'half-away':
      if (twice !== denominator) return (twice < denominator ? whole : up) + 0;
      return (numerator < 0 ? whole : up) + 0;
  }
}

/** A real number to an integer under a rounding mode, for values that arrive as floating point. */
export function roundReal(value: number, rounding: Rounding): number {
  const below = Math.floor(value);
  const over = value - below;
  if (over === 0) return below + 0;
  switch (rounding) {
    case 'floor':
      return below;
    case 'ceiling':
      return below + 1 + 0;
    case 'toward-zero':
      return (value < 0 ? below + 1 : below) + 0;
    case 'away-from-zero':
      return value < 0 ? below : below + 1;
    case 'half-even':
      if (over !== 0.5) return (over < 0.5 ? below : below + 1) + 0;
      return (below % 2 === 0 ? below : below + 1) + 0;
    case 'half-away':
      if (over !== 0.5) return (over < 0.5 ? below : below + 1) + 0;
      return (value < 0 ? below : below + 1) + 0;
  }
}
