import type { Rounding } from '../../../src/measure/index.ts';

export const MODES = ['half-even', 'half-away', 'floor', 'ceiling', 'toward-zero', 'away-from-zero'] as const satisfies readonly Rounding[];

/**
 * A quotient and what each mode makes of it, in the order of `MODES`. Source: IEEE 754-2019, 4.3.1
 * (ties to even, ties to away) and 4.3.2 (toward negative, toward positive, toward zero); the last mode mirrors the fifth.
 */
export const QUOTIENTS: readonly (readonly [numerator: number, denominator: number, results: readonly number[]])[] = [
  [0, 7, [0, 0, 0, 0, 0, 0]],
  [6, 3, [2, 2, 2, 2, 2, 2]],
  [-6, 3, [-2, -2, -2, -2, -2, -2]],
  [1, 2, [0, 1, 0, 1, 0, 1]],
  [3, 2, [2, 2, 1, 2, 1, 2]],
  [5, 2, [2, 3, 2, 3, 2, 3]],
  [-1, 2, [0, -1, -1, 0, 0, -1]],
  [-3, 2, [-2, -2, -2, -1, -1, -2]],
  [-5, 2, [-2, -3, -3, -2, -2, -3]],
  [1, 3, [0, 0, 0, 1, 0, 1]],
  [2, 3, [1, 1, 0, 1, 0, 1]],
  [-1, 3, [0, 0, -1, 0, 0, -1]],
  [-2, 3, [-1, -1, -1, 0, 0, -1]],
  [2 ** 53 - 1, 2, [2 ** 52, 2 ** 52, 2 ** 52 - 1, 2 ** 52, 2 ** 52 - 1, 2 ** 52]],
  [1, 2 ** 53 - 1, [0, 0, 0, 1, 0, 1]],
];

/** The same for values that arrive as floating point, with the doubles just beside a tie. */
export const REALS: readonly (readonly [value: number, results: readonly number[]])[] = [
  [0, [0, 0, 0, 0, 0, 0]],
  [-0, [0, 0, 0, 0, 0, 0]],
  [2.5, [2, 3, 2, 3, 2, 3]],
  [-2.5, [-2, -3, -3, -2, -2, -3]],
  [3.5, [4, 4, 3, 4, 3, 4]],
  [0.49999999999999994, [0, 0, 0, 1, 0, 1]],
  [-0.49999999999999994, [0, 0, -1, 0, 0, -1]],
  [-1e-20, [0, 0, -1, 0, 0, -1]],
  [2 ** 52 - 0.5, [2 ** 52, 2 ** 52, 2 ** 52 - 1, 2 ** 52, 2 ** 52 - 1, 2 ** 52]],
];
