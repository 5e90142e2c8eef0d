import { useState } from 'react';
import { useStore, type StoreApi } from 'zustand';
import type { HandOver } from '../../app/index.ts';
import { shelfWords } from './words.ts';

const w = shelfWords.together;

/** Turns working together with another device on and off. */
export function HandOverSection({ store }: { readonly store: StoreApi<HandOver> }) {
  const { standing, start, stop } = useStore(store);
  const [code, setCode] = useState('');
  return (
    <section>
      <h2>{w.title}</h2>
      <p>{w.about}</p>
      <p role="status">{w.standing[standing]}</p>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          if (code.trim() !== '') void start(code);
        }}
      >
        <label>
          {w.code}{' '}
          <input
            type="text"
            value={code}
            autoComplete="off"
            spellCheck={false}
            onChange={(event) => setCode(event.target.value)}
          />
        </label>{' '}
        <button type="submit" className="plain-button">
          {w.start}
        </button>{' '}
        {standing !== 'off' && (
          <button type="button" className="plain-button" onClick={stop}>
            {w.stop}
          </button>
        )}
      </form>
    </section>
  );
}
