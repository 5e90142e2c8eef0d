import type { InstrumentKind, OwnFigure } from '../../measure/index.ts';
import { inUnit } from './inUnit.ts';
import { DRAFT_GROUPS, type Draft, type DraftGroup, type DraftInstrument, type DraftRow } from './draft.ts';

/** One change of a draft. */
export type DraftEdit =
  | { readonly edit: 'type-about'; readonly field: string; readonly text: string }
  | { readonly edit: 'type'; readonly group: DraftGroup; readonly row: string; readonly field: string; readonly text: string }
  | { readonly edit: 'kind'; readonly group: DraftGroup; readonly row: string; readonly kind: string }
  | { readonly edit: 'add'; readonly group: DraftGroup; readonly kind: string; readonly after: string | null }
  | { readonly edit: 'remove'; readonly group: DraftGroup; readonly row: string }
  | { readonly edit: 'move'; readonly group: DraftGroup; readonly row: string; readonly by: -1 | 1 }
  | { readonly edit: 'type-instrument'; readonly kind: InstrumentKind; readonly figure: OwnFigure; readonly text: string }
  /** An instrument as the standard says. */
  | { readonly edit: 'standard-instrument'; readonly kind: InstrumentKind }
  | { readonly edit: 'unit'; readonly unit: Draft['unit'] }
  | { readonly edit: 'tool'; readonly tool: Draft['tool'] }
  | { readonly edit: 'route'; readonly edits: Draft['edits'] };

/** The id of the row that the next `add` will make. */
export const nextRowId = (draft: Draft): string => `r${draft.added + 1}`;

function moved(rows: readonly DraftRow[], row: string, by: number): DraftRow[] {
  const at = rows.findIndex((each) => each.id === row);
  const to = at + by;
  const list = [...rows];
  const [one] = at < 0 || to < 0 || to >= rows.length ? [] : list.splice(at, 1);
  if (one !== undefined) list.splice(to, 0, one);
  return list;
}

/** The instruments with one figure typed; one of which nothing is left typed is a standard one again. */
function typedInstrument(
  instruments: readonly DraftInstrument[],
  kind: InstrumentKind,
  figure: OwnFigure,
  text: string,
): DraftInstrument[] {
  const before = instruments.find((each) => each.kind === kind) ?? { kind, resolution: '', permissibleError: '' };
  const after = { ...before, [figure]: text };
  const others = instruments.filter((each) => each.kind !== kind);
  return after.resolution === '' && after.permissibleError === '' ? others : [...others, after];
}

/** A draft with one change made. What is typed is kept as it is, also in fields that the row's kind does not have. Pure. */
export function editDraft(draft: Draft, edit: DraftEdit): Draft {
  switch (edit.edit) {
    case 'type-about':
      return { ...draft, about: { ...draft.about, [edit.field]: edit.text } };
    case 'type': {
      const typed = (row: DraftRow): DraftRow =>
        row.id === edit.row ? { ...row, values: { ...row.values, [edit.field]: edit.text } } : row;
      return { ...draft, [edit.group]: draft[edit.group].map(typed) };
    }
    case 'kind':
      return {
        ...draft,
        [edit.group]: draft[edit.group].map((row) => (row.id === edit.row ? { ...row, kind: edit.kind } : row)),
      };
    case 'add': {
      const rows = [...draft[edit.group]];
      const at = edit.after === null ? rows.length : rows.findIndex((row) => row.id === edit.after) + 1;
      rows.splice(at, 0, { id: nextRowId(draft), kind: edit.kind, values: {} });
      return { ...draft, [edit.group]: rows, added: draft.added + 1 };
    }
    case 'remove': {
      // What was chosen to go with it is chosen no more.
      const freed = (row: DraftRow): DraftRow => ({
        ...row,
        values: Object.fromEntries(Object.entries(row.values).filter(([, text]) => text !== edit.row)),
      });
      const groups = DRAFT_GROUPS.map((group) => [group, draft[group].filter((row) => row.id !== edit.row).map(freed)] as const);
      return { ...draft, ...Object.fromEntries(groups) };
    }
    case 'move':
      return { ...draft, [edit.group]: moved(draft[edit.group], edit.row, edit.by) };
    case 'type-instrument':
      return { ...draft, instruments: typedInstrument(draft.instruments, edit.kind, edit.figure, edit.text) };
    case 'standard-instrument':
      return { ...draft, instruments: draft.instruments.filter(({ kind }) => kind !== edit.kind) };
    case 'unit':
      return inUnit(draft, edit.unit);
    case 'tool':
      return { ...draft, tool: edit.tool };
    case 'route':
      return { ...draft, edits: edit.edits };
  }
}
