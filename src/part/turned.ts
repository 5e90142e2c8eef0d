import { z } from 'zod';
import { HAND_FITS } from '../trade/index.ts';
import { acrossField, degreesField, idField, lineField, roughnessField, sizeField } from './fields.ts';
import { datumField } from './datum.ts';
import { limitsSchema } from './limits.ts';

/** A fit by hand in plain words, or the shaft's class of ISO 286 (`g6`). */
export const fitField = z.union([
  z.enum(HAND_FITS),
  z.string().regex(/^[a-z]{1,2}\d{1,2}$/, 'a fit is slide, run, locate, tap, press or a class such as g6'),
]);

/**
 * What every plain turned feature has. `between` names the width that its length holds with end play (a hub between a shoulder
 * and a washer); `finish` says how the diameter is brought to size.
 */
const plain = {
  id: idField,
  name: lineField,
  diameter: limitsSchema,
  length: limitsSchema,
  datum: datumField,
  between: idField.nullable().default(null),
  finish: z.enum(['turned', 'filed', 'polished']).default('turned'),
  roughness: roughnessField,
};

/** With a `fit` the diameter follows from the mate as it was measured; its limits are those of the mate's size in the file. */
const fitted = { mate: idField.nullable(), fit: fitField.nullable().default(null) };

/** A turned feature, in the order from the left end of the part to the right. */
export const turnedFeatureSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('collar'), ...plain }),
  z.strictObject({ kind: z.literal('journal'), ...plain, ...fitted }),
  z.strictObject({
    kind: z.literal('offset-journal'),
    ...plain,
    throw: sizeField,
    /** Where its high spot points, in degrees from that of the leftmost offset journal, clockwise seen from the left end. */
    direction: degreesField.default(0),
    ...fitted,
  }),
  z.strictObject({
    kind: z.literal('thread'),
    id: idField,
    name: lineField,
    designation: lineField,
    major: limitsSchema,
    length: limitsSchema,
    datum: datumField,
  }),
  /** A cone: `diameter` holds its large end, `small` the other; `smallEnd` says which one that is. */
  z.strictObject({ kind: z.literal('taper'), ...plain, small: acrossField, smallEnd: z.enum(['left', 'right']) }),
  /** A recess across which nothing runs: an oil or ring groove. Its length is its width. */
  z.strictObject({ kind: z.literal('groove'), ...plain, form: z.enum(['square', 'round']).default('square') }),
]);
export type TurnedFeature = z.output<typeof turnedFeatureSchema>;

/** What is done to an end of a turned feature: a chamfer or a fillet, or an undercut that gives a shoulder or a thread room. */
export const edgeFeatureSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('chamfer'),
    id: idField,
    name: lineField,
    on: idField,
    at: z.enum(['left', 'right']),
    size: sizeField,
    /** From the axis. */
    degrees: z.number().min(5).max(85).default(45),
  }),
  z.strictObject({
    kind: z.literal('fillet'),
    id: idField,
    name: lineField,
    on: idField,
    at: z.enum(['left', 'right']),
    radius: sizeField,
  }),
  z.strictObject({
    kind: z.literal('undercut'),
    id: idField,
    name: lineField,
    on: idField,
    at: z.enum(['left', 'right']),
    width: sizeField,
    /** On the radius, below the diameter that it stands in. */
    depth: sizeField,
  }),
]);
export type EdgeFeature = z.output<typeof edgeFeatureSchema>;
