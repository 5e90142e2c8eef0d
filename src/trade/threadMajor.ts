import { asDiameter, micrometres, minus, nanometres, roundReal, toMillimetres, type Length } from '../measure/index.ts';
import type { SizeLimits } from './isoFits.ts';
import type { Thread } from './threads.ts';

/** Deviation es and tolerance of the major diameter in µm, by pitch in µm, for tolerance class 6g (ISO 965-1, in a copy). */
const TABLE: ReadonlyMap<number, readonly [es: number, tolerance: number]> = new Map([
  [350, [19, 85]],
  [400, [19, 95]],
  [450, [20, 100]],
  [500, [20, 106]],
  [600, [21, 125]],
  [700, [22, 140]],
  [800, [24, 150]],
  [1000, [26, 180]],
  [1250, [28, 212]],
  [1500, [32, 236]],
  [1750, [34, 265]],
  [2000, [38, 280]],
  [2500, [42, 335]],
  [3000, [48, 375]],
  [3500, [53, 425]],
  [4000, [60, 475]],
]);

/** What the table was rounded from (ISO 965-1, from memory): within 2 µm of it for es, within 3 % for the tolerance. */
function formula(pitch: Length): readonly [es: number, tolerance: number] {
  const p = toMillimetres(pitch);
  return [roundReal(15 + 11 * p, 'half-even'), roundReal(180 * p ** (2 / 3) - 3.15 / Math.sqrt(p), 'half-even')];
}

/**
 * The major diameter of an external thread in tolerance class 6g, by the table for the usual metric pitches, by its formulas for
 * the others. Used for inch threads too, whose class 2A is close.
 */
export function externalMajor({ major, pitch }: Thread): SizeLimits {
  const [es, tolerance] = (pitch % 1000 === 0 ? TABLE.get(pitch / 1000) : undefined) ?? formula(nanometres(pitch));
  const high = minus(major, asDiameter(micrometres(es)));
  return { low: minus(high, asDiameter(micrometres(tolerance))), high };
}
