import { useId } from 'react';
import { formatAmount, inches, INSTRUMENTS, millimetres, type InstrumentKind, type OwnFigure } from '../../measure/index.ts';
import type { Draft, DraftEdit } from '../../part/index.ts';
import { TOOLS } from '../../trade/index.ts';
import { words } from '../words.ts';
import { onEnter } from './Field.tsx';
import { layoutWords as w } from './layoutWords.ts';
import { fieldId } from './names.ts';
import { saysOf, type Said } from './said.ts';

const c = w.instruments.columns;
/** At what size an instrument is told: as the head of the column says. */
const SIZE = { inch: inches(1), millimetre: millimetres(25) } as const;

/** Of what the tools are. */
export function ToolChoice({ draft, edit }: { readonly draft: Draft; readonly edit: (edit: DraftEdit) => void }) {
  return (
    <div className="cell tool-choice">
      <label htmlFor="field-tool">{w.tool.label}</label>
      <select
        id="field-tool"
        value={draft.tool}
        onChange={(event) =>
          edit({ edit: 'tool', tool: TOOLS.find((tool) => tool === event.target.value) ?? 'high-speed-steel' })
        }
      >
        {TOOLS.map((tool) => (
          <option key={tool} value={tool}>
            {w.tool[tool]}
          </option>
        ))}
      </select>
    </div>
  );
}

type InstrumentsProps = { readonly draft: Draft; readonly said: Said; readonly edit: (edit: DraftEdit) => void };

/** One figure of an instrument: what is typed, the standard figure where nothing is, and what is wrong with it. */
function Figure({
  draft,
  said,
  edit,
  kind,
  figure,
}: InstrumentsProps & { readonly kind: InstrumentKind; readonly figure: OwnFigure }) {
  const { unit } = draft;
  const under = useId();
  const text = draft.instruments.find((own) => own.kind === kind)?.[figure] ?? '';
  const says = saysOf(said, 'instruments', kind, figure);
  const { resolution, permissibleError } = INSTRUMENTS[kind];
  const column = figure === 'resolution' ? c.step : c.error[unit];
  return (
    <div className={`cell ${says === null ? '' : 'is-wrong'}`}>
      <input
        id={fieldId(kind, figure)}
        type="text"
        aria-label={w.instruments.field(words.instruments[kind], column)}
        aria-describedby={under}
        aria-invalid={says !== null || undefined}
        value={text}
        placeholder={formatAmount(figure === 'resolution' ? resolution : permissibleError(SIZE[unit]), unit)}
        autoComplete="off"
        autoCapitalize="off"
        spellCheck={false}
        enterKeyHint="next"
        onKeyDown={onEnter}
        onChange={(event) => edit({ edit: 'type-instrument', kind, figure, text: event.target.value })}
      />
      <p id={under} className="cell-under">
        {says !== null && <span className="cell-says">{says}</span>}
      </p>
    </div>
  );
}

/** What is believed of each instrument, to be typed over: every coaching of the last thousandths rests on it. */
export function Instruments(props: InstrumentsProps) {
  const { draft, edit } = props;
  const error = c.error[draft.unit];
  return (
    <section className="rows" aria-label={w.instruments.title}>
      <h2>{w.instruments.title}</h2>
      <div className="readings-wrap">
        <table className="readings">
          <thead>
            <tr>
              <th scope="col">{c.name}</th>
              <th scope="col">{c.step}</th>
              <th scope="col">{error}</th>
              <th scope="col">{c.source}</th>
            </tr>
          </thead>
          <tbody>
            {Object.values(INSTRUMENTS).map(({ kind, source }) => (
              <tr key={kind}>
                <td className="what">{words.instruments[kind]}</td>
                <td data-label={c.step}>
                  <Figure {...props} kind={kind} figure="resolution" />
                </td>
                <td data-label={error}>
                  <Figure {...props} kind={kind} figure="permissibleError" />
                </td>
                <td>
                  {draft.instruments.some((own) => own.kind === kind) ? (
                    <>
                      {w.instruments.own}{' '}
                      <button
                        type="button"
                        className="row-button is-words"
                        aria-label={w.named(w.instruments.standard, words.instruments[kind])}
                        onClick={() => edit({ edit: 'standard-instrument', kind })}
                      >
                        {w.instruments.standard}
                      </button>
                    </>
                  ) : (
                    source
                  )}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}
