import { useState, type MouseEvent } from 'react';
import { flushSync } from 'react-dom';
import {
  draftKind,
  kindsOf,
  nextRowId,
  type Draft,
  type DraftEdit,
  type DraftField,
  type DraftGroup,
  type DraftReading,
  type DraftRow,
} from '../../part/index.ts';
import { Field, type Choice } from './Field.tsx';
import { fieldId, kindName, fieldName, rowName } from './names.ts';
import { FitChooser } from './FitChooser.tsx';
import { layoutWords as w } from './layoutWords.ts';
import { readingOf, saysOf, type Said } from './said.ts';

type Props = {
  readonly group: DraftGroup;
  readonly draft: Draft;
  readonly reading: DraftReading;
  readonly said: Said;
  readonly edit: (edit: DraftEdit) => void;
  readonly chosen: string | null;
  readonly onChoose: (row: string) => void;
};

/** The rows that a field can name, or the words that it can be; null where it is typed. */
function choicesOf(field: DraftField, row: DraftRow, draft: Draft): readonly Choice[] | null {
  const rows = (list: readonly DraftRow[], ...kinds: readonly string[]): Choice[] =>
    list
      .filter((each) => each.id !== row.id && (kinds.length === 0 || kinds.includes(each.kind)))
      .map((each) => ({ value: each.id, label: rowName(each, list.indexOf(each)) }));
  switch (field.type) {
    case 'choice':
      return (field.choices ?? []).map((value) => ({ value, label: w.choices[value] ?? value }));
    case 'mate':
      return rows(draft.mates, 'bore', 'bearing');
    case 'shaft':
      return rows(draft.mates, 'shaft', 'outer-ring');
    case 'width':
      return rows(draft.mates, 'width');
    case 'turned':
      return rows(draft.turned);
    case 'timing':
      return [...rows(draft.turned, 'offset-journal'), ...rows(draft.milled)];
    case 'line':
    case 'thread':
    case 'number':
    case 'size':
    case 'limits':
    case 'sizes':
    case 'numbers':
    case 'readings':
    case 'chucks':
    case 'words':
      return null;
  }
}

function Row({ row, at, ...props }: Props & { readonly row: DraftRow; readonly at: number }) {
  const { group, draft, reading, said, edit, chosen, onChoose } = props;
  const [more, setMore] = useState(false);
  const kind = draftKind(row.kind);
  const name = rowName(row, at);
  const fields = kind?.fields ?? [];
  const isSet = ({ name: field, choices, needed }: DraftField): boolean => {
    const text = row.values[field] ?? '';
    return (text !== '' && text !== '0' && !(needed && text === choices?.[0])) || saysOf(said, group, row.id, field) !== null;
  };
  const shown = fields.filter((field) => field.seldom !== true || more || isSet(field));
  const along = group === 'turned';
  const remove = ({ currentTarget }: MouseEvent): void => {
    const table = currentTarget.closest('.rows');
    const beside = draft[group][at + 1] ?? draft[group][at - 1];
    edit({ edit: 'remove', group, row: row.id });
    // The focus goes on to the row that takes its place, else to what adds one.
    if (beside !== undefined) document.getElementById(`row-${beside.id}`)?.focus();
    else table?.querySelector<HTMLElement>('.row-adds button')?.focus();
  };
  const button = (label: string, act: (event: MouseEvent) => void, sign: string, off = false) => (
    <button
      type="button"
      className="row-button"
      aria-label={w.named(label, name)}
      title={label}
      aria-disabled={off}
      onClick={off ? undefined : act}
    >
      {sign}
    </button>
  );
  return (
    <section
      id={`row-${row.id}`}
      className={`row ${row.id === chosen ? 'is-chosen' : ''}`}
      aria-label={name}
      tabIndex={-1}
      onFocus={() => onChoose(row.id)}
    >
      <div className="row-fields">
        {shown.map((field) => (
          <Field
            key={field.name}
            field={field}
            label={fieldName(field.name, row.kind)}
            id={fieldId(row.id, field.name)}
            text={row.values[field.name] ?? ''}
            unit={draft.unit}
            choices={choicesOf(field, row, draft)}
            reading={readingOf(reading, row.id, field.name)}
            says={saysOf(said, group, row.id, field.name)}
            onType={(text) => edit({ edit: 'type', group, row: row.id, field: field.name, text })}
          />
        ))}
      </div>
      {saysOf(said, group, row.id, null) !== null && <p className="cell-says">{saysOf(said, group, row.id, null)}</p>}
      <div className="row-head">
        <h3>{w.row(at + 1, kindName(row.kind))}</h3>
        <div className="row-buttons">
          {fields.length > shown.length || more ? (
            <button
              type="button"
              className="row-button is-words"
              aria-expanded={more}
              aria-label={w.named(more ? w.fewer : w.more, name)}
              onClick={() => setMore(!more)}
            >
              {more ? w.fewer : w.more}
            </button>
          ) : null}
          {button(along ? w.left : w.up, () => edit({ edit: 'move', group, row: row.id, by: -1 }), along ? '←' : '↑', at === 0)}
          {button(
            along ? w.right : w.down,
            () => edit({ edit: 'move', group, row: row.id, by: 1 }),
            along ? '→' : '↓',
            at === draft[group].length - 1,
          )}
          {button(w.remove, remove, '✕')}
        </div>
      </div>
      {fields.some(({ type }) => type === 'mate' || type === 'shaft') && (
        <FitChooser group={group} row={row} draft={draft} reading={reading} edit={edit} />
      )}
    </section>
  );
}

/** One table of the draft: its rows, and the kinds that can be added. */
export function Rows(props: Props) {
  const { group, draft, edit, onChoose } = props;
  const add = (kind: string): void => {
    const id = nextRowId(draft);
    // Its first field is what comes next, for the very next key: not one frame later.
    flushSync(() => {
      edit({ edit: 'add', group, kind, after: null });
      onChoose(id);
    });
    document.getElementById(fieldId(id, 'name'))?.focus();
  };
  return (
    <section className="rows" aria-label={w.groups[group]}>
      <h2>{w.groups[group]}</h2>
      {draft[group].map((row, at) => (
        <Row key={row.id} {...props} row={row} at={at} />
      ))}
      <div className="row-adds">
        {kindsOf(group).map(({ kind }) => (
          <button
            key={kind}
            type="button"
            className="plain-button goes-on"
            onClick={() => add(kind)}
            aria-label={w.add(kindName(kind))}
          >
            + {kindName(kind)}
          </button>
        ))}
      </div>
    </section>
  );
}
