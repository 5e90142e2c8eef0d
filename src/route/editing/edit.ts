import { z } from 'zod';
import { idField, lengthField, lineField, sizeField } from '../../part/index.ts';
import { operationSchema } from '../operation.ts';

/** The numbers of an operation that a hand may change; what is left out stays as it is. */
const numbersSchema = z
  .strictObject({
    low: lengthField.optional(),
    aim: lengthField.optional(),
    high: lengthField.optional(),
    from: sizeField.optional(),
    stop: sizeField.optional(),
    speedRpm: z.number().int().positive().optional(),
    feedPerTurn: sizeField.optional(),
    depthOnRadius: sizeField.optional(),
    minutes: z.number().positive().optional(),
  })
  .refine((numbers) => Object.values(numbers).some((number) => number !== undefined), 'an edit changes one number at least');

/**
 * The size of the mate when the sizes of the edit were set by hand, or null where they depend on no mate: when the mate is
 * measured again they move with it, so that the hand-set clearance stays.
 */
const mateSize = sizeField.nullable().default(null);

/**
 * One change of a route by hand, as data: it is stored, struck and applied again to a route that was generated anew. `after` is
 * the operation that comes before, or null for the first place.
 */
export const routeEditSchema = z.discriminatedUnion('edit', [
  /** Puts an operation of one's own after another. */
  z.strictObject({ edit: z.literal('add'), after: idField.nullable(), operation: operationSchema }),
  z.strictObject({ edit: z.literal('move'), operation: idField, after: idField.nullable() }),
  /** Cuts to `at` first, and from there in a second operation called `second` that follows at once. */
  z.strictObject({ edit: z.literal('split'), operation: idField, at: sizeField, second: idField, mateSize }),
  /** Passes over an operation. It stays in the route, marked. */
  z.strictObject({ edit: z.literal('skip'), operation: idField }),
  /** Puts a note of one's own to an operation, in place of the one it has; null takes it away. */
  z.strictObject({ edit: z.literal('note'), operation: idField, note: lineField.nullable() }),
  z.strictObject({ edit: z.literal('change'), operation: idField, numbers: numbersSchema, mateSize }),
]);
export type RouteEdit = z.output<typeof routeEditSchema>;
export type EditNumbers = z.output<typeof numbersSchema>;
export type EditNumber = keyof EditNumbers;
