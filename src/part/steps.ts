/** JSON as it was parsed, before a schema has seen it. */
export type PartJson = unknown;

/** Carries the JSON of a part from one version to the next; never changed once a later version was written. */
export type PartStep = { readonly from: number; readonly change: (json: PartJson) => PartJson };

/**
 * From 1 to 2: tapers, grooves, edges, bored and drilled ends, pockets and cross holes came in, with directions and angles,
 * readings of mates, the roughness wanted, the condition of the stock and the outfit of a machine. Every part of version 1 is one
 * of version 2 as it stands, since each of these may be left out.
 */
export const PART_STEPS: readonly PartStep[] = [{ from: 1, change: (json) => json }];
export const PART_VERSION = PART_STEPS.length + 1;
