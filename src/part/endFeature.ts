import { z } from 'zod';
import { acrossField, idField, lineField, roughnessField, sizeField } from './fields.ts';
import { HAND_FITS } from '../trade/index.ts';
import { limitsSchema } from './limits.ts';

/** A fit by hand in plain words, or the hole's class of ISO 286 (`H7`). */
export const holeFitField = z.union([
  z.enum(HAND_FITS),
  z.string().regex(/^[A-Z]{1,2}\d{1,2}$/, 'a fit of a bore is slide, run, locate, tap, press or a class such as H7'),
]);

const base = { id: idField, name: lineField, end: z.enum(['left', 'right']) };

/** What is done in an end face. */
export const endFeatureSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('centre'), ...base }),
  z.strictObject({
    kind: z.literal('tapped-hole'),
    ...base,
    designation: lineField,
    drill: acrossField,
    drillDepth: sizeField,
    threadDepth: sizeField,
  }),
  /** A plain hole; `drillDepth` is to the full diameter. */
  z.strictObject({ kind: z.literal('drilled-hole'), ...base, drill: acrossField, drillDepth: sizeField }),
  /**
   * A hole brought to size with a boring bar, after a drill of `drill` to `drillDepth`. With a `fit` the diameter follows
   * from the shaft or the outer ring that goes into it, as it was measured.
   */
  z.strictObject({
    kind: z.literal('bored-hole'),
    ...base,
    diameter: limitsSchema,
    depth: limitsSchema,
    drill: acrossField,
    drillDepth: sizeField,
    mate: idField.nullable().default(null),
    fit: holeFitField.nullable().default(null),
    roughness: roughnessField,
  }),
]);
export type EndFeature = z.output<typeof endFeatureSchema>;
