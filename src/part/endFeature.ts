import { z } from 'zod';
import { acrossField, idField, lineField, sizeField } from './fields.ts';
import { limitsSchema } from './limits.ts';

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
  /** A hole brought to size with a boring bar, after a drill of `drill` to `drillDepth`. */
  z.strictObject({
    kind: z.literal('bored-hole'),
    ...base,
    diameter: limitsSchema,
    depth: limitsSchema,
    drill: acrossField,
    drillDepth: sizeField,
  }),
]);
export type EndFeature = z.output<typeof endFeatureSchema>;
