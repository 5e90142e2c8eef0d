/** JSON as it was parsed, before a schema has seen it. */
export type PartJson = unknown;

/** Carries the JSON of a part from one version to the next; never changed once a later version was written. */
export type PartStep = { readonly from: number; readonly change: (json: PartJson) => PartJson };

/**
 * From 1 to 2: tapers, grooves, edges, bored and drilled ends, pockets and cross holes came in, with directions and angles,
 * readings of mates, the roughness wanted, the condition of the stock and the outfit of a machine. Every part of version 1 is one
 * of version 2 as it stands, since each of these may be left out.
 */
const outOfOne: PartStep = { from: 1, change: (json) => json };

/**
 * From 2 to 3: a length may name its datum (`datum`), a bored hole may be a seat for a bearing, and bored holes and milled
 * features may ask for a roughness. In version 2 each was absent and is: a length was between the two ends of its feature.
 */
const outOfTwo: PartStep = { from: 2, change: (json) => json };

export const PART_STEPS: readonly PartStep[] = [outOfOne, outOfTwo];
export const PART_VERSION = PART_STEPS.length + 1;
