import { z } from 'zod';
import { fail, instrumentsOf, type Result } from '../measure/index.ts';
import { machineSchema } from './machine.ts';
import { ownInstrumentsSchema } from './ownInstruments.ts';
import { partSchema } from './part.ts';
import { readBy, type FileProblem } from './problem.ts';
import { PART_STEPS, PART_VERSION } from './steps.ts';
import { withFittedDiameters } from './writtenFits.ts';
import { withOwnLengths } from './writtenLengths.ts';

/** A part with the machines that it is to be made on, as a file of its own: what a route is computed from. */
export const partFileSchema = z.strictObject({
  format: z.literal('swarfside-part'),
  version: z.literal(PART_VERSION),
  /** True of demo data. */
  invented: z.boolean(),
  part: partSchema,
  machines: z.array(machineSchema).min(1),
  /** Left out where every instrument is as the standard says. */
  instruments: ownInstrumentsSchema.optional(),
});
export type PartFile = z.output<typeof partFileSchema>;

const isGroup = (json: unknown): json is Readonly<Record<string, unknown>> =>
  typeof json === 'object' && json !== null && !Array.isArray(json);

/** The part of a file, carried forward from the version in which it was written. */
const carried = (part: unknown, version: number): unknown =>
  PART_STEPS.slice(version - 1).reduce((json, step) => step.change(json), part);

/**
 * Reads the text of a part file, of this version or an older one, by a schema that holds what a part file does and maybe more;
 * what is wrong comes back with its place. A diameter that is left out beside a `fit` follows from its mate, a length
 * beside its `datum` from the chain of lengths.
 */
export function readPartFileBy<T>(schema: z.ZodType<T>, text: string): Result<T, FileProblem> {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch (error) {
    return fail({ path: [], place: null, says: `is not JSON: ${error instanceof Error ? error.message : String(error)}` });
  }
  const version = isGroup(json) ? json['version'] : null;
  if (typeof version === 'number' && version > PART_VERSION)
    return fail({
      path: ['version'],
      place: null,
      says: `written by a newer version (${version}); this one reads up to ${PART_VERSION}`,
    });
  if (!isGroup(json) || typeof version !== 'number' || !Number.isInteger(version) || version < 1) return readBy(schema, json);
  // What is wrong with them is said by the schema, below.
  const own = ownInstrumentsSchema.safeParse(json['instruments'] ?? []);
  const fitted = withFittedDiameters(carried(json['part'], version), ['part'], instrumentsOf(own.success ? own.data : []));
  const part = fitted.ok ? withOwnLengths(fitted.value, ['part']) : fitted;
  return part.ok ? readBy(schema, { ...json, version: PART_VERSION, part: part.value }) : part;
}

/** Reads the text of a part file. */
export const readPartFile = (text: string): Result<PartFile, FileProblem> => readPartFileBy(partFileSchema, text);
