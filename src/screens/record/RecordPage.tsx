import { useMemo } from 'react';
import { draftOfPart, readDraft } from '../../part/index.ts';
import { inOrder, instrumentsHere, newest, routeProgress, progressOf, sizeOf, type JobState } from '../../job/index.ts';
import { inches, millimetres, type DisplayUnit } from '../../measure/index.ts';
import { Boundary } from '../Boundary.tsx';
import { PartDrawing } from '../drawing/PartDrawing.tsx';
import { PageHead } from '../PageHead.tsx';
import { saveFile } from '../saveFile.ts';
import { amountText, bareSize, bothLimits, showMoment, unitSign } from '../show.ts';
import { useAssistant, useAssistantStore } from '../store.tsx';
import { words } from '../words.ts';
import '../drawing/drawing.css';
import './record.css';
import { Deviations, Fits, Histories, Notes } from './Findings.tsx';
import { recordWords } from './recordWords.ts';
import { liesInWindow, recordRows, type RecordRow } from './rows.ts';

const w = recordWords.page;

function wanted(row: RecordRow, unit: DisplayUnit): string {
  return row.window === null ? '' : words.range(...bothLimits(row.window.low, row.window.high, unit));
}

function stands(row: RecordRow): string {
  const inside = liesInWindow(row);
  const said = inside === null ? w.noWindow : inside ? w.inWindow : w.outside;
  return row.confirmed ? [said, w.overridden].filter((text) => text !== '').join(', ') : said;
}

