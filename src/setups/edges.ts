import { dividedBy, magnitude, midway, minus, plus, type Diameter, type Length } from '../measure/index.ts';

/**
 * Two opposite edges touched with the same finder, from outside the work or inside a slot: their middle, and how far
 * apart they are.
 */
export type Across = { readonly centre: Length; readonly width: Length };

/** The middle between two touched edges, and the width: the finder's tip cancels in one, and comes off (or on) the other. */
export function acrossEdges(one: Length, other: Length, tip: Diameter, from: 'outside' | 'inside'): Across {
  const apart = magnitude(minus(other, one));
  return { centre: midway(one, other, 'half-even'), width: from === 'outside' ? minus(apart, tip) : plus<Length>(apart, tip) };
}

/** How far the table goes from where the finder touched an end until the spindle is so far in from it: half the tip and that. */
export const inFromEnd = (tip: Diameter, distance: Length): Length => plus<Length>(dividedBy(tip, 2, 'half-even'), distance);
