import { PEDAL_DEEDS, USUAL_KEYS, type KeyMap } from './keyMap.ts';

/** What a key (or a pedal, or a caliper that types) asks for, before it is known what is open on the page. */
export type KeyDeed =
  | { readonly do: 'next' }
  | { readonly do: 'back' }
  | { readonly do: 'talk' }
  | { readonly do: 'enter' }
  | { readonly do: 'escape' }
  | { readonly do: 'erase' }
  | { readonly do: 'type'; readonly key: string }
  /** Any other printable key: a letter for the pad's unit, or a command of its own. */
  | { readonly do: 'letter'; readonly key: string };

/** What is looked at of a key event, so that the mapping is the same for every way in. */
export type KeyPress = {
  readonly key: string;
  readonly withModifier: boolean;
  readonly inField: boolean;
  readonly onControl: boolean;
};

/**
 * The meaning of a key on the machine page, or null for the browser's own. Nothing is taken from a text field; Enter on a
 * control that has the focus presses that control.
 */
export function keyDeed(press: KeyPress, map: KeyMap = USUAL_KEYS): KeyDeed | null {
  if (press.inField || press.withModifier) return null;
  for (const does of PEDAL_DEEDS) if (map[does] === press.key) return { do: does };
  switch (press.key) {
    case 'Enter':
      return press.onControl ? null : { do: 'enter' };
    case 'Escape':
      return { do: 'escape' };
    case 'Backspace':
      return { do: 'erase' };
  }
  if (/^[\d.+-]$/.test(press.key)) return { do: 'type', key: press.key };
  if (press.key === ',') return { do: 'type', key: '.' };
  return press.key.length === 1 ? { do: 'letter', key: press.key } : null;
}
