import { useEffect, useRef, useState } from 'react';
import type { Hearing } from '../../app/index.ts';
import { SETUP_PHRASES, type Personal, type Take } from '../../ear/index.ts';
import { useAssistant, useAssistantStore } from '../store.tsx';
import { voiceWords as w } from './voiceWords.ts';

/** Of the phrases of the set-up, as many as are said here. */
const PHRASES = SETUP_PHRASES.slice(0, 10);

type Said = { readonly phrase: string; readonly heard: string; readonly right: boolean };

/** How a take came out with the ear as it is: the middle view is the network's own. */
const saidOf = (take: Take): Said => ({ phrase: take.said, heard: take.heard, right: take.heard === take.said });

/** What was fitted to the voice of the takes, to be kept or left. */
function Fitted({ hearing, takes }: { readonly hearing: Hearing; readonly takes: readonly Take[] }) {
  const [personal, setPersonal] = useState<Personal | 'asked' | null>(null);
  const kept = personal !== null && personal !== 'asked' && hearing.settings.personal === personal;
  // One button from beginning to end, so that the focus stays on it.
  const press = (): void => {
    if (personal === null) {
      setPersonal('asked');
      void hearing.fit(takes).then(setPersonal, (error: unknown) => {
        setPersonal(null);
        throw error;
      });
    } else if (personal !== 'asked' && !kept) hearing.change({ personal });
  };
  return (
    <div className="voice-row">
      <p role="status">
        {personal === 'asked' && w.fitting}
        {personal !== null && personal !== 'asked' && w.fitted(personal.before, personal.after, personal.phrases)}
      </p>
      <button type="button" className="plain-button" aria-disabled={kept || personal === 'asked'} onClick={press}>
        {personal === null || personal === 'asked' ? w.fit : kept ? w.keptFit : w.keepFit}
      </button>
    </div>
  );
}

/** Ten phrases, one after the other, each with what was heard of it. Nothing that is said here reaches the job. */
export function Phrases({ hearing }: { readonly hearing: Hearing }) {
  const store = useAssistantStore();
  const mode = useAssistant((assistant) => assistant.listening.mode);
  const [takes, setTakes] = useState<readonly Take[]>([]);
  const [at, setAt] = useState<number | null>(null);
  const run = useRef(0);
  const next = async (from: number, before: readonly Take[], of: number): Promise<void> => {
    const phrase = PHRASES[from];
    setAt(phrase === undefined ? null : from);
    if (phrase === undefined) return;
    const take = await hearing.study(phrase);
    // Begun again meanwhile: what comes now belongs to the other run.
    if (of !== run.current) return;
    const all = take === null ? before : [...before, take];
    setTakes(all);
    await next(take === null ? from : from + 1, all, of);
  };
  const begin = (): void => {
    setTakes([]);
    run.current += 1;
    void next(0, [], run.current);
  };
  const waits = at !== null;
  const section = useRef<HTMLElement>(null);
  const waited = useRef(waits);
  // The button that was pressed has gone: the focus goes on to what is done now, unless it is somewhere else.
  useEffect(() => {
    if (waited.current === waits) return;
    waited.current = waits;
    if (document.activeElement === document.body) section.current?.querySelector<HTMLElement>('.say-here')?.focus();
  }, [waits]);
  const said = takes.map(saidOf);
  const phrase = at === null ? undefined : PHRASES[at];
  return (
    <section ref={section}>
      <h2>{w.phrases}</h2>
      <p>{w.phrasesAbout}</p>
      {phrase === undefined ? (
        <button type="button" className="plain-button say-here" onClick={begin}>
          {takes.length === 0 ? w.begin : w.again}
        </button>
      ) : (
        <>
          <p className={mode === 'hold' ? 'say-now' : 'say-now say-here'} role="status" tabIndex={-1}>
            {w.say(phrase)}
          </p>
          {mode === 'hold' && (
            <button
              type="button"
              className="plain-button say-here"
              onPointerDown={() => store.getState().hold()}
              onPointerUp={() => store.getState().release()}
              onKeyDown={(event) => (event.key === ' ' || event.key === 'Enter') && !event.repeat && store.getState().hold()}
              onKeyUp={(event) => (event.key === ' ' || event.key === 'Enter') && store.getState().release()}
            >
              {w.holdToSay}
            </button>
          )}
        </>
      )}
      {said.length > 0 && (
        <>
          <ol className="plain-list">
            {said.map(({ phrase: each, heard, right }) => (
              <li key={each}>
                “{each}” {right ? `✓ ${w.right}` : `✕ ${w.heard} “${heard === '' ? w.nothing : heard}”`}
              </li>
            ))}
          </ol>
          <p>{w.told(said.filter(({ right }) => right).length, said.length)}</p>
        </>
      )}
      {at === null && takes.length > 1 && <Fitted hearing={hearing} takes={takes} />}
    </section>
  );
}
