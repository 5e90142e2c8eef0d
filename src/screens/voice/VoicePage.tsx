import { useEffect, useState } from 'react';
import type { Hearing, ListeningMode } from '../../app/index.ts';
import { CALL_NAMES } from '../../phrasebook/index.ts';
import { LOUDNESS, STRETCH } from '../../voice/index.ts';
import { Boundary } from '../Boundary.tsx';
import { Listening } from '../machine/Listening.tsx';
import { Notices } from '../Notices.tsx';
import { PageHead } from '../PageHead.tsx';
import { useAssistant, useAssistantStore } from '../store.tsx';
import { words } from '../words.ts';
import { Phrases } from './Phrases.tsx';
import { voiceWords as w } from './voiceWords.ts';
import './voice.css';

/** The microphones of the device; their names come once the person has allowed one. */
function useMicrophones(allowed: boolean): readonly MediaDeviceInfo[] {
  const [found, setFound] = useState<readonly MediaDeviceInfo[]>([]);
  useEffect(() => {
    const devices = navigator.mediaDevices as MediaDevices | undefined;
    if (devices === undefined) return undefined;
    const look = (): void =>
      void devices.enumerateDevices().then(
        (every) => setFound(every.filter(({ kind, deviceId }) => kind === 'audioinput' && deviceId !== '')),
        () => setFound([]),
      );
    look();
    devices.addEventListener('devicechange', look);
    return () => devices.removeEventListener('devicechange', look);
  }, [allowed]);
  return found;
}

/** Which microphone, and how loud it is now against the noise of the shop. */
function Microphone({ hearing }: { readonly hearing: Hearing | undefined }) {
  const store = useAssistantStore();
  const { mode, state, levelDb, floorDb, trouble } = useAssistant((assistant) => assistant.listening);
  const on = levelDb !== null;
  const microphones = useMicrophones(on);
  const choose = async (id: string): Promise<void> => {
    hearing?.change({ microphone: id === '' ? null : id });
    await store.getState().listen(mode);
  };
  return (
    <section>
      <h2>{w.microphone}</h2>
      <div className="voice-row">
        {hearing !== undefined && (
          <select
            aria-label={w.microphone}
            value={hearing.settings.microphone ?? ''}
            onChange={(event) => void choose(event.target.value)}
          >
            <option value="">{w.anyMicrophone}</option>
            {microphones.map(({ deviceId, label }, at) => (
              <option key={deviceId} value={deviceId}>
                {label === '' ? w.noName(at + 1) : label}
              </option>
            ))}
          </select>
        )}
        {on ? (
          <button type="button" className="plain-button" onClick={() => store.getState().stopListening()}>
            {w.stop}
          </button>
        ) : (
          <button
            type="button"
            className="plain-button is-main"
            aria-disabled={state === 'starting'}
            onClick={() => {
              if (state !== 'starting') void store.getState().listen(mode);
            }}
          >
            {w.start}
          </button>
        )}
      </div>
      <div className="voice-level">
        <Listening />
        {levelDb !== null && floorDb !== null && (
          <p>
            {w.now} <b>{w.decibels(levelDb)}</b>, {w.noise} <b>{w.decibels(floorDb)}</b>
          </p>
        )}
      </div>
      <p>{trouble ?? w.level}</p>
    </section>
  );
}

