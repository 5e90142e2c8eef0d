import { z } from 'zod';
import { idField, lineField, sizeField } from './fields.ts';

/** A hand-wheel dial: what one division and one turn stand for on the dial itself. */
export const dialSchema = z.strictObject({
  division: sizeField,
  perTurn: sizeField,
});

/**
 * A machine as the operator meets it. The cross-slide dial reads either what comes off the diameter or how far the tool
 * moves (the radius): mistaking one for the other is the oldest way to scrap a part.
 */
export const machineSchema = z.strictObject({
  id: idField,
  name: lineField,
  crossSlide: dialSchema.extend({ reads: z.enum(['diameter', 'radius']) }),
  carriage: dialSchema.nullable(),
  spindleSpeeds: z.array(z.number().positive()).min(1),
  /** Feeds a turn that the gearbox has; empty where the hand or a dial chooses freely. */
  feeds: z.array(sizeField).default([]),
});

export type Machine = z.output<typeof machineSchema>;
