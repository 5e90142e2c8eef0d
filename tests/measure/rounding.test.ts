import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { roundedQuotient, roundReal } from '../../src/measure/index.ts';
import { MODES, QUOTIENTS, REALS } from './cases/rounding.ts';

const SEED = 811;

/** The six modes by definition, in exact arithmetic: the nearest integers on both sides, and which of them is meant. */
function byDefinition(numerator: bigint, denominator: bigint, mode: (typeof MODES)[number]): bigint {
  const truncated = numerator / denominator;
  const remainder = numerator - truncated * denominator;
  if (remainder === 0n) return truncated;
  const floor = numerator < 0n ? truncated - 1n : truncated;
  const ceiling = floor + 1n;
  const away = numerator < 0n ? floor : ceiling;
  const fromFloor = 2n * (numerator - floor * denominator);
  switch (mode) {
    case 'floor':
      return floor;
    case 'ceiling':
      return ceiling;
    case 'toward-zero':
      return truncated;
    case 'away-from-zero':
      return away;
    case 'half-even':
      if (fromFloor === denominator) return floor % 2n === 0n ? floor : ceiling;
      return fromFloor < denominator ? floor : ceiling;
    case 'half-away':
      if (fromFloor === denominator) return away;
      return fromFloor < denominator ? floor : ceiling;
  }
}

describe('rounding', () => {
  test.each(QUOTIENTS)('%d / %d in each mode', (numerator, denominator, results) => {
    expect(MODES.map((mode) => roundedQuotient(numerator, denominator, mode))).toEqual(results);
  });

  test.each(REALS)('%d in each mode', (value, results) => {
    expect(MODES.map((mode) => roundReal(value, mode))).toEqual(results);
  });

  test(`any quotient of safe integers is what exact arithmetic gives (seed ${SEED})`, () => {
    const safe = fc.oneof(fc.maxSafeInteger(), fc.integer({ min: -50, max: 50 }));
    const positive = fc.oneof(fc.integer({ min: 1, max: Number.MAX_SAFE_INTEGER }), fc.integer({ min: 1, max: 12 }));
    fc.assert(
      fc.property(safe, positive, fc.constantFrom(...MODES), (numerator, denominator, mode) => {
        const expected = Number(byDefinition(BigInt(numerator), BigInt(denominator), mode));
        expect(roundedQuotient(numerator, denominator, mode)).toBe(expected);
      }),
      { seed: SEED, numRuns: 3_000 },
    );
  });

  test(`a real that is a quotient of a power of two rounds like that quotient (seed ${SEED})`, () => {
    fc.assert(
      fc.property(fc.integer(), fc.integer({ min: 0, max: 20 }), fc.constantFrom(...MODES), (count, power, mode) => {
        const under = 2 ** power;
        expect(roundReal(count / under, mode)).toBe(roundedQuotient(count, under, mode));
      }),
      { seed: SEED, numRuns: 2_000 },
    );
  });

  test.each([
    [0.5, 1],
    [Number.MAX_SAFE_INTEGER + 1, 1],
    [Number.NaN, 1],
    [1, 0],
    [1, -2],
    [1, 0.5],
  ])('%d / %d is a bug of the caller', (numerator, denominator) => {
    expect(() => roundedQuotient(numerator, denominator, 'floor')).toThrow('Broken invariant');
  });
});
