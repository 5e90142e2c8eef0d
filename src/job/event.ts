import { z } from 'zod';
import { idField, lengthField, lineField, partSchema } from '../part/index.ts';
import { instrumentField, quantityField, routeEditSchema, routeSchema } from '../route/index.ts';

/**
 * What happened, in the past tense, one schema a kind. Events are appended, never edited: a slip is struck by a later
 * `EventStruck`. Lengths are written as text with their unit, so a file can be read by eye in ten years.
 */
const bodies = [
  /** The operation was left as done; the next one that is still waiting is open. */
  z.strictObject({
    type: z.literal('OperationFinished'),
    operation: idField,
    standing: z.enum(['no-size', 'in-window', 'outside-window', 'not-measured']),
  }),
  /** The operation was passed over on purpose. */
  z.strictObject({ type: z.literal('OperationSkipped'), operation: idField }),
  /** The operation was gone to: back, or by its step number. */
  z.strictObject({ type: z.literal('OperationOpened'), operation: idField }),
  /** A reading of the part. `words` is what was heard, or what was typed. */
  z.strictObject({
    type: z.literal('ReadingLogged'),
    operation: idField,
    quantity: quantityField,
    value: lengthField,
    instrument: instrumentField.nullable(),
    place: z.enum(['at-the-shoulder', 'at-the-end', 'in-the-middle', 'across']).nullable(),
    words: z.string().max(200),
    /** True where the person said yes to a value that looked wrong. */
    confirmed: z.boolean(),
  }),
  /** A reading of a mate: a bore or a width. */
  z.strictObject({
    type: z.literal('MateMeasured'),
    operation: idField,
    mate: idField,
    value: lengthField,
    instrument: instrumentField.nullable(),
    place: z.enum(['at-the-shoulder', 'at-the-end', 'in-the-middle', 'across']).nullable(),
    words: z.string().max(200),
    confirmed: z.boolean(),
  }),
  /** Degrees Celsius of the part, to .001. */
  z.strictObject({ type: z.literal('TemperatureNoted'), operation: idField, celsius: z.number().min(-50).max(400) }),
  /** Metal taken, as said, on the diameter or on the radius as the dial reads. */
  z.strictObject({ type: z.literal('CutTaken'), operation: idField, onDial: lengthField }),
  z.strictObject({ type: z.literal('DialSet'), operation: idField, onDial: lengthField }),
  z.strictObject({ type: z.literal('TouchedOff'), operation: idField }),
  z.strictObject({ type: z.literal('DialZeroed'), operation: idField }),
  z.strictObject({
    type: z.literal('FitFelt'),
    operation: idField,
    feel: z.enum(['wont-start', 'tight', 'binds-at-the-shoulder', 'binds-at-the-end', 'slides', 'loose']),
  }),
  /** A round of filing or polishing, or several; counted in strokes or seconds where that was said. */
  z.strictObject({
    type: z.literal('Filed'),
    operation: idField,
    in: z.enum(['rounds', 'strokes', 'seconds']),
    count: z.number().int().min(1).max(999),
  }),
  z.strictObject({ type: z.literal('WorkingChanged'), operation: idField, working: z.enum(['turning', 'filing', 'polishing']) }),
  z.strictObject({ type: z.literal('JawRead'), operation: idField, jaw: z.number().int().min(1).max(4), indicator: lengthField }),
  z.strictObject({ type: z.literal('IndicatorRead'), operation: idField, end: z.enum(['low', 'high']), indicator: lengthField }),
  z.strictObject({ type: z.literal('EdgeFound'), operation: idField, edge: z.enum(['first', 'other', 'end']), coordinate: lengthField }),
  /** What an indicator showed with the work turned on by so many degrees from where the readings began. */
  z.strictObject({ type: z.literal('SpindleRead'), operation: idField, degrees: z.number().min(0).max(360), indicator: lengthField }),
  /** A whole number that a set-up was told: an angle, how many readings, holes or turns, which hole. */
  z.strictObject({
    type: z.literal('SetUpCounted'),
    operation: idField,
    what: z.enum(['degrees', 'readings', 'holes', 'hole', 'turns']),
    count: z.number().int().min(0).max(999),
  }),
  /** A length that a set-up was told: a tip, a pattern, a taper, a packing piece. */
  z.strictObject({
    type: z.literal('SetUpGiven'),
    operation: idField,
    what: z.enum(['finder', 'circle', 'line', 'large', 'small', 'over', 'work', 'bar', 'packing', 'carriage']),
    length: lengthField,
  }),
  /** A short sound clip was kept with the operation; the sound is stored under `clip`. */
  z.strictObject({ type: z.literal('MemoKept'), operation: idField, clip: lineField, seconds: z.number().positive().max(60) }),
  /** The caution of an operation was shown and spoken; it is not spoken twice. */
  z.strictObject({ type: z.literal('CautionGiven'), operation: idField }),
  /** The route was changed by hand: one edit, applied to the route as it then stood. */
  z.strictObject({ type: z.literal('RouteEdited'), edit: routeEditSchema }),
  /**
   * The route was generated anew, from a part whose mates were measured again. The whole of it is kept, so that a later build
   * reads the same route; the edits that stand are applied to it again.
   */
  z.strictObject({ type: z.literal('RouteRemade'), part: partSchema, route: routeSchema }),
  /** Takes an earlier event back. Nothing is deleted: both stay in the log. */
  z.strictObject({ type: z.literal('EventStruck'), event: lineField }),
] as const;

export const eventBodySchema = z.discriminatedUnion('type', bodies);
export type EventBody = z.output<typeof eventBodySchema>;
export type EventType = EventBody['type'];

/**
 * An event as stored. `seq` counts from 1 in a job without gaps; `at` is milliseconds since 1970 by the device's clock;
 * `v` is the version of the body's shape.
 */
export const jobEventSchema = z.strictObject({
  id: z.string().min(1).max(64),
  seq: z.number().int().positive(),
  at: z.number().int().nonnegative(),
  v: z.literal(1),
  body: eventBodySchema,
});
export type JobEvent = z.output<typeof jobEventSchema>;
