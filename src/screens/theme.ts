import { useSyncExternalStore } from 'react';

export type Theme = 'light' | 'dark';

const KEPT_UNDER = 'swarfside-theme';
const prefersDark = '(prefers-color-scheme: dark)';
const listeners = new Set<() => void>();

/** What the person chose, or null to follow the device. A browser that keeps nothing forgets the choice, no more. */
function keptTheme(): Theme | null {
  try {
    const kept = localStorage.getItem(KEPT_UNDER);
    return kept === 'light' || kept === 'dark' ? kept : null;
  } catch {
    return null;
  }
}

let chosen: Theme | null = keptTheme();

const current = (): Theme => chosen ?? (matchMedia(prefersDark).matches ? 'dark' : 'light');

function subscribe(listener: () => void): () => void {
  const device = matchMedia(prefersDark);
  listeners.add(listener);
  device.addEventListener('change', listener);
  return () => {
    listeners.delete(listener);
    device.removeEventListener('change', listener);
  };
}

/** The theme that is shown: the person's choice, else what the device prefers. */
export const useTheme = (): Theme => useSyncExternalStore(subscribe, current);

/** Changes between the light theme (for the sun) and the dark one (for a dark corner), and keeps the choice. */
export function turnTheme(): void {
  chosen = current() === 'dark' ? 'light' : 'dark';
  try {
    localStorage.setItem(KEPT_UNDER, chosen);
  } catch {
    // Private windows may refuse: the choice then lasts until the page is closed.
  }
  for (const listener of listeners) listener();
}
