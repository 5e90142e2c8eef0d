import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  asDiameter, diameterOf, dividedBy, inches, larger, magnitude, micrometres, midway, millimetres, minus, nanometres, negated,
  parseLength, plus, radiusOf, roundedTo, scaled, sixtyFourths, smaller, thou, times, toInches, toMillimetres, zero,
} from '../../src/measure/index.ts';
import { FRACTIONS, LENGTH_FACTS } from './cases/facts.ts';

const SEED = 254;

/** Lengths within a kilometre: sums of two and small multiples stay exact. */
const length = fc.integer({ min: -1e12, max: 1e12 }).map(nanometres);

describe('units of length', () => {
  test.each(LENGTH_FACTS)('%s is %d nm (%s)', (text, count) => {
    expect(parseLength(text, 'millimetre')).toEqual({ ok: true, value: count });
  });

  test.each(FRACTIONS)('%s in is %s in', (fraction, decimal) => {
    const read = parseLength(fraction, 'inch');
    expect(read).toEqual(parseLength(decimal, 'inch'));
    expect(read.ok && read.value).toBe(sixtyFourths(Number(decimal) * 64));
  });

  test('each constructor makes the same length from its own unit', () => {
    expect(inches(1)).toBe(25_400_000);
    expect(thou(1000)).toBe(inches(1));
    expect(millimetres(25.4)).toBe(inches(1));
    expect(micrometres(25_400)).toBe(inches(1));
    expect(sixtyFourths(64)).toBe(inches(1));
  });

  test('floating point noise in a decimal of any unit does not reach the nanometre', () => {
    // 0.1 + 0.2 is 0.30000000000000004 in floating point.
    expect(inches(0.1 + 0.2)).toBe(7_620_000);
    expect(millimetres(0.1 + 0.2)).toBe(300_000);
    expect(thou(0.1)).toBe(2_540);
  });

  test('zero is never negative', () => {
    for (const none of [negated(zero), times(nanometres(-5), 0), scaled(nanometres(5), -0, 'half-even'), inches(-0)]) {
      expect(Object.is(none, 0)).toBe(true);
    }
  });

  test.each([0.5, Number.NaN, Number.POSITIVE_INFINITY, 2 ** 53])('%d nm is a bug of the caller', (count) => {
    expect(() => nanometres(count)).toThrow(`got ${count}`);
  });

  test('a sum that leaves the exact range is not returned', () => {
    expect(() => plus(nanometres(Number.MAX_SAFE_INTEGER), nanometres(1))).toThrow('Broken invariant');
  });
});

describe(`laws of length (seed ${SEED})`, () => {
  const law = (name: string, property: fc.IRawProperty<unknown>): void =>
    test(name, () => fc.assert(property, { seed: SEED, numRuns: 500 }));

  law('a sum does not depend on order or grouping', fc.property(length, length, length, (a, b, c) => {
    expect(plus(a, b)).toBe(plus(b, a));
    expect(plus(plus(a, b), c)).toBe(plus(a, plus(b, c)));
  }));

  law('taking away undoes adding', fc.property(length, length, (a, b) => {
    expect(minus(plus(a, b), b)).toBe(a);
  }));

  law('a diameter is twice its radius, and comes back from it when even', fc.property(length, (a) => {
    const diameter = asDiameter(times(a, 2));
    expect(diameterOf(radiusOf(diameter, 'half-even'))).toBe(diameter);
  }));

  law('an odd diameter loses half a nanometre at most, to the side that was asked for', fc.property(length, (a) => {
    const diameter = asDiameter(a);
    expect(Math.abs(diameterOf(radiusOf(diameter, 'half-away')) - diameter)).toBeLessThanOrEqual(1);
    expect(diameterOf(radiusOf(diameter, 'floor'))).toBeLessThanOrEqual(diameter);
    expect(diameterOf(radiusOf(diameter, 'ceiling'))).toBeGreaterThanOrEqual(diameter);
  }));

  law('dividing a multiple gives back the length', fc.property(length, fc.integer({ min: 1, max: 64 }), (a, count) => {
    expect(dividedBy(times(a, count), count, 'half-even')).toBe(a);
  }));

  law('rounding to a step gives the nearest multiple and stays there', fc.property(
    length, fc.integer({ min: 1, max: 396_875 }).map(nanometres), (a, step) => {
      const rounded = roundedTo(a, step, 'half-away');
      expect(rounded % step === 0).toBe(true);
      expect(Math.abs(rounded - a) * 2).toBeLessThanOrEqual(step);
      expect(roundedTo(rounded, step, 'half-away')).toBe(rounded);
    }));

  law('the middle lies between, and is as far from both', fc.property(length, length, (a, b) => {
    const middle = midway(a, b, 'floor');
    expect(middle).toBeGreaterThanOrEqual(smaller(a, b));
    expect(middle).toBeLessThanOrEqual(larger(a, b));
    expect(Math.abs(plus(a, b) - 2 * middle)).toBeLessThanOrEqual(1);
  }));

  law('the magnitude has no sign', fc.property(length, (a) => {
    expect(magnitude(a)).toBe(magnitude(negated(a)));
    expect(magnitude(a)).toBeGreaterThanOrEqual(0);
  }));

  law('inches and millimetres read out come back to the same nanometre', fc.property(length, (a) => {
    expect(inches(toInches(a))).toBe(a);
    expect(millimetres(toMillimetres(a))).toBe(a);
  }));
});
