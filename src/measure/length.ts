import { assert } from './result.ts';
import { roundedQuotient, roundReal, type Rounding } from './rounding.ts';

declare const lengthBrand: unique symbol;
declare const acrossBrand: unique symbol;

/**
 * A length, as an integer number of nanometres. 1 in = 25 400 000 nm exactly (NIST SP 811, App. B), so .0001 in = 2 540 nm
 * and 1/64 in = 396 875 nm are whole. Sums and differences are exact; |value| stays below 2^53 nm (9 007 km).
 */
export type Length = number & { readonly [lengthBrand]: true };

/** A length measured across a round part. Never pass one where a `Radius` is meant: the factor of two scraps parts. */
export type Diameter = Length & { readonly [acrossBrand]: 'diameter' };

/** A length measured from the axis of a round part. */
export type Radius = Length & { readonly [acrossBrand]: 'radius' };

export const NM_PER_INCH = 25_400_000;
export const NM_PER_THOU = 25_400;
export const NM_PER_TENTH_THOU = 2_540;
export const NM_PER_SIXTY_FOURTH = 396_875;
export const NM_PER_MM = 1_000_000;
export const NM_PER_MICROMETRE = 1_000;

/** A length from an integer number of nanometres; throws on a fraction, which is a bug of the caller. */
export function nanometres(count: number): Length {
  assert(Number.isSafeInteger(count), `a length is a whole number of nanometres, got ${count}`);
  return (count + 0) as Length;
}

export const zero: Length = nanometres(0);

/** A length from inches in floating point, to the nearest nanometre. */
export const inches = (value: number): Length => nanometres(roundReal(value * NM_PER_INCH, 'half-even'));
/** A length from thousandths of an inch (25.4 µm each). */
export const thou = (value: number): Length => nanometres(roundReal(value * NM_PER_THOU, 'half-even'));
/** A length from millimetres in floating point, to the nearest nanometre. */
export const millimetres = (value: number): Length => nanometres(roundReal(value * NM_PER_MM, 'half-even'));
/** A length from micrometres in floating point, to the nearest nanometre. */
export const micrometres = (value: number): Length => nanometres(roundReal(value * NM_PER_MICROMETRE, 'half-even'));
/** A length from sixty-fourths of an inch, exact for whole counts. */
export const sixtyFourths = (count: number): Length => nanometres(count * NM_PER_SIXTY_FOURTH);

/** Says that a length was measured across a round part. */
export const asDiameter = (length: Length): Diameter => length as Diameter;
/** Says that a length was measured from the axis. */
export const asRadius = (length: Length): Radius => length as Radius;

/** Half a diameter; an odd number of nanometres is rounded once, as told. */
export const radiusOf = (diameter: Diameter, rounding: Rounding): Radius =>
  asRadius(nanometres(roundedQuotient(diameter, 2, rounding)));
/** Twice a radius, exact. */
export const diameterOf = (radius: Radius): Diameter => asDiameter(nanometres(radius * 2));

/** The sum, exact. Two of a kind keep their kind; a diameter and a radius do not add up, and the compiler says so. */
export const plus = <T extends Length>(a: T, b: T): T => nanometres(a + b) as T;
/** The difference, exact. Two of a kind keep their kind: from one diameter to another is an amount on the diameter. */
export const minus = <T extends Length>(a: T, b: T): T => nanometres(a - b) as T;
export const negated = (a: Length): Length => nanometres(-a);
export const magnitude = (a: Length): Length => nanometres(Math.abs(a));
/** A length times a whole number, exact. */
export const times = (a: Length, count: number): Length => nanometres(a * count);
/** A length over a positive whole number, rounded once, as told. */
export const dividedBy = (a: Length, count: number, rounding: Rounding): Length =>
  nanometres(roundedQuotient(a, count, rounding));
/** A length times a real factor, rounded once, as told. */
export const scaled = (a: Length, factor: number, rounding: Rounding): Length => nanometres(roundReal(a * factor, rounding));
/** The multiple of `step` that rounding picks; `step` is positive. */
export const roundedTo = (a: Length, step: Length, rounding: Rounding): Length =>
  nanometres(roundedQuotient(a, step, rounding) * step);
/** The middle of two lengths, rounded once, as told. */
export const midway = <T extends Length>(a: T, b: T, rounding: Rounding): T =>
  nanometres(roundedQuotient(a + b, 2, rounding)) as T;

export const smaller = <T extends Length>(a: T, b: T): T => (a <= b ? a : b);
export const larger = <T extends Length>(a: T, b: T): T => (a >= b ? a : b);

/** The length in inches, for display and for formulas in floating point; not for storing. */
export const toInches = (a: Length): number => a / NM_PER_INCH;
/** The length in millimetres, for display and for formulas in floating point; not for storing. */
export const toMillimetres = (a: Length): number => a / NM_PER_MM;
