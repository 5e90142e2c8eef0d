import { z } from 'zod';
import { lineField, idField, sizeField } from './fields.ts';

/** Instruments that read a size at the bench or at the machine. */
export const readingInstrumentField = z.enum([
  'caliper',
  'micrometer',
  'telescoping-gauge',
  'depth-micrometer',
  'rule',
  'indicator',
  'readout',
]);

/** One reading of a mate: what was read, how far along, which way across, and with what. */
export const mateReadingSchema = z.strictObject({
  value: sizeField,
  place: z.enum(['near', 'middle', 'far']).default('middle'),
  across: z.enum(['one-way', 'other-way']).default('one-way'),
  instrument: readingInstrumentField,
});
export type MateReading = z.output<typeof mateReadingSchema>;

/**
 * A thing that exists already and that the part must fit: a bore or a bearing that goes over a journal, a shaft or the outer ring
 * of a bearing that goes into a bored hole, a width that a length holds. The size of a `bearing` is its bore, of an `outer-ring`
 * the outside of that.
 */
export const mateSchema = z.strictObject({
  id: idField,
  kind: z.enum(['bore', 'shaft', 'width', 'bearing', 'outer-ring', 'bolt']),
  name: lineField,
  say: lineField,
  /** The size before it is measured at the machine: from a drawing, a catalogue or an earlier reading. */
  nominal: sizeField,
  /** What was measured at the desk; at the machine it may be measured again. */
  readings: z.array(mateReadingSchema).max(100).default([]),
  /** The outside of what has the bore, and what it is of: for the force to press it on. Null where nobody said. */
  outer: sizeField.nullable().default(null),
  material: lineField.nullable().default(null),
});
export type Mate = z.output<typeof mateSchema>;
