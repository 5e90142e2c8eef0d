import { z } from 'zod';
import { acrossField, degreesField, idField, lengthField, lineField, roughnessField, sizeField } from './fields.ts';

/**
 * What every milled feature has. `timedTo` names the direction that its angle is counted from: the high spot of an offset
 * journal, or another milled feature; null where any direction will do. `angle` is in degrees, clockwise seen from the left
 * end. `along` is how far its middle lies from the left shoulder of the feature that it is cut in; null for the middle.
 */
const base = {
  id: idField,
  name: lineField,
  on: idField,
  timedTo: idField.nullable().default(null),
  angle: degreesField.default(0),
  along: lengthField.nullable().default(null),
};

/** What is milled into the side. */
export const milledFeatureSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('flat'), ...base, depth: sizeField, length: sizeField, roughness: roughnessField }),
  z.strictObject({
    kind: z.literal('keyway'),
    ...base,
    width: sizeField,
    depth: sizeField,
    length: sizeField,
    roughness: roughnessField,
  }),
  z.strictObject({ kind: z.literal('pin-pocket'), ...base, diameter: acrossField, depth: sizeField }),
  z.strictObject({
    kind: z.literal('pocket'),
    ...base,
    width: sizeField,
    depth: sizeField,
    length: sizeField,
    roughness: roughnessField,
  }),
  /** Drilled square to the axis; through where it has no depth. */
  z.strictObject({ kind: z.literal('cross-hole'), ...base, diameter: acrossField, depth: sizeField.nullable().default(null) }),
]);
export type MilledFeature = z.output<typeof milledFeatureSchema>;
