import { larger, midway, zero, type Length } from '../../measure/index.ts';
import type { EndFeature, Part } from '../../part/index.ts';

/** A hole in an end; a centre is none. */
export type Hole = Exclude<EndFeature, { readonly kind: 'centre' }>;

/** How wide a hole in an end is at its widest. */
export const widthOfHole = (hole: Hole): Length =>
  hole.kind === 'bored-hole' ? larger(hole.drill, hole.diameter.high) : hole.drill;

export const holesOf = ({ ends }: Part): readonly Hole[] => ends.filter((end): end is Hole => end.kind !== 'centre');

/** The widest hole that reaches into a feature, and whether it goes all the way through it. */
export type HoleIn = { readonly across: Length; readonly through: boolean };

/** What the holes of the part, or of one of its ends, leave hollow in a feature; null where it is solid. */
export function holeIn(part: Part, feature: string, end: 'left' | 'right' | null = null): HoleIn | null {
  let from = 0;
  let total = 0;
  let length = 0;
  for (const each of part.turned) {
    const own = midway(each.length.low, each.length.high, 'half-even');
    if (each.id === feature) [from, length] = [total, own];
    total += own;
  }
  const near = (hole: Hole): number => (hole.end === 'left' ? from : total - from - length);
  const reaching = holesOf(part).filter((hole) => (end === null || hole.end === end) && hole.drillDepth > near(hole));
  if (reaching.length === 0) return null;
  return {
    across: reaching.map(widthOfHole).reduce(larger, zero),
    through: reaching.some((hole) => hole.drillDepth >= near(hole) + length),
  };
}
