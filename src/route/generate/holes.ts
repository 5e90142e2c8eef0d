import { dividedBy, larger, midway, minus, smaller, times, zero, type Length } from '../../measure/index.ts';
import type { EndFeature, Part } from '../../part/index.ts';

/** A hole in an end; a centre is none. */
export type Hole = Exclude<EndFeature, { readonly kind: 'centre' }>;

/** How wide a hole in an end is at its widest. */
export const widthOfHole = (hole: Hole): Length =>
  hole.kind === 'bored-hole' ? larger(hole.drill, hole.diameter.high) : hole.drill;

export const holesOf = ({ ends }: Part): readonly Hole[] => ends.filter((end): end is Hole => end.kind !== 'centre');

/** What stands of the part round a hole at its thinnest, from the axis of the spindle: half of what is round it less the hole. */
export function wallRound({ turned }: Part, hole: Hole): Length {
  const inward = hole.end === 'left' ? turned : [...turned].reverse();
  let from = 0;
  let wall: Length | null = null;
  for (const feature of inward) {
    if (from >= hole.drillDepth) break;
    from += midway(feature.length.low, feature.length.high, 'half-even');
    const outside =
      feature.kind === 'thread' ? feature.major.low : feature.kind === 'taper' ? feature.small : feature.diameter.low;
    const round = feature.kind === 'offset-journal' ? minus(outside, times(feature.throw, 2)) : outside;
    const here = dividedBy(minus(round, widthOfHole(hole)), 2, 'floor');
    wall = wall === null ? here : smaller(wall, here);
  }
  return wall ?? zero;
}

/** A wall is thin under so many of it to the bore: an eighth. Common practice, no source. */
const THIN = 8;

/** True of a hole of which no more wall is left than gives under jaws and tool. */
export const isThinRound = (across: Length, wall: Length): boolean => times(wall, THIN) < across;

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
