import type { DraftRow } from '../../part/index.ts';
import { layoutWords as w } from './layoutWords.ts';

export const kindName = (kind: string): string => w.kinds[kind] ?? kind;

/** What a field is called on a row of this kind. */
export const fieldName = (field: string, kind: string): string => w.fieldsOf[kind]?.[field] ?? w.fields[field] ?? field;

/** What a row is called: by its name, else by its kind and its place. */
export const rowName = (row: DraftRow, at: number): string => row.values['name']?.trim() || w.row(at + 1, kindName(row.kind));

/** The id of a field in the page; `about` stands for the fields of the draft itself. */
export const fieldId = (row: string, field: string): string => `field-${row}-${field}`;
