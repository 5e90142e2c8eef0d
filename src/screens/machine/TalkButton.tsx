import { useEffect, useRef, useState } from 'react';
import { useAssistantStore } from '../store.tsx';
import { words } from '../words.ts';
import { listeningWords, useTold } from './Listening.tsx';
import { keepFocus } from './BigButton.tsx';

/**
 * Starts the microphone while it is off; then: held down while talking. The hold ends when the finger lifts, slides off, or the
 * page is left.
 */
export function TalkButton() {
  const store = useAssistantStore();
  const listening = useTold();
  const [held, setHeld] = useState(false);
  const holding = useRef(false);

  const down = (): void => {
    if (holding.current) return;
    holding.current = true;
    setHeld(true);
    store.getState().hold();
  };
  const up = (): void => {
    if (!holding.current) return;
    holding.current = false;
    setHeld(false);
    store.getState().release();
  };
  useEffect(
    () => () => {
      if (holding.current) store.getState().release();
    },
    [store],
  );

  const t = words.buttons.talk;
  const off = listening.state === 'off';
  const broken = listening.state === 'broken';
  const starting = listening.state === 'starting';
  const label = off ? t.off : broken ? t.broken : starting ? t.starting : held ? t.held : t.hold;
  const quiet = held || starting || (listening.state === 'waiting' && listening.mode === 'hold');
  const below = listening.tooLoud ? words.tooLoudShort : quiet ? null : listeningWords(listening);
  return (
    <button
      type="button"
      className={`big-button talk ${held ? 'held' : ''}`}
      aria-pressed={off || starting || broken ? undefined : held}
      onMouseDown={keepFocus}
      onContextMenu={(event) => event.preventDefault()}
      onPointerDown={(event) => {
        if (off || starting || broken || event.button !== 0) return;
        try {
          event.currentTarget.setPointerCapture(event.pointerId);
        } catch {
          // The finger was already gone: the hold then ends with pointerup or when it leaves.
        }
        down();
      }}
      onPointerUp={up}
      onPointerCancel={up}
      onLostPointerCapture={up}
      onClick={(event) => {
        if (off) void store.getState().listen(listening.mode);
        else if (broken) void store.getState().restart('ear');
        // What is said before the microphone is there would be lost in silence.
        else if (starting) return;
        // A keyboard or a screen reader presses without holding: the first press holds, the second lets go.
        else if (event.detail === 0) (holding.current ? up : down)();
      }}
    >
      <span className="big-label">{label}</span>
      {below !== null && <span className="big-below">{below}</span>}
    </button>
  );
}
