import { asDiameter, micrometres, minus, roundReal, toMillimetres } from '../measure/index.ts';
import type { SizeLimits } from './isoFits.ts';
import type { Thread } from './threads.ts';

/**
 * The major diameter of an external thread in tolerance class 6g: es = −(15 + 11·P) µm, T = 180·P^⅔ − 3.15/√P µm, P in mm
 * (ISO 965-1, from memory). Used for inch threads too, whose class 2A is close. To the micrometre; the published tables round on
 * to a step of their own, a few micrometres away at most.
 */
export function externalMajor({ major, pitch }: Thread): SizeLimits {
  const p = toMillimetres(pitch);
  const high = minus(major, asDiameter(micrometres(roundReal(15 + 11 * p, 'half-even'))));
  const tolerance = micrometres(roundReal(180 * p ** (2 / 3) - 3.15 / Math.sqrt(p), 'half-even'));
  return { low: minus(high, asDiameter(tolerance)), high };
}
