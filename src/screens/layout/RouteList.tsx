import { useRef, useState } from 'react';
import { parseLength, type DisplayUnit } from '../../measure/index.ts';
import type { Draft, DraftEdit, Part } from '../../part/index.ts';
import {
  applyEdit,
  describeEditFault,
  describeWarning,
  timeText,
  type EditedRoute,
  type Operation,
  type RouteEdit,
} from '../../route/index.ts';
import { SetupSign } from '../drawing/SetupSign.tsx';
import { bareSize, bothLimits, unitSign } from '../show.ts';
import { words } from '../words.ts';
import { layoutWords } from './layoutWords.ts';
import { storedEdits, type DraftRoute } from './useRoute.ts';

const w = layoutWords.route;

type Edit = (edit: RouteEdit) => void;

/** What cannot be done with a step, in words; said at that step, where the hand and the eye are. */
type Refused = { readonly step: string; readonly says: string };

/** The facts of a step in one line. */
function facts({ target, cut, stop, instrument }: Operation, unit: DisplayUnit): string {
  const size = (length: Parameters<typeof bareSize>[0]): string => bareSize(length, unit);
  return [
    target === null ? '' : w.wanted(...bothLimits(target.low, target.high, unit), unitSign(unit)),
    instrument === null ? '' : words.instruments[instrument],
    cut === null ? '' : w.cut(cut.tool, cut.speedRpm),
    stop === null ? '' : w.stop(`${size(stop.distance)} ${unitSign(unit)}`, stop.from),
  ]
    .filter((text) => text !== '')
    .join(' · ');
}

/** What can be changed of one step: a note, a second pass of its own, leaving it out. */
function Change({
  operation,
  edited,
  unit,
  onEdit,
}: {
  readonly operation: Operation;
  readonly edited: EditedRoute;
  readonly unit: DisplayUnit;
  readonly onEdit: Edit;
}) {
  const [note, setNote] = useState(operation.note ?? '');
  const [at, setAt] = useState('');
  const { target } = operation;
  const split = parseLength(at, unit);
  const second = (): string => {
    const taken = new Set(edited.route.operations.map(({ id }) => id));
    let id = `${operation.id}-2`;
    for (let count = 3; taken.has(id); count += 1) id = `${operation.id}-${count}`;
    return id;
  };
  return (
    <div className="step-change">
      <div className="cell">
        <label htmlFor={`note-${operation.id}`}>{w.note}</label>
        <input
          id={`note-${operation.id}`}
          type="text"
          value={note}
          maxLength={200}
          onChange={(event) => setNote(event.target.value)}
          onBlur={() => {
            const said = note.trim() === '' ? null : note.trim();
            if (said !== operation.note) onEdit({ edit: 'note', operation: operation.id, note: said });
          }}
        />
      </div>
      {target !== null && target.from !== null && (
        <div className="cell">
          <label htmlFor={`split-${operation.id}`}>{w.split}</label>
          <span className="cell-pair">
            <input id={`split-${operation.id}`} type="text" value={at} onChange={(event) => setAt(event.target.value)} />
            <button
              type="button"
              className="row-button is-words"
              disabled={!split.ok}
              onClick={() => {
                if (split.ok)
                  onEdit({ edit: 'split', operation: operation.id, at: split.value, second: second(), mateSize: null });
              }}
            >
              {w.splitDo}
            </button>
          </span>
        </div>
      )}
      <button type="button" className="row-button is-words" onClick={() => onEdit({ edit: 'skip', operation: operation.id })}>
        {w.skip}
      </button>
    </div>
  );
}

