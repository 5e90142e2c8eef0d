import { useEffect, useState } from 'react';
import { resultsOf, type JobState, type Result } from '../../job/index.ts';
import { magnitude, minus, type DisplayUnit } from '../../measure/index.ts';
import { Boundary } from '../Boundary.tsx';
import { PageHead } from '../PageHead.tsx';
import { amountText, bareSize, bothLimits, showMoment, unitSign } from '../show.ts';
import { useAssistant, useAssistantStore } from '../store.tsx';
import { words } from '../words.ts';
import './record.css';
import { recordWords as w } from './recordWords.ts';

const c = w.columns;

/** A row of the comparison: the same size of two pieces. */
function Row({ here, there, unit }: { readonly here: Result; readonly there: Result | undefined; readonly unit: DisplayUnit }) {
  const size = (result: Result | undefined): string => (result?.last == null ? w.notThere : bareSize(result.last.value, unit));
  const both = here.last !== null && there?.last != null;
  const apart = both ? minus(here.last.value, there.last.value) : null;
  return (
    <tr>
      <td className="what">
        {here.name}, {w.quantities[here.quantity]}
      </td>
      <td className="number" data-label={c.window}>
        {here.window === null ? '' : words.range(...bothLimits(here.window.low, here.window.high, unit))}
      </td>
      <td className="number size" data-label={c.here}>
        {size(here)}
      </td>
      <td className="number size" data-label={c.there}>
        {size(there)}
      </td>
      <td className="number" data-label={c.apart}>
        {apart === null ? '' : apart === 0 ? w.same : `${apart > 0 ? '+' : '−'}${amountText(magnitude(apart), unit)}`}
      </td>
    </tr>
  );
}

function Table({ here, there }: { readonly here: JobState; readonly there: JobState }) {
  const { unit } = here.plan.part;
  const others = new Map(resultsOf(there).map((result) => [`${result.feature} ${result.quantity}`, result]));
  return (
    <div className="readings-wrap">
      <table className="readings">
        <thead>
          <tr>
            <th scope="col">{c.what}</th>
            <th scope="col" className="number">
              {c.window} ({unitSign(unit)})
            </th>
            <th scope="col" className="number">
              {c.here}
            </th>
            <th scope="col" className="number">
              {c.there}
            </th>
            <th scope="col" className="number">
              {c.apart}
            </th>
          </tr>
        </thead>
        <tbody>
          {resultsOf(here).map((result) => {
            const key = `${result.feature} ${result.quantity}`;
            return <Row key={key} here={result} there={others.get(key)} unit={unit} />;
          })}
        </tbody>
      </table>
    </div>
  );
}

/** The sizes of two pieces side by side: the open job and another of the same part, or of any. */
export function ComparePage() {
  const store = useAssistantStore();
  const job = useAssistant((assistant) => assistant.job);
  const jobs = useAssistant((assistant) => assistant.jobs);
  const [other, setOther] = useState<JobState | null>(null);
  const [chosen, setChosen] = useState('');
  const others = jobs.filter((each) => each.id !== job?.id);
  const choose = async (id: string): Promise<void> => {
    setChosen(id);
    setOther(id === '' ? null : await store.getState().pieceOf(id));
  };
  const title = job?.state.plan.title;
  const alike = others.find((each) => each.title === title)?.id;
  // Another piece of the same part is what the page was opened for; the list is at hand all the same.
  useEffect(() => {
    if (alike === undefined) return;
    setChosen(alike);
    void store.getState().pieceOf(alike).then(setOther);
  }, [store, alike]);
  return (
    <main className="desk">
      <PageHead title={w.compareTitle}>
        <button type="button" className="plain-button" onClick={() => store.getState().goTo('record')}>
          {w.back}
        </button>
        <button type="button" className="plain-button" onClick={() => window.print()}>
          {w.page.print}
        </button>
      </PageHead>
      <Boundary part={words.parts.page}>
        <h1>{job?.state.plan.title ?? w.compareTitle}</h1>
        {job === null ? (
          <p>{w.page.noJob}</p>
        ) : others.length === 0 ? (
          <p>{w.compareNone}</p>
        ) : (
          <p className="choose-job">
            <label htmlFor="other-job">{w.compareWith}</label>{' '}
            <select id="other-job" value={chosen} onChange={(event) => void choose(event.target.value)}>
              <option value="">{w.comparePick}</option>
              {others.map(({ id, title, changedAt }) => (
                <option key={id} value={id}>
                  {title}, {showMoment(changedAt)}
                </option>
              ))}
            </select>
          </p>
        )}
        {job !== null && other !== null && <Table here={job.state} there={other} />}
      </Boundary>
    </main>
  );
}
