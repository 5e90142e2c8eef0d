import { z } from 'zod';
import { limitsSchema } from './limits.ts';

/** What a length may be counted from: a face of the part, or one of the feature's own two shoulders. */
export const DATUMS = ['left-face', 'right-face', 'left-shoulder', 'right-shoulder'] as const;
export type Datum = (typeof DATUMS)[number];

/**
 * The length as the drawing gives it: from a face of the part to the far end of the feature, or from one of its own shoulders to
 * the other. Null where it is between its two ends and nobody said from which. The feature's `length` follows from it
 * (`ownLengths`), and may be left out beside it in a file.
 */
export const datumField = z
  .strictObject({ from: z.enum(DATUMS), length: limitsSchema })
  .nullable()
  .default(null);
export type DatumLength = NonNullable<z.output<typeof datumField>>;
