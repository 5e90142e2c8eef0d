import { describe, expect, expectTypeOf, test } from 'vitest';
import {
  asDiameter, asRadius, celsius, degrees, diameterOf, inches, larger, millimetres, minus, nanometres, plus, radiusOf, times,
  toInches, type Diameter, type Length, type Radius,
} from '../../src/measure/index.ts';

/*
 * What must not compile. Each line under an @ts-expect-error is a mistake that scraps a part; should the compiler ever let one
 * pass, the type check of the tests fails.
 */
const across = asDiameter(inches(1));
const fromAxis = asRadius(inches(0.5));
const along = inches(2);

describe('quantities that must not be mixed', () => {
  test('diameter and radius', () => {
    // @ts-expect-error a radius has no radius
    radiusOf(fromAxis, 'half-even');
    // @ts-expect-error a diameter has no diameter
    diameterOf(across);
    // @ts-expect-error a plain length has not been said to be a diameter
    radiusOf(along, 'half-even');
    // @ts-expect-error a diameter and a radius do not add up
    plus(across, fromAxis);
    // @ts-expect-error nor is one taken from the other
    minus(fromAxis, across);
    // @ts-expect-error nor do they compare
    larger(across, fromAxis);
    // @ts-expect-error a radius does not pass for a diameter
    const wrong: Diameter = fromAxis;
    expect(wrong).toBe(fromAxis);
  });

  test('numbers without a unit', () => {
    // @ts-expect-error a number is no length
    plus(along, 2);
    // @ts-expect-error a number is no length to store
    const bare: Length = 25_400;
    expect(bare).toBe(25_400);
  });

  test('lengths, angles and temperatures', () => {
    // @ts-expect-error a temperature is no length
    toInches(celsius(20, 'half-even'));
    // @ts-expect-error an angle is no length
    plus(along, degrees(3, 'half-even'));
    expectTypeOf(celsius(20, 'half-even')).not.toExtend<Length>();
  });

  test('what does go together keeps its kind', () => {
    expectTypeOf(minus(across, across)).toEqualTypeOf<Diameter>();
    expectTypeOf(plus(across, along)).toEqualTypeOf<Length>();
    expectTypeOf(radiusOf(across, 'half-even')).toEqualTypeOf<Radius>();
    expectTypeOf(diameterOf(fromAxis)).toEqualTypeOf<Diameter>();
    expectTypeOf(times(across, 2)).toEqualTypeOf<Length>();
    expect(diameterOf(fromAxis)).toBe(across);
  });

  test('and where types are not checked, a fraction is still refused', () => {
    expect(() => nanometres(millimetres(1) / 3)).toThrow('a length is a whole number of nanometres');
  });
});
