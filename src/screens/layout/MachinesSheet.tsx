import { formatAmount, inches, INSTRUMENTS, millimetres, type DisplayUnit } from '../../measure/index.ts';
import type { Draft, DraftEdit } from '../../part/index.ts';
import { TOOLS } from '../../trade/index.ts';
import { words } from '../words.ts';
import { layoutWords as w } from './layoutWords.ts';

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

/** What is believed of each instrument: every coaching of the last thousandths rests on it. */
export function Instruments({ unit }: { readonly unit: DisplayUnit }) {
  return (
    <section className="rows" aria-label={w.instruments.title}>
      <h2>{w.instruments.title}</h2>
      <div className="readings-wrap">
        <table className="readings">
          <thead>
            <tr>
              <th scope="col">{c.name}</th>
              <th scope="col">{c.step}</th>
              <th scope="col">{c.error[unit]}</th>
              <th scope="col">{c.source}</th>
            </tr>
          </thead>
          <tbody>
            {Object.values(INSTRUMENTS).map(({ kind, resolution, permissibleError, source }) => (
              <tr key={kind}>
                <td>{words.instruments[kind]}</td>
                <td data-label={c.step}>{formatAmount(resolution, unit)}</td>
                <td data-label={c.error[unit]}>{formatAmount(permissibleError(SIZE[unit]), unit)}</td>
                <td>{source}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}
