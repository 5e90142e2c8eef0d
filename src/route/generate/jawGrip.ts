import { asDiameter, formatAmount, midway, plus, times, type Length } from '../../measure/index.ts';
import type { EndFeature } from '../../part/index.ts';
import { cuttingForceN, ELASTIC, jawForceN, squeezedOutOfRound } from '../../trade/index.ts';
import type { Cutting } from './cuts.ts';

/** More out of round than so large a share of the window is too much for hard jaws. Ours. */
const SHARE = 4;

/**
 * What a three-jaw chuck does to a thin ring that it holds over a bore: how far it springs out of round at the least grip that
 * holds the boring cut, and what to do where that is much of the window.
 */
export function squeezeNote(
  { material, unit }: Cutting,
  { diameter, depth }: Extract<EndFeature, { readonly kind: 'bored-hole' }>,
  wall: Length,
  cut: Length,
  feed: Length,
): string {
  const bore = asDiameter(midway(diameter.low, diameter.high, 'half-even'));
  const outer = asDiameter(plus(bore, times(wall, 2)));
  const force = jawForceN(cuttingForceN(material, cut, feed), bore, outer, 3);
  const ring = {
    outer,
    bore,
    held: midway(depth.low, depth.high, 'half-even'),
    modulusGPa: ELASTIC[material].modulusGPa,
  } as const;
  const springs = squeezedOutOfRound({ ...ring, jaws: 3 }, force);
  const window = diameter.high - diameter.low;
  const advice =
    times(springs, 2) * SHARE > window
      ? 'That is much of its window: soft jaws bored to its size, or a split ring between.'
      : 'No tighter than it must be.';
  return `Where three hard jaws hold over it, the least grip that holds this cut already springs out of round by ${formatAmount(springs, unit)} on the radius when they let go. ${advice}`;
}
