import { useSyncExternalStore } from 'react';

/** What a pedal or a key of the person's own choice can do. */
export const PEDAL_DEEDS = ['next', 'back', 'talk'] as const;
export type PedalDeed = (typeof PEDAL_DEEDS)[number];

/** The key of each, by the browser's name of it. Pedals call themselves keyboards, most often with these. */
export type KeyMap = Readonly<Record<PedalDeed, string>>;
export const USUAL_KEYS: KeyMap = { next: 'PageDown', back: 'PageUp', talk: ' ' };

/** Keys that mean something else on the machine page, or that hands need to get about with. */
const TAKEN = /^([\d.,+/-]|Enter|Escape|Backspace|Tab|Shift|Control|Alt|Meta|Dead|Unidentified|CapsLock|F5|F11|F12)$/;

/** Why a key cannot be given. */
export type KeyFault = 'taken' | 'twice';

/** A map with one key changed, or why it cannot be. Letters are commands of their own. */
export function withKey(map: KeyMap, deed: PedalDeed, key: string): KeyMap | KeyFault {
  if (TAKEN.test(key) || /^[a-z?;']$/i.test(key)) return 'taken';
  if (PEDAL_DEEDS.some((other) => other !== deed && map[other] === key)) return 'twice';
  return { ...map, [deed]: key };
}

const KEPT_UNDER = 'swarfside-keys';
const listeners = new Set<() => void>();

/** A kept map as far as it makes sense; the usual keys where it does not. */
export function readKeyMap(kept: string | null): KeyMap {
  try {
    const read: unknown = JSON.parse(kept ?? '{}');
    if (typeof read !== 'object' || read === null) return USUAL_KEYS;
    let map = USUAL_KEYS;
    for (const deed of PEDAL_DEEDS) {
      const key: unknown = (read as Readonly<Record<string, unknown>>)[deed];
      const next = typeof key === 'string' && key !== map[deed] ? withKey(map, deed, key) : map;
      if (typeof next !== 'string') map = next;
    }
    return map;
  } catch {
    return USUAL_KEYS;
  }
}

function stored(): string | null {
  try {
    return localStorage.getItem(KEPT_UNDER);
  } catch {
    return null;
  }
}

let now: KeyMap | null = null;

/** The keys as they are now. */
export const keyMap = (): KeyMap => (now ??= readKeyMap(stored()));

/** Keeps the keys. A browser that keeps nothing forgets them when the page is closed. */
export function keepKeyMap(map: KeyMap): void {
  now = map;
  try {
    localStorage.setItem(KEPT_UNDER, JSON.stringify(map));
  } catch {
    // Private windows may refuse.
  }
  for (const listener of listeners) listener();
}

const subscribe = (listener: () => void): (() => void) => {
  listeners.add(listener);
  return () => listeners.delete(listener);
};

export const useKeyMap = (): KeyMap => useSyncExternalStore(subscribe, keyMap);
