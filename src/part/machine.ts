import { z } from 'zod';
import { acrossField, idField, lineField, sizeField } from './fields.ts';

/** A hand-wheel dial: what one division and one turn stand for on the dial itself. */
export const dialSchema = z.strictObject({
  division: sizeField,
  perTurn: sizeField,
});

/** What holds the work on a lathe, with the diameters that it takes from outside. */
export const chuckSchema = z.strictObject({
  kind: z.enum(['three-jaw', 'four-jaw', 'collet']),
  least: acrossField,
  most: acrossField,
  /** What passes through it; null where that is not known. */
  bore: acrossField.nullable().default(null),
});
export type Chuck = z.output<typeof chuckSchema>;

/** Kinds of tool and tackle that a shop has or has not. */
export const TOOL_KINDS = [
  'turning',
  'facing',
  'parting',
  'grooving',
  'threading',
  'boring',
  'drilling',
  'tapping',
  'end-mill',
  'steady',
  'follow-rest',
  'indexing',
] as const;
export type ToolKind = (typeof TOOL_KINDS)[number];

/**
 * A machine as the operator meets it. The cross-slide dial reads either what comes off the diameter or how far the tool
 * moves (the radius): mistaking one for the other is the oldest way to scrap a part. What is empty or null is not known, and
 * nothing is checked against it.
 */
export const machineSchema = z.strictObject({
  id: idField,
  name: lineField,
  crossSlide: dialSchema.extend({ reads: z.enum(['diameter', 'radius']) }),
  carriage: dialSchema.nullable(),
  spindleSpeeds: z.array(z.number().positive()).min(1),
  /** Feeds a turn that the gearbox has; empty where the hand or a dial chooses freely. */
  feeds: z.array(sizeField).default([]),
  /** Pitches that the gearbox cuts; empty where that is not known. */
  pitches: z.array(sizeField).default([]),
  chucks: z.array(chuckSchema).default([]),
  /** What passes through the spindle. */
  spindleBore: acrossField.nullable().default(null),
  /** The longest work between centres; null where there is no tailstock to speak of or it is not known. */
  betweenCentres: sizeField.nullable().default(null),
  /** How far the compound slide travels, for tapers. */
  compoundTravel: sizeField.nullable().default(null),
  /** A taper attachment: the longest cone, and the steepest, as inches in a foot (the ratio times twelve). */
  taperAttachment: z.strictObject({ length: sizeField, mostPerFoot: z.number().positive().max(12) }).nullable().default(null),
  /** How far the tailstock is set over, for slow tapers between centres. */
  tailstockSetOver: sizeField.nullable().default(null),
  /** Of the motor. */
  powerKw: z.number().positive().nullable().default(null),
  tools: z.array(z.enum(TOOL_KINDS)).default([]),
});

export type Machine = z.output<typeof machineSchema>;
