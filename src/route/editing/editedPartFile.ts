import { z } from 'zod';
import type { Result } from '../../measure/index.ts';
import { partFileSchema, readPartFileBy, type FileProblem } from '../../part/index.ts';
import { routeEditSchema } from './edit.ts';

/**
 * A part file with what a hand changed in its route before the work began. The route itself is not in it: it is generated from
 * the part, and the edits are applied to it again.
 */
export const editedPartFileSchema = z.strictObject({ ...partFileSchema.shape, edits: z.array(routeEditSchema).default([]) });
export type EditedPartFile = z.output<typeof editedPartFileSchema>;

/** Reads the text of a part file, with or without edits; what is wrong comes back with its place. */
export const readEditedPartFile = (text: string): Result<EditedPartFile, FileProblem> =>
  readPartFileBy(editedPartFileSchema, text);