/** Readings as a table; struck ones are crossed out and say so in words. */
function Readings({
  rows,
  unit,
  struck,
}: {
  readonly rows: readonly RecordRow[];
  readonly unit: DisplayUnit;
  readonly struck: boolean;
}) {
  const c = w.columns;
  // Most pieces are read in one place: a column for it then only takes room.
  const placed = rows.some(({ place }) => place !== null);
  return (
    <table className={struck ? 'readings is-struck' : 'readings'}>
      <thead>
        <tr>
          <th scope="col">{c.step}</th>
          <th scope="col" className="what">
            {c.what}
          </th>
          <th scope="col" className="number">
            {c.read} ({unitSign(unit)})
          </th>
          <th scope="col" className="number">
            {c.wanted} ({unitSign(unit)})
          </th>
          <th scope="col" className="stands">
            {c.stands}
          </th>
          <th scope="col">{c.how}</th>
          {placed && <th scope="col">{c.place}</th>}
          <th scope="col" className="when">
            {c.when}
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.id}>
            <td className="number" data-label={c.step}>
              {row.step}
            </td>
            <td className="what">{row.mate === null ? row.operation.say : w.ofMate(row.mate)}</td>
            <td className="number size">{struck ? <s>{bareSize(row.value, unit)}</s> : <b>{bareSize(row.value, unit)}</b>}</td>
            <td className="number" data-label={c.wanted}>
              {wanted(row, unit)}
            </td>
            <td className="stands">{struck ? w.struckMark : stands(row)}</td>
            <td>{row.instrument === null ? '' : words.instruments[row.instrument]}</td>
            {placed && <td>{row.place === null ? '' : words.places[row.place]}</td>}
            <td className="when">{showMoment(row.at)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** The instruments among those that were read with whose figures are not as the standard says, each with its figures. */
function OwnInstruments({ state, rows }: { readonly state: JobState; readonly rows: readonly RecordRow[] }) {
  const { unit } = state.plan.part;
  const instruments = instrumentsHere(state);
  const told = (state.plan.instruments ?? [])
    .filter(({ kind }) => rows.some(({ instrument }) => instrument === kind))
    .map(({ kind, resolution, permissibleError }) => {
      const error = instruments[kind].permissibleError(unit === 'inch' ? inches(1) : millimetres(25));
      return w.ownInstrument(
        words.instruments[kind],
        resolution === null ? null : amountText(resolution, unit),
        permissibleError === null ? null : amountText(error, unit),
      );
    });
  return told.length === 0 ? null : <p className="beneath">{w.ownInstruments(told, unit)}</p>;
}

/** The route with how far each step came, what was felt, and memos. */
function Steps({ state }: { readonly state: JobState }) {
  return (
    <ol className="record-steps">
      {routeProgress(state).map(({ operation, status }) => {
        const { feel, memos } = progressOf(state, operation.id);
        const more = [feel === null ? '' : w.felt(words.feels[feel]), sizeOf(memos) === 0 ? '' : w.memos(sizeOf(memos))].filter(
          (text) => text !== '',
        );
        return (
          <li key={operation.id}>
            <span>{operation.title}</span> <i className={`status is-${status}`}>{[w.status[status], ...more].join(', ')}</i>
          </li>
        );
      })}
    </ol>
  );
}

function Sheet({ state }: { readonly state: JobState }) {
  const { part, machines, instruments, title, invented } = state.plan;
  const { standing, struck } = recordRows(state);
  const sketch = useMemo(
    () => readDraft(draftOfPart(part, machines, 'record', instruments)).sketch,
    [part, machines, instruments],
  );
  const first = inOrder(state.log)[0];
  const last = newest(state.log);
  return (
    <article className="sheet">
      <h1>
        {title} {invented && <em className="invented">({words.invented})</em>}
      </h1>
      <dl className="sheet-facts">
        <div>
          <dt>{w.part}</dt>
          <dd>{part.name}</dd>
        </div>
        <div>
          <dt>{w.material}</dt>
          <dd>{part.stock.material}</dd>
        </div>
        {first !== undefined && last !== null && (
          <>
            <div>
              <dt>{w.started}</dt>
              <dd>{showMoment(first.at)}</dd>
            </div>
            <div>
              <dt>{w.latest}</dt>
              <dd>{showMoment(last.at)}</dd>
            </div>
          </>
        )}
      </dl>
      <PartDrawing sketch={sketch} unit={part.unit} />
      <Deviations state={state} />
      <section>
        <h2>{w.asBuilt}</h2>
        {standing.length === 0 ? <p>{w.noneStand}</p> : <Readings rows={standing} unit={part.unit} struck={false} />}
        <OwnInstruments state={state} rows={standing} />
      </section>
      <Fits state={state} />
      <Histories state={state} />
      <Notes state={state} />
      {struck.length > 0 && (
        <section>
          <h2>{w.struck}</h2>
          <Readings rows={struck} unit={part.unit} struck />
        </section>
      )}
      <section>
        <h2>{w.steps}</h2>
        <Steps state={state} />
      </section>
    </article>
  );
}

/** What was made and how it was measured: first the readings that stand. Prints on A4 and on Letter. */
export function RecordPage() {
  const store = useAssistantStore();
  const state = useAssistant((assistant) => assistant.job?.state ?? null);
  const save = async (): Promise<void> => {
    const file = await store.getState().exportJob();
    if (file !== null) saveFile(file.fileName, file.text);
  };
  return (
    <main className="desk">
      <PageHead title={w.title}>
        {state !== null && (
          <>
            <button type="button" className="plain-button" onClick={() => store.getState().goTo('machine')}>
              {w.backToMachine}
            </button>
            <button type="button" className="plain-button" onClick={() => window.print()}>
              {w.print}
            </button>
            <button type="button" className="plain-button" onClick={() => void save()}>
              {w.save}
            </button>
            <button type="button" className="plain-button" onClick={() => void store.getState().startJob(state.plan)}>
              {recordWords.again}
            </button>
            <button type="button" className="plain-button" onClick={() => void store.getState().draftFromJob()}>
              {recordWords.change}
            </button>
            <button type="button" className="plain-button" onClick={() => store.getState().goTo('compare')}>
              {recordWords.compare}
            </button>
          </>
        )}
      </PageHead>
      <Boundary part={words.parts.page}>{state === null ? <p>{w.noJob}</p> : <Sheet state={state} />}</Boundary>
    </main>
  );
}
