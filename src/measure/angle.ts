import { assert } from './result.ts';
import { roundReal, type Rounding } from './rounding.ts';

declare const angleBrand: unique symbol;

/** An angle, as an integer number of thousandths of an arc second: a degree is 3 600 000, a minute 60 000, both whole. */
export type Angle = number & { readonly [angleBrand]: true };

const PER_DEGREE = 3_600_000;

/** An angle from degrees in floating point, rounded as told. */
export function degrees(value: number, rounding: Rounding): Angle {
  const count = roundReal(value * PER_DEGREE, rounding);
  assert(Number.isSafeInteger(count), `an angle is finite, got ${value} degrees`);
  return count as Angle;
}

/** An angle from whole degrees and minutes; the sign is that of the degrees. */
export const degreesAndMinutes = (wholeDegrees: number, minutes: number): Angle =>
  degrees(wholeDegrees + (Math.sign(wholeDegrees) || 1) * (minutes / 60), 'half-even');

export const toDegrees = (angle: Angle): number => angle / PER_DEGREE;
export const toRadians = (angle: Angle): number => (angle / PER_DEGREE) * (Math.PI / 180);
