import { z } from 'zod';
import { fail, type Result } from '../measure/index.ts';
import { machineSchema } from './machine.ts';
import { partSchema } from './part.ts';
import { readBy, type FileProblem } from './problem.ts';

/** A part with the machines that it is to be made on, as a file of its own: what a route is computed from. */
export const partFileSchema = z.strictObject({
  format: z.literal('swarfside-part'),
  version: z.literal(1),
  /** True of demo data. */
  invented: z.boolean(),
  part: partSchema,
  machines: z.array(machineSchema).min(1),
});
export type PartFile = z.output<typeof partFileSchema>;

/** Reads the text of a part file; what is wrong comes back with its place. */
export function readPartFile(text: string): Result<PartFile, FileProblem> {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch (error) {
    return fail({ path: [], place: null, says: `is not JSON: ${error instanceof Error ? error.message : String(error)}` });
  }
  const version = typeof json === 'object' && json !== null && 'version' in json ? json.version : null;
  if (typeof version === 'number' && version > 1)
    return fail({ path: ['version'], place: null, says: `written by a newer version (${version}); this one reads 1` });
  return readBy(partFileSchema, json);
}
