import { useEffect, useState } from 'react';
import { COMMANDS } from '../../phrasebook/index.ts';
import { Boundary } from '../Boundary.tsx';
import { PageHead } from '../PageHead.tsx';
import { keepKeyMap, PEDAL_DEEDS, useKeyMap, USUAL_KEYS, withKey, type KeyFault, type PedalDeed } from '../machine/keyMap.ts';
import { useAssistant, useAssistantStore } from '../store.tsx';
import { words } from '../words.ts';
import { keysWords as w } from './keysWords.ts';

const keyName = (key: string): string => w.names[key] ?? key;

/** Waits for one key and gives it to the deed; Escape leaves it as it is. */
function useNextKey(deed: PedalDeed | null, done: () => void): KeyFault | null {
  const map = useKeyMap();
  const [fault, setFault] = useState<KeyFault | null>(null);
  useEffect(() => {
    setFault(null);
    if (deed === null) return undefined;
    const onKey = (event: KeyboardEvent): void => {
      event.preventDefault();
      event.stopPropagation();
      if (event.key === 'Escape') {
        done();
        return;
      }
      const next = withKey(map, deed, event.key);
      if (typeof next === 'string') setFault(next);
      else {
        keepKeyMap(next);
        done();
      }
    };
    document.addEventListener('keydown', onKey, true);
    return () => document.removeEventListener('keydown', onKey, true);
  }, [deed, map, done]);
  return fault;
}

function Pedals() {
  const map = useKeyMap();
  const [waiting, setWaiting] = useState<PedalDeed | null>(null);
  const [stop] = useState(() => () => setWaiting(null));
  const fault = useNextKey(waiting, stop);
  return (
    <section>
      <p>{w.about}</p>
      <dl className="key-list">
        {PEDAL_DEEDS.map((deed) => (
          <div key={deed}>
            <dt>{w.deeds[deed]}</dt>
            <dd>
              <kbd>{keyName(map[deed])}</kbd>{' '}
              {waiting === deed && <b role="status">{fault === null ? w.press : w.fault[fault]}</b>}
              <button
                type="button"
                className="plain-button"
                aria-label={waiting === deed ? undefined : w.changeOf(w.deeds[deed])}
                onClick={() => setWaiting(waiting === deed ? null : deed)}
              >
                {waiting === deed ? w.stay : w.change}
              </button>
            </dd>
          </div>
        ))}
      </dl>
      <button type="button" className="plain-button" onClick={() => keepKeyMap(USUAL_KEYS)}>
        {w.usual}
      </button>
    </section>
  );
}

/** Every key and what it does; the three that a pedal has can be changed. */
export function KeysPage() {
  const store = useAssistantStore();
  const hasJob = useAssistant((assistant) => assistant.job !== null);
  const letters = COMMANDS.filter(({ key }) => key !== ' ' && (key.length === 1 || key.charAt(1) === ' '));
  return (
    <main className="desk">
      <PageHead title={w.title}>
        {hasJob && (
          <button type="button" className="plain-button" onClick={() => store.getState().goTo('machine')}>
            {w.back}
          </button>
        )}
      </PageHead>
      <Boundary part={words.parts.page}>
        <h1 className="is-in-head">{w.title}</h1>
        <Pedals />
        <section>
          <h2>{w.all}</h2>
          <dl className="key-list">
            {w.fixed.map(([key, does]) => (
              <div key={key}>
                <dt>
                  <kbd>{key}</kbd>
                </dt>
                <dd>{does}</dd>
              </div>
            ))}
          </dl>
        </section>
        <section>
          <h2>{w.commands}</h2>
          <dl className="key-list is-narrow">
            {letters.map(({ key, help }) => (
              <div key={key}>
                <dt>
                  {key.split(' ').map((each) => (
                    <kbd key={each}>{each}</kbd>
                  ))}
                </dt>
                <dd>{help}</dd>
              </div>
            ))}
          </dl>
        </section>
      </Boundary>
    </main>
  );
}
