import { useRef, useState } from 'react';
import type { DraftSummary } from '../../app/index.ts';
import { Boundary } from '../Boundary.tsx';
import { Notices } from '../Notices.tsx';
import { PageHead } from '../PageHead.tsx';
import { describeFileFault, tooLarge } from '../../shelf/index.ts';
import { saveFile } from '../saveFile.ts';
import { HandOverSection } from '../shelf/HandOverSection.tsx';
import { SafekeepingSection } from '../shelf/SafekeepingSection.tsx';
import { showMoment } from '../show.ts';
import { useAssistant, useAssistantStore } from '../store.tsx';
import { words } from '../words.ts';
import { jobsWords } from './jobsWords.ts';

const w = jobsWords;

/** Opens a job file from this device. */
function ImportButton() {
  const store = useAssistantStore();
  const field = useRef<HTMLInputElement>(null);
  const [refused, setRefused] = useState<string | null>(null);
  const take = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    setRefused(null);
    const oversize = tooLarge(file.size);
    if (oversize !== null) {
      setRefused(describeFileFault(oversize, file.name));
      return;
    }
    let text: string;
    try {
      text = await file.text();
    } catch {
      setRefused(w.unreadable);
      return;
    }
    await store.getState().importJob(file.name, text);
  };
  return (
    <>
      <button type="button" className="choice" onClick={() => field.current?.click()}>
        <b>{w.import}</b>
        <span>{w.importAbout}</span>
      </button>
      <input
        ref={field}
        type="file"
        accept=".json,application/json"
        hidden
        aria-label={w.import}
        onChange={(event) => {
          void take(event.target.files?.[0]);
          // The same file can be chosen again after it was mended.
          event.target.value = '';
        }}
      />
      {refused !== null && <p role="alert">{refused}</p>}
    </>
  );
}

/** Deletes all that is on this device, after a second press. */
function WipeButton() {
  const store = useAssistantStore();
  const [asked, setAsked] = useState(false);
  // One button that asks and takes back, so that the focus stays on it.
  const first = useRef<HTMLButtonElement>(null);
  return (
    <>
      <button ref={first} type="button" className="choice" onClick={() => setAsked(!asked)}>
        <b>{asked ? w.wipeNot : w.wipe}</b>
        {!asked && <span>{w.wipeAbout}</span>}
      </button>
      {asked && (
        <button
          type="button"
          className="choice"
          onClick={() => {
            first.current?.focus();
            setAsked(false);
            void store.getState().wipe();
          }}
        >
          <b>{w.wipeSure}</b>
          <span>{w.wipeSureAbout}</span>
        </button>
      )}
    </>
  );
}

/** One part that is being laid out; it is thrown away after a second press. */
function DraftLine({ draft, onDrop }: { readonly draft: DraftSummary; readonly onDrop: () => void }) {
  const store = useAssistantStore();
  const [asked, setAsked] = useState(false);
  const name = draft.name === '' ? w.noName : draft.name;
  return (
    <li className="draft-line">
      <button type="button" className="choice" onClick={() => void store.getState().openDraft(draft.id)}>
        <b>{name}</b>
        <span>{w.changed(showMoment(draft.changedAt))}</span>
      </button>
      <button
        type="button"
        className="plain-button"
        aria-label={asked ? undefined : w.drop(name)}
        onBlur={() => setAsked(false)}
        onClick={() => {
          setAsked(!asked);
          if (asked) onDrop();
        }}
      >
        {asked ? w.dropSure : w.dropSign}
      </button>
    </li>
  );
}

/** The parts that are being laid out, and a new one in either unit. */
function Drafts() {
  const store = useAssistantStore();
  const drafts = useAssistant((assistant) => assistant.drafts);
  const lay = useRef<HTMLHeadingElement>(null);
  const drop = (id: string): void => {
    // The line goes and takes the focus with it: on to what comes after the lines.
    lay.current?.focus();
    void store.getState().dropDraft(id);
  };
  return (
    <section>
      {drafts.length > 0 && (
        <>
          <h2>{w.drafts}</h2>
          <ul className="choices">
            {drafts.map((draft) => (
              <DraftLine key={draft.id} draft={draft} onDrop={() => drop(draft.id)} />
            ))}
          </ul>
        </>
      )}
      <h2 tabIndex={-1} ref={lay}>
        {w.lay}
      </h2>
      <p className="choices-about">{w.layAbout}</p>
      <div className="choices is-pair">
        <button type="button" className="choice" onClick={() => void store.getState().newDraft('inch')}>
          <b>{w.layInch}</b>
        </button>
        <button type="button" className="choice" onClick={() => void store.getState().newDraft('millimetre')}>
          <b>{w.layMetric}</b>
        </button>
      </div>
    </section>
  );
}

/** The jobs on this device, newest change first as the store gives them, and the ways to begin another. */
export function JobsPage() {
  const store = useAssistantStore();
  const safekeeping = useAssistant((assistant) => assistant.safekeeping ?? null);
  const handOver = useAssistant((assistant) => assistant.handOver ?? null);
  const jobs = useAssistant((assistant) => assistant.jobs);
  const open = useAssistant((assistant) => assistant.job?.id ?? null);
  const save = async (): Promise<void> => {
    const file = await store.getState().exportJob();
    if (file !== null) saveFile(file.fileName, file.text);
  };
  return (
    <main className="desk">
      <PageHead title={words.name}>
        {open !== null && (
          <>
            <button type="button" className="plain-button" onClick={() => store.getState().goTo('machine')}>
              {w.machinePage}
            </button>
            <button type="button" className="plain-button" onClick={() => void save()}>
              {w.export}
            </button>
          </>
        )}
      </PageHead>
      <Notices />
      <Boundary part={words.parts.page}>
        <section>
          <h1>{w.title}</h1>
          {jobs.length === 0 && <p>{w.none}</p>}
          <ul className="choices">
            {jobs.map((job) => (
              <li key={job.id}>
                <button
                  type="button"
                  className="choice"
                  aria-current={job.id === open ? 'true' : undefined}
                  onClick={() => void store.getState().openJob(job.id)}
                >
                  <b>{job.title}</b>
                  <span>
                    {w.changed(showMoment(job.changedAt))} · {w.entries(job.events)}
                    {job.invented && ` · ${words.invented}`}
                  </span>
                </button>
              </li>
            ))}
          </ul>
        </section>
        <Drafts />
        <section>
          <h2>{w.start}</h2>
          <div className="choices">
            <button type="button" className="choice" onClick={() => void store.getState().startDemo('inch')}>
              <b>{w.demoInch}</b>
              <span>{w.demoInchAbout}</span>
            </button>
            <button type="button" className="choice" onClick={() => void store.getState().startDemo('metric')}>
              <b>{w.demoMetric}</b>
              <span>{w.demoMetricAbout}</span>
            </button>
            <ImportButton />
          </div>
        </section>
        {safekeeping !== null && <SafekeepingSection store={safekeeping} />}
        {handOver !== null && <HandOverSection store={handOver} />}
        <section>
          <h2>{w.device}</h2>
          <div className="choices">
            <button type="button" className="choice" onClick={() => store.getState().goTo('voice')}>
              <b>{w.voice}</b>
              <span>{w.voiceAbout}</span>
            </button>
            <button type="button" className="choice" onClick={() => store.getState().goTo('keys')}>
              <b>{w.keys}</b>
              <span>{w.keysAbout}</span>
            </button>
            <WipeButton />
          </div>
        </section>
      </Boundary>
    </main>
  );
}
