import { act } from 'react';
import { createRoot, type Root } from 'react-dom/client';
import { afterEach, vi } from 'vitest';
import { Screens } from '../../src/screens/index.ts';
import type { FakeStore } from '../../src/screens/gallery/fakeStore.ts';

(globalThis as { IS_REACT_ACT_ENVIRONMENT?: boolean }).IS_REACT_ACT_ENVIRONMENT = true;

let root: Root | null = null;

afterEach(() => {
  const shown = root;
  root = null;
  if (shown !== null)
    act(() => {
      shown.unmount();
    });
  document.body.replaceChildren();
});

/** Shows the screens with a store, as the app does. */
export function show(store: FakeStore): void {
  const place = document.createElement('div');
  document.body.append(place);
  const made = createRoot(place);
  root = made;
  act(() => {
    made.render(<Screens store={store} />);
  });
}

/** Shows a page that is fetched when it is first opened, and waits for it. */
export async function showPage(store: FakeStore): Promise<void> {
  show(store);
  await vi.waitFor(async () => {
    await act(() => Promise.resolve());
    if (document.querySelector('.page-head') === null) throw new Error('the page has not come');
  }, 10_000);
}

/** Lets the store and React settle after something was done. */
export const after = async (what: () => void): Promise<void> => {
  await act(async () => {
    what();
    await Promise.resolve();
  });
};

type Held = { readonly repeat?: boolean; readonly ctrlKey?: boolean };

/** Presses a key down on what has the focus; true where the browser's own action was stopped. */
export async function keyDown(key: string, held: Held = {}): Promise<boolean> {
  const event = new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true, ...held });
  await after(() => (document.activeElement ?? document.body).dispatchEvent(event));
  return event.defaultPrevented;
}

export const keyUp = (key: string): Promise<void> =>
  after(() =>
    (document.activeElement ?? document.body).dispatchEvent(new KeyboardEvent('keyup', { key, bubbles: true, cancelable: true })),
  );

export async function type(keys: string): Promise<void> {
  for (const key of keys) await keyDown(key);
}

/** The button whose accessible name, or whose label, is this. */
export function button(name: string): HTMLButtonElement {
  const every = [...document.querySelectorAll('button')];
  const found = every.find(
    (one) => one.getAttribute('aria-label') === name || one.querySelector('.big-label')?.textContent === name,
  );
  if (found === undefined) throw new Error(`no button "${name}" among: ${every.map((one) => one.textContent).join(' | ')}`);
  return found;
}

export const press = (name: string): Promise<void> =>
  after(() => {
    button(name).click();
  });

export const text = (selector: string): string => document.querySelector(selector)?.textContent ?? '';

/** The calls of one name, as what they were called with. */
export const calls = (store: FakeStore, name: string): readonly (readonly unknown[])[] =>
  store.calls.filter((call) => call.name === name).map((call) => call.with);