/** When the page listens, and by what name it is called. */
function Ways({ hearing }: { readonly hearing: Hearing | undefined }) {
  const store = useAssistantStore();
  const mode = useAssistant((assistant) => assistant.listening.mode);
  const ways: readonly ListeningMode[] = ['hold', 'call', 'open'];
  return (
    <section>
      <h2>{w.ways}</h2>
      <div className="choices">
        {ways.map((way) => (
          <button
            key={way}
            type="button"
            className="choice"
            aria-pressed={way === mode}
            onClick={() => void store.getState().listen(way)}
          >
            <b>
              {way === mode && '✓ '}
              {w.way[way][0]}
            </b>
            <span>{w.way[way][1]}</span>
          </button>
        ))}
      </div>
      {hearing !== undefined && (
        <div className="voice-row">
          <label htmlFor="call-name">{w.callName}</label>
          <select
            id="call-name"
            value={hearing.settings.callName}
            onChange={(event) =>
              hearing.change({ callName: CALL_NAMES.find((name) => name === event.target.value) ?? CALL_NAMES[0] })
            }
          >
            {CALL_NAMES.map((name) => (
              <option key={name}>{name}</option>
            ))}
          </select>
          <label className="voice-check">
            <input
              type="checkbox"
              checked={hearing.settings.headset}
              onChange={(event) => hearing.change({ headset: event.target.checked })}
            />{' '}
            {w.headset}
          </label>
          {hearing.settings.personal !== null && (
            <button type="button" className="plain-button" onClick={() => hearing.change({ personal: null })}>
              {w.forget}
            </button>
          )}
        </div>
      )}
    </section>
  );
}

/** How loud and how fast the answers are. */
function Speaking() {
  const store = useAssistantStore();
  const speech = useAssistant((assistant) => assistant.speech);
  if (speech === null) return null;
  const set = (settings: typeof speech): void => store.getState().setSpeech(settings);
  const louder = speech.loudness + 1;
  return (
    <section>
      <h2>{w.speaking}</h2>
      <div className="voice-row">
        <button
          type="button"
          className="plain-button"
          aria-disabled={speech.loudness === 0}
          onClick={() => {
            if (speech.loudness > 0) set({ ...speech, loudness: speech.loudness - 1 });
          }}
        >
          {w.quieter}
        </button>
        <span role="status">{w.volume(louder, LOUDNESS.length)}</span>
        <button
          type="button"
          className="plain-button"
          aria-disabled={louder === LOUDNESS.length}
          onClick={() => {
            if (louder < LOUDNESS.length) set({ ...speech, loudness: louder });
          }}
        >
          {w.louder}
        </button>
      </div>
      <div className="voice-row">
        <label htmlFor="answers">{w.answers}</label>
        <select
          id="answers"
          value={speech.answers ?? 'whole'}
          onChange={(event) => set({ ...speech, answers: event.target.value === 'short' ? 'short' : 'whole' })}
        >
          <option value="whole">{w.answersOf.whole}</option>
          <option value="short">{w.answersOf.short}</option>
        </select>
        <label htmlFor="pace">{w.pace}</label>
        <select id="pace" value={speech.pace} onChange={(event) => set({ ...speech, pace: Number(event.target.value) })}>
          {STRETCH.map((stretch, at) => (
            <option key={stretch} value={at}>
              {w.paces[at] ?? stretch}
            </option>
          ))}
        </select>
      </div>
    </section>
  );
}

/** The set-up of hearing and speaking. Everything on it can be left as it is. */
export function VoicePage() {
  const store = useAssistantStore();
  const hasJob = useAssistant((assistant) => assistant.job !== null);
  const hearing = useAssistant((assistant) => assistant.hearing);
  const on = useAssistant((assistant) => assistant.listening.levelDb !== null);
  const to = (page: 'machine' | 'phrases' | 'keys', label: string) => (
    <button type="button" className="plain-button" onClick={() => store.getState().goTo(page)}>
      {label}
    </button>
  );
  return (
    <main className="desk">
      <PageHead title={w.title}>
        {hasJob && to('machine', w.back)}
        {to('phrases', w.card)}
        {to('keys', w.keys)}
      </PageHead>
      <Notices />
      <Boundary part={words.parts.page}>
        <h1 className="is-in-head">{w.title}</h1>
        <Microphone hearing={hearing} />
        <Ways hearing={hearing} />
        {hearing !== undefined && on && <Phrases hearing={hearing} />}
        <Speaking />
      </Boundary>
    </main>
  );
}
