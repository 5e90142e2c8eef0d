import { useEffect, useState, type ReactNode } from 'react';
import { deviationsOf, historiesOf, inOrder, madeFits, type Deviation, type JobState, type TakenRow } from '../../job/index.ts';
import { toCelsius, toFahrenheit, celsius, type DisplayUnit } from '../../measure/index.ts';
import { FitDrawing } from '../drawing/FitDrawing.tsx';
import { HistoryDrawing } from '../drawing/HistoryDrawing.tsx';
import { amountText, bareSize, unitSign } from '../show.ts';
import { useAssistantStore } from '../store.tsx';
import { words } from '../words.ts';
import { recordWords as w } from './recordWords.ts';

function deviationText(deviation: Deviation, unit: DisplayUnit): string {
  const d = w.deviations;
  switch (deviation.key) {
    case 'skipped':
      return d.skipped(deviation.name);
    case 'not-measured':
      return d.notMeasured(d.what(deviation.name, w.quantities[deviation.quantity]));
    case 'over':
    case 'under': {
      const what = d.what(deviation.name, w.quantities[deviation.quantity]);
      const said = d[deviation.key](what, `${bareSize(deviation.value, unit)} ${unitSign(unit)}`, amountText(deviation.by, unit));
      return deviation.confirmed ? `${said} ${d.kept}` : said;
    }
  }
}

/** What was made otherwise than planned, a plain sentence each. */
export function Deviations({ state }: { readonly state: JobState }) {
  const deviations = deviationsOf(state).map((deviation) => deviationText(deviation, state.plan.part.unit));
  return (
    <section className="findings">
      <h2>{w.deviations.title}</h2>
      {deviations.length === 0 ? (
        <p>{w.deviations.none}</p>
      ) : (
        <ul className="plain-list">
          {deviations.map((said) => (
            <li key={said}>{said}</li>
          ))}
        </ul>
      )}
    </section>
  );
}

/** How many readings a picture of a fit can hold. */
const MOST_READINGS = 5;

/** Each fit whose mate was measured, hole and shaft to scale with the readings. */
export function Fits({ state }: { readonly state: JobState }) {
  const fits = madeFits(state);
  if (fits.length === 0) return null;
  return (
    <section>
      <h2>{w.fits}</h2>
      <div className="fit-pictures">
        {fits.map(({ id, name, mate, hole, shaft, now, readings }) => (
          <section key={id} aria-label={w.fitOf(name, mate)}>
            <h3>{w.fitOf(name, mate)}</h3>
            <FitDrawing
              mate={mate}
              hole={hole}
              shaft={shaft}
              readings={readings.slice(-MOST_READINGS)}
              now={now}
              unit={state.plan.part.unit}
            />
          </section>
        ))}
      </div>
    </section>
  );
}

/** How each size came about: what each cut took against what was dialled, and what the filing took. */
export function Histories({ state }: { readonly state: JobState }) {
  const histories = historiesOf(state);
  const { unit } = state.plan.part;
  if (histories.length === 0) return null;
  const picture = (id: string, title: string, kind: 'cuts' | 'filing', rows: readonly TakenRow[]) =>
    rows.length === 0 ? null : (
      <section key={`${id} ${kind}`} aria-label={title}>
        <h3>{title}</h3>
        <HistoryDrawing
          title={title}
          kind={kind}
          unit={unit}
          lines={rows.map((row) => ({ ...row, filed: row.filed.map(({ in: by, count }) => w.filedIn[by](count)).join(', ') }))}
        />
      </section>
    );
  return (
    <section>
      <h2>{w.histories}</h2>
      <p className="choices-about">{w.historiesAbout}</p>
      <div className="fit-pictures">
        {histories.map(({ id, name, quantity, cuts, filing }) => {
          const of = w.quantities[quantity];
          return [picture(id, w.cuts(name, of), 'cuts', cuts), picture(id, w.filing(name, of), 'filing', filing)];
        })}
      </div>
    </section>
  );
}

/** Of the button that it takes the place of. */
const takeFocus = (sound: HTMLAudioElement | null): void => {
  if (document.activeElement === document.body) sound?.focus();
};

/** A memo that can be heard; its sound is fetched when it is asked for. */
function Memo({ clip, label }: { readonly clip: string; readonly label: string }) {
  const store = useAssistantStore();
  const [address, setAddress] = useState<string | null>(null);
  useEffect(() => () => void (address !== null && address !== 'lost' && URL.revokeObjectURL(address)), [address]);
  const play = async (): Promise<void> => {
    const wav = await store.getState().memo(clip);
    setAddress(wav === null ? 'lost' : URL.createObjectURL(new Blob([wav.slice()], { type: 'audio/wav' })));
  };
  return (
    <>
      {label}{' '}
      {address === null ? (
        <button type="button" className="plain-button" aria-label={`${w.notes.play}: ${label}`} onClick={() => void play()}>
          ▶ {w.notes.play}
        </button>
      ) : address === 'lost' ? (
        <span>{w.notes.lost}</span>
      ) : (
        <audio ref={takeFocus} controls autoPlay src={address} aria-label={label} />
      )}
    </>
  );
}

/** What was said and felt at the machine beside the readings. */
export function Notes({ state }: { readonly state: JobState }) {
  const title = (id: string): string => state.plan.route.operations.find((operation) => operation.id === id)?.say ?? id;
  const degrees = (of: number): string => {
    const temperature = celsius(of, 'half-even');
    return state.plan.part.unit === 'inch'
      ? `${toFahrenheit(temperature).toFixed(0)} °F`
      : `${toCelsius(temperature).toFixed(0)} °C`;
  };
  const notes = inOrder(state.log)
    .filter((event) => !state.struck.has(event.id))
    .flatMap(({ id, body }): { readonly id: string; readonly note: ReactNode }[] => {
      if (body.type === 'FitFelt') return [{ id, note: w.notes.felt(title(body.operation), words.feels[body.feel]) }];
      if (body.type === 'TemperatureNoted')
        return [{ id, note: w.notes.temperature(title(body.operation), degrees(body.celsius)) }];
      if (body.type === 'MemoKept')
        return [{ id, note: <Memo clip={body.clip} label={w.notes.memo(title(body.operation), Math.round(body.seconds))} /> }];
      return [];
    });
  if (notes.length === 0) return null;
  return (
    <section className="findings">
      <h2>{w.notes.title}</h2>
      <ul className="plain-list">
        {notes.map(({ id, note }) => (
          <li key={id}>{note}</li>
        ))}
      </ul>
    </section>
  );
}
