import { z } from 'zod';
import { degreesField, idField, lengthField, lineField, sentenceField, sizeField } from '../part/index.ts';

export const instrumentField = z.enum([
  'caliper',
  'micrometer',
  'telescoping-gauge',
  'depth-micrometer',
  'rule',
  'indicator',
  'readout',
]);

/**
 * What is measured at an operation. `bore` and `width` are of the mate; the rest are of the part. A `hole` is the diameter of a
 * bore in the part: unlike other diameters it grows as metal is taken.
 */
export const quantityField = z.enum(['diameter', 'length', 'depth', 'indicator', 'bore', 'width', 'hole']);
export type MeasuredQuantity = z.output<typeof quantityField>;

/** How the diameter sits in its mate, in plain shop words. */
export const fitNameField = z.enum(['slide', 'run', 'locate', 'tap', 'press']);
export type FitName = z.output<typeof fitNameField>;

/**
 * The size wanted. `low` and `high` bound the window, both allowed; `aim` lies in it. `from` is the size before the
 * operation, for plausibility and for what is left to take. With a `fit`, the window moves with the measured mate
 * (`windowOf`): a diameter is the mate less the clearance (a negative clearance is interference), a length or a depth is the
 * mate plus the clearance (end play).
 */
export const targetSchema = z
  .strictObject({
    quantity: quantityField,
    low: lengthField,
    high: lengthField,
    aim: lengthField,
    from: lengthField.nullable(),
    /** What a length is counted from, as it is said after "from the": `left face`; null where that is plain. */
    datum: lineField.nullable().default(null),
    fit: z
      .strictObject({ mate: idField, name: fitNameField, leastClearance: lengthField, mostClearance: lengthField })
      .nullable(),
  })
  .superRefine((target, context) => {
    if (target.fit !== null && target.fit.leastClearance > target.fit.mostClearance)
      context.addIssue({ code: 'custom', path: ['fit', 'leastClearance'], message: 'the least clearance is more than the most' });
    if (target.low > target.high)
      context.addIssue({ code: 'custom', path: ['low'], message: 'the low limit is above the high limit' });
    if (target.aim < target.low || target.aim > target.high)
      context.addIssue({ code: 'custom', path: ['aim'], message: 'the size to aim at lies outside its window' });
  });
export type Target = z.output<typeof targetSchema>;

/**
 * How the metal is taken: `depth` is on the radius (how far the tool moves), `feed` is along, per turn of the work. After the
 * passes of that depth come two equal ones of `last`, where it is given, and then a spring pass without infeed. `passesOf`
 * counts them out.
 */
export const cutSchema = z.strictObject({
  tool: lineField,
  speedRpm: z.number().int().positive(),
  feedPerTurn: sizeField.nullable(),
  depthOnRadius: sizeField.nullable(),
  last: sizeField.nullable().default(null),
  spring: z.boolean().default(false),
  note: sentenceField.nullable(),
});
export type Cut = z.output<typeof cutSchema>;

export const cautionKeyField = z.enum([
  'chuck-key',
  'lathe-filing',
  'abrasive-cloth',
  'parting',
  'pressing',
  'out-of-balance',
  'milling',
  'drilling',
  'tapping',
  'protruding-stock',
]);
export type CautionKey = z.output<typeof cautionKeyField>;

export const operationKindField = z.enum([
  'measure-mate',
  'grip',
  'dial-in',
  'face',
  'centre',
  'rough',
  'finish',
  'file',
  'part-off',
  'offset',
  'drill',
  'tap',
  'thread',
  'groove',
  'chamfer',
  'length',
  'find-edge',
  'find-high-spot',
  'mill',
  'deburr',
  'try-fit',
  'taper',
  'bore',
  'fillet',
  'assemble',
]);

/** A place on the readout: `x` along the axis from the zero edge, `y` across from the axis, `z` down from the top of the work. */
export const coordinateSchema = z.strictObject({ at: lineField, x: lengthField, y: lengthField, z: lengthField });
export type Coordinate = z.output<typeof coordinateSchema>;

/**
 * One step of the route, done at the machine before the next is thought of. `title` is shown; `say` is spoken and short.
 * `target` is null where nothing is measured. `stop` is where the carriage stops, from a named zero. `feature` is the feature
 * of the part that is worked on; at `measure-mate` it is the id of the mate that is measured.
 */
export const operationSchema = z.strictObject({
  id: idField,
  setup: idField,
  kind: operationKindField,
  title: sentenceField,
  say: sentenceField,
  feature: idField.nullable(),
  target: targetSchema.nullable(),
  instrument: instrumentField.nullable(),
  cut: cutSchema.nullable(),
  stop: z.strictObject({ from: lineField, distance: sizeField }).nullable(),
  caution: cautionKeyField.nullable(),
  note: sentenceField.nullable(),
  /** What must be true before it starts. */
  before: z.array(sentenceField).max(12).default([]),
  /** Why it is done like this: the speed, the feed, the depth, the holding. */
  why: z.array(sentenceField).max(12).default([]),
  /** Other ways to do it, each with its numbers and its limits. */
  alternatives: z.array(sentenceField).max(6).default([]),
  /** In degrees: the compound from the axis for a cone or a chamfer, or how far the work is turned at the mill. */
  angle: degreesField.nullable().default(null),
  coordinates: z.array(coordinateSchema).max(40).default([]),
  minutes: z.number().positive(),
});
export type Operation = z.output<typeof operationSchema>;