function Step({
  operation,
  at,
  edited,
  unit,
  refused,
  onEdit,
}: {
  readonly operation: Operation;
  readonly at: number;
  readonly edited: EditedRoute;
  readonly unit: DisplayUnit;
  readonly refused: string | null;
  readonly onEdit: Edit;
}) {
  const [open, setOpen] = useState(false);
  const opener = useRef<HTMLButtonElement>(null);
  const { operations } = edited.route;
  const skipped = edited.skipped.includes(operation.id);
  const button = (label: string, sign: string, after: string | null, off: boolean) => (
    <button
      type="button"
      className="row-button"
      aria-label={layoutWords.named(label, operation.title)}
      aria-disabled={off}
      onClick={() => {
        if (!off) onEdit({ edit: 'move', operation: operation.id, after });
      }}
    >
      {sign}
    </button>
  );
  return (
    <li
      className={`route-step ${skipped ? 'is-skipped' : ''}`}
      onKeyDown={(event) => {
        if (event.key !== 'Escape' || !open) return;
        // Before the fields go: a note is kept when its field is left.
        opener.current?.focus();
        setOpen(false);
      }}
    >
      <div className="route-words">
        <p>
          <b>{at + 1}.</b> {skipped ? <s>{operation.title}</s> : operation.title} {skipped && <i>({w.skipped})</i>}
        </p>
        <p className="route-facts">{facts(operation, unit)}</p>
        {operation.note !== null && <p className="route-facts">{operation.note}</p>}
      </div>
      <div className="row-buttons">
        {button(layoutWords.up, '↑', operations[at - 2]?.id ?? null, at === 0)}
        {button(layoutWords.down, '↓', operations[at + 1]?.id ?? null, at === operations.length - 1)}
        <button
          ref={opener}
          type="button"
          className="row-button is-words"
          aria-expanded={open}
          aria-label={layoutWords.named(w.change, operation.title)}
          onClick={() => setOpen(!open)}
        >
          {w.change}
        </button>
      </div>
      {refused !== null && (
        <p className="cell-says step-says" role="alert">
          {refused}
        </p>
      )}
      {open && <Change operation={operation} edited={edited} unit={unit} onEdit={onEdit} />}
    </li>
  );
}

type Props = {
  readonly draft: Draft;
  readonly part: Part;
  readonly route: DraftRoute;
  readonly edit: (edit: DraftEdit) => void;
  readonly onBegin: () => void;
};

/** The route as it will be worked through, set-up by set-up, to be reordered, split, noted and thinned out, with its checks. */
export function RouteList({ draft, part, route, edit, onBegin }: Props) {
  const [refused, setRefused] = useState<Refused | null>(null);
  const { edited, warnings, leftOver } = route;
  if (edited === null) return <p>{w.none}</p>;
  const { operations, setups } = edited.route;
  const onEdit = (change: RouteEdit): void => {
    const next = applyEdit(edited, change);
    const step = typeof change.operation === 'string' ? change.operation : change.operation.id;
    setRefused(next.ok ? null : { step, says: describeEditFault(next.error, edited.route, part.unit) });
    if (next.ok) edit({ edit: 'route', edits: storedEdits(next.value.edits) });
  };
  const minutes = operations.filter(({ id }) => !edited.skipped.includes(id)).reduce((sum, { minutes: each }) => sum + each, 0);
  return (
    <section className="rows" aria-label={w.title}>
      <h2>{w.title}</h2>
      <p>{w.facts(operations.length - edited.skipped.length, timeText(minutes))}</p>
      <section className="wanted" aria-label={w.checks}>
        {warnings.length === 0 ? (
          <p>✓ {w.noChecks}</p>
        ) : (
          <>
            <h3>{w.checks}</h3>
            <ul>
              {warnings.map((warning) => {
                const said = describeWarning(warning, part.unit);
                return <li key={said}>{said}</li>;
              })}
            </ul>
          </>
        )}
        {leftOver.length > 0 && (
          <>
            <h3>{w.leftOver}</h3>
            <ul>
              {leftOver.map(({ fault }, index) => (
                <li key={index}>{describeEditFault(fault, edited.route, part.unit)}</li>
              ))}
            </ul>
          </>
        )}
      </section>
      <div className="row-adds">
        <button type="button" className="plain-button is-main" onClick={onBegin}>
          {w.begin}
        </button>
        {draft.edits.length > 0 && (
          <button type="button" className="plain-button" onClick={() => edit({ edit: 'route', edits: [] })}>
            {w.undoEdits}
          </button>
        )}
      </div>
      {setups.map((setup, index) => (
        <section key={setup.id} className="route-setup">
          <h3>
            <SetupSign holding={setup.holding} /> {layoutWords.sheet.setup(index + 1, setup.title)}
          </h3>
          <p className="route-facts">{setup.holding}</p>
          <ol>
            {operations.map((operation, at) =>
              operation.setup === setup.id ? (
                <Step
                  key={operation.id}
                  operation={operation}
                  at={at}
                  edited={edited}
                  unit={part.unit}
                  refused={refused?.step === operation.id ? refused.says : null}
                  onEdit={onEdit}
                />
              ) : null,
            )}
          </ol>
        </section>
      ))}
    </section>
  );
}
