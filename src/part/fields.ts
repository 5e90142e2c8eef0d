import { z } from 'zod';
import { asDiameter, parseLength, writeLength, type Diameter, type Length } from '../measure/index.ts';

/**
 * A length in a file: text with its unit (`"0.627in"`, `"15.94mm"`, `"5/16in"`), read to the exact nanometre. Text without a
 * unit is refused: a bare number in a file has no mode to borrow one from.
 */
export const lengthField = z.codec(
  z.string(),
  z.custom<Length>((value) => Number.isSafeInteger(value)),
  {
    decode: (text, context) => {
      const read = parseLength(text, 'millimetre');
      if (read.ok && /[a-zµ"']\s*$/i.test(text)) return read.value;
      context.issues.push({
        code: 'custom',
        input: text,
        message: `"${text}" is not a length with its unit, such as "0.627in" or "15.94mm"`,
      });
      return z.NEVER;
    },
    encode: (length) => writeLength(length),
  },
);

/** A diameter in a file: written like any length, and a `Diameter` from there on. */
export const diameterField = z.codec(
  lengthField,
  z.custom<Diameter>((value) => Number.isSafeInteger(value)),
  {
    decode: (length) => asDiameter(length),
    encode: (diameter) => diameter,
  },
);

const moreThanZero = (length: number): boolean => length > 0;

/** A length in a file that is more than zero. */
export const sizeField = lengthField.refine(moreThanZero, 'a size is more than zero');

/** A diameter in a file that is more than zero. */
export const acrossField = diameterField.refine(moreThanZero, 'a size is more than zero');

/** An id inside a file: letters, digits and dashes, so that it can stand in a path of an error message. */
export const idField = z
  .string()
  .regex(/^[a-z0-9][a-z0-9-]*$/, 'an id is lower-case letters, digits and dashes')
  // Ids are keys of plain objects; a name that every object has would be found without ever being put there.
  .refine((id) => !(id in {}), 'this word cannot be an id');

/** A short line of text that is shown or spoken. */
export const lineField = z.string().trim().min(1).max(200);

/** A sentence or two that a route says; names of features stand in it, each as long as a line may be. */
export const sentenceField = z.string().trim().min(1).max(800);

/** An angle in degrees, in decimals, up to a whole turn either way. */
export const degreesField = z.number().min(-360).max(360);

/** The roughness wanted, Ra in micrometres; null where nothing is asked. The feed of the finishing cut follows from it. */
export const roughnessField = z.number().positive().max(50).nullable().default(null);
