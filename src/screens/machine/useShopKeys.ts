import { useEffect, useLayoutEffect, useRef } from 'react';
import { keyMap } from './keyMap.ts';
import { keyDeed, type KeyDeed } from './keys.ts';

/** What the page does with the keys. `talkUp` comes once for every `talk`, also when the page loses the keyboard meanwhile. */
export type KeyHandlers = { readonly down: (deed: KeyDeed) => void; readonly talkUp: () => void };

const FIELDS = 'input, textarea, select, [contenteditable=""], [contenteditable="true"]';
const CONTROLS = 'button, a[href], summary';

const matches = (target: EventTarget | null, selector: string): boolean =>
  target instanceof Element && target.closest(selector) !== null;

/** Gives the keys of a keyboard, a pedal or a caliper that types to the machine page while it is shown. */
export function useShopKeys(handlers: KeyHandlers): void {
  const now = useRef(handlers);
  // Before the next key can come: a caliper types its digits and Enter within milliseconds.
  useLayoutEffect(() => {
    now.current = handlers;
  });
  useEffect(() => {
    let talking = false;
    const letGo = (): void => {
      if (!talking) return;
      talking = false;
      now.current.talkUp();
    };
    const down = (event: KeyboardEvent): void => {
      const deed = keyDeed(
        {
          key: event.key,
          withModifier: event.ctrlKey || event.altKey || event.metaKey,
          inField: matches(event.target, FIELDS),
          onControl: matches(event.target, CONTROLS),
        },
        keyMap(),
      );
      if (deed === null) return;
      // Also of a repeat: the browser must not scroll, nor press the control that has the focus.
      event.preventDefault();
      if (event.repeat) return;
      if (deed.do === 'talk') talking = true;
      now.current.down(deed);
    };
    const up = (event: KeyboardEvent): void => {
      if (event.key !== keyMap().talk || !talking) return;
      event.preventDefault();
      letGo();
    };
    document.addEventListener('keydown', down);
    document.addEventListener('keyup', up);
    window.addEventListener('blur', letGo);
    document.addEventListener('visibilitychange', letGo);
    return () => {
      letGo();
      document.removeEventListener('keydown', down);
      document.removeEventListener('keyup', up);
      window.removeEventListener('blur', letGo);
      document.removeEventListener('visibilitychange', letGo);
    };
  }, []);
}
