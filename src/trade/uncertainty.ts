import {
  assert,
  fail,
  minus,
  nanometres,
  ok,
  plus,
  roundReal,
  type Length,
  type Result,
  type Rounding,
} from '../measure/index.ts';
import type { SizeLimits } from './isoFits.ts';

/** What repeated readings say: mean, standard deviation of one reading and of the mean, and degrees of freedom. In nm, real. */
export type TypeA = { readonly mean: number; readonly deviation: number; readonly ofMean: number; readonly freedom: number };

/** Type A evaluation (GUM 4.2); null for fewer than two readings. */
export function typeA(readings: readonly Length[]): TypeA | null {
  const count = readings.length;
  if (count < 2) return null;
  const mean = readings.reduce((sum, value) => sum + value, 0) / count;
  const deviation = Math.sqrt(readings.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (count - 1));
  return { mean, deviation, ofMean: deviation / Math.sqrt(count), freedom: count - 1 };
}

/** Standard uncertainty of a limit ±a within which every value is as likely: a/√3 (GUM 4.3.7). */
export const fromLimits = (halfWidth: number): number => halfWidth / Math.sqrt(3);
/** Standard uncertainty of a reading rounded to a step: step/√12. */
export const fromResolution = (step: number): number => step / Math.sqrt(12);
/** Standard uncertainty of a stated expanded uncertainty. */
export const fromExpanded = (expanded: number, coverage: number): number => expanded / coverage;

/** The combined standard uncertainty of independent parts: the root of the sum of squares (GUM 5.1.2). */
export const combined = (parts: readonly number[]): number => Math.sqrt(parts.reduce((sum, part) => sum + part ** 2, 0));

/** Effective degrees of freedom (Welch–Satterthwaite, GUM G.4.1): u⁴ / Σ(uᵢ⁴/νᵢ); a part known exactly has infinite freedom. */
export function effectiveFreedom(parts: readonly { readonly uncertainty: number; readonly freedom: number }[]): number {
  const whole = combined(parts.map(({ uncertainty }) => uncertainty));
  const below = parts.reduce(
    (sum, { uncertainty, freedom }) => sum + (Number.isFinite(freedom) ? uncertainty ** 4 / freedom : 0),
    0,
  );
  return below === 0 ? Number.POSITIVE_INFINITY : whole ** 4 / below;
}

/** Student's t for 95 % two-sided, by degrees of freedom from 1 (standard table; GUM G.2 also has the wider 95.45 %). */
const T95 = [
  12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179, 2.16, 2.145, 2.131, 2.12, 2.11, 2.101,
  2.093, 2.086, 2.08, 2.074, 2.069, 2.064, 2.06, 2.056, 2.052, 2.048, 2.045, 2.042,
] as const;

/** t for 95 %, at whole degrees of freedom (a fraction is rounded down, as the GUM says); 1.96 beyond 30. */
export function studentT95(freedom: number): number {
  assert(freedom >= 1, `degrees of freedom are one at least, got ${freedom}`);
  return T95[Math.floor(freedom) - 1] ?? 1.96;
}

/** What a reading proves about a limit under ISO 14253-1. */
export type Proof = 'conforms' | 'does-not-conform' | 'not-proven';

/**
 * The decision rule of ISO 14253-1: a part conforms where the reading lies inside the limits reduced by the expanded uncertainty
 * U, does not where it lies outside the limits widened by U, and in between neither is proven.
 */
export function proofOf(reading: Length, { low, high }: SizeLimits, uncertainty: Length): Proof {
  if (reading >= low + uncertainty && reading <= high - uncertainty) return 'conforms';
  return reading < low - uncertainty || reading > high + uncertainty ? 'does-not-conform' : 'not-proven';
}

/** The limits in which a reading proves that the part conforms, or what is too wide for them. */
export function acceptance(
  { low, high }: SizeLimits,
  uncertainty: Length,
): Result<SizeLimits, { readonly key: 'uncertainty-too-wide'; readonly tolerance: Length; readonly uncertainty: Length }> {
  const inside = { low: plus(low, uncertainty), high: minus(high, uncertainty) };
  return inside.low <= inside.high
    ? ok(inside)
    : fail({ key: 'uncertainty-too-wide', tolerance: minus(high, low), uncertainty });
}

/** A real number of nanometres as a length, rounded as told: the end of a budget. */
export const asLength = (value: number, rounding: Rounding): Length => nanometres(roundReal(value, rounding));
