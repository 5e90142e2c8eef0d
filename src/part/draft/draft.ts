import { z } from 'zod';
import { TOOLS } from '../../trade/index.ts';
import { readingInstrumentField } from '../mate.ts';

/** One line of a table at the desk: what kind of thing it is, and each of its fields exactly as it was typed. */
export const draftRowSchema = z.strictObject({
  id: z.string().min(1).max(64),
  kind: z.string().max(40),
  values: z.record(z.string().max(40), z.string().max(400)),
});
export type DraftRow = z.output<typeof draftRowSchema>;

/** The figures of an instrument of the shop's own, as they were typed; an empty one is as the standard says. */
export const draftInstrumentSchema = z.strictObject({
  kind: readingInstrumentField,
  resolution: z.string().max(400),
  permissibleError: z.string().max(400),
});
export type DraftInstrument = z.output<typeof draftInstrumentSchema>;

/** The tables of a draft. `turned` goes from the left end of the part to the right. */
export const DRAFT_GROUPS = ['mates', 'turned', 'edges', 'ends', 'milled', 'machines'] as const;
export type DraftGroup = (typeof DRAFT_GROUPS)[number];

const rows = z.array(draftRowSchema).max(100);

/**
 * A part that is being laid out, as text: what does not read yet is kept as it stands, so that no key press is lost. `about`
 * holds the fields that stand once: the part's name, its stock, what a size without limits may be off.
 */
export const draftSchema = z.strictObject({
  format: z.literal('swarfside-draft'),
  version: z.literal(1),
  id: z.string().min(1).max(64),
  unit: z.enum(['inch', 'millimetre']),
  tool: z.enum(TOOLS),
  about: z.record(z.string().max(40), z.string().max(400)),
  mates: rows,
  turned: rows,
  edges: rows,
  ends: rows,
  milled: rows,
  machines: rows,
  /** One a kind that is not as the standard says. */
  instruments: z.array(draftInstrumentSchema).max(20).default([]),
  /** What was changed in the route by hand, in order, as the route's own edits are stored. */
  edits: z.array(z.json()).max(500).default([]),
  /** Counts the rows that were ever added, so that no id is given twice. */
  added: z.number().int().nonnegative(),
});
export type Draft = z.output<typeof draftSchema>;

/** What is typed in a field, or nothing. */
export const typedIn = (values: Readonly<Record<string, string>>, field: string): string => values[field]?.trim() ?? '';
