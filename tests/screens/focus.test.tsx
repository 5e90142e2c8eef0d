// @vitest-environment happy-dom
import { beforeAll, describe, expect, test, vi } from 'vitest';
import type { Hearing } from '../../src/app/index.ts';
import type { Personal } from '../../src/ear/index.ts';
import { SCENES } from '../../src/screens/gallery/scenes.ts';
import { loadTable } from '../../src/screens/machine/laterTable.ts';
import { after, button, keyDown, press, show, showPage, text } from './show.tsx';

/* Where the keyboard stands after something came, went or was taken away: never nowhere. */

const scene = (name: string) => {
  const made = SCENES[name]?.();
  if (made === undefined) throw new Error(`no scene "${name}"`);
  return made;
};

const at = (): string => document.activeElement?.getAttribute('aria-label') ?? document.activeElement?.textContent ?? '';
const focusOn = (selector: string): Promise<void> => after(() => document.querySelector<HTMLElement>(selector)?.focus());

/** Presses what has the focus, as Enter does. */
const enter = (): Promise<void> => after(() => (document.activeElement as HTMLElement).click());

/** Shows the machine in this state, come back to from another page. */
async function backAt(name: string): Promise<void> {
  const store = scene(name);
  store.setState({ page: 'phrases' });
  await showPage(store);
  await after(() => store.setState({ page: 'machine' }));
}

describe('the focus at the machine', () => {
  beforeAll(() => loadTable());

  test('comes to the step with the page', async () => {
    await backAt('roughing');
    expect(document.activeElement).toBe(document.querySelector('h1'));
  });

  test('is left with the browser by the first page', () => {
    show(scene('roughing'));
    expect(document.activeElement).toBe(document.body);
  });

  test('stays in its place when the row of buttons turns, and on the last where that place is empty', async () => {
    show(scene('roughing'));
    await after(() => button('More').focus());
    await enter();
    expect([at(), text('.button-row')]).toEqual(['More', expect.stringContaining('Scratch that')]);
    await enter();
    await press('Cut …');
    await press('More');
    await after(() => document.querySelectorAll<HTMLElement>('.button-row > *')[2]?.focus());
    await press('More');
    expect(at()).toBe('First buttons');
  });

  test('a finger leaves it where it is when the row turns', async () => {
    await backAt('roughing');
    await press('More');
    expect(document.activeElement).toBe(document.querySelector('h1'));
  });

  test('goes back to where it was when the number pad closes', async () => {
    show(scene('roughing'));
    await after(() => button('Reading').focus());
    await enter();
    await vi.waitFor(() => expect(document.activeElement?.getAttribute('role')).toBe('dialog'));
    await keyDown('Escape');
    expect(document.activeElement).toBe(button('Reading'));
  });
});

describe('the focus at the desk', () => {
  test('comes to the name of the page with it', async () => {
    const store = scene('voice');
    await showPage(store);
    expect(document.activeElement).toBe(document.body);
    await after(() => store.setState({ page: 'machine' }));
    await after(() => store.setState({ page: 'voice' }));
    await vi.waitFor(() => expect(at()).toBe('Hearing and speaking'));
  });

  test('goes on to the row that takes the place of one that is removed', async () => {
    await showPage(scene('layout-inch'));
    const names = (): (string | null)[] =>
      [...document.querySelectorAll('.rows[aria-label^="Turned"] .row')].map((row) => row.getAttribute('aria-label'));
    const [, second, third] = names();
    await focusOn(`.row[aria-label="${second ?? ''}"] button[aria-label^="Take out"]`);
    await enter();
    expect(names()).not.toContain(second);
    expect([document.activeElement?.classList.contains('row'), at()]).toEqual([true, third]);
  });

  test('goes on to the name of the sheet that is turned to by a key', async () => {
    await showPage(scene('layout-inch'));
    await focusOn('.row input');
    await after(() => document.dispatchEvent(new KeyboardEvent('keydown', { key: '4', altKey: true, bubbles: true })));
    expect(at()).toBe('The route');
  });

  test('stays on a button that has come to its end', async () => {
    await showPage(scene('layout-inch'));
    const first = document.querySelector<HTMLButtonElement>(
      '.rows[aria-label^="Turned"] .row:nth-of-type(2) [aria-label^="To the left"]',
    );
    await after(() => first?.focus());
    await enter();
    expect([document.activeElement === first, first?.getAttribute('aria-disabled'), first?.disabled]).toEqual([
      true,
      'true',
      false,
    ]);
  });

  test('stays on the button that asks before everything is wiped', async () => {
    await showPage(scene('jobs'));
    const wipe = [...document.querySelectorAll('button')].find((one) => one.textContent.startsWith('Wipe everything'));
    await after(() => wipe?.focus());
    await enter();
    expect([document.activeElement === wipe, at()]).toEqual([true, 'Keep it all']);
  });

  test('stays on the button that changes a key, before and after', async () => {
    await showPage(scene('keys'));
    const change = document.querySelector<HTMLButtonElement>('.key-list button');
    await after(() => change?.focus());
    await enter();
    expect(document.querySelector('[role=status]')).not.toBeNull();
    await keyDown('Escape');
    expect([document.activeElement === change, document.querySelector('[role=status]')]).toEqual([true, null]);
  });

  test('goes on through the ten phrases to what is kept of them, which says that it is', async () => {
    const store = scene('voice');
    const personal = { version: 1, warp: 1, bias: 0, speechDb: -20, phrases: 10, before: 8, after: 9 } as const;
    let fitted = (_: Personal | null): void => undefined;
    const hearing: Hearing = {
      settings: { callName: 'Swarfside', headset: false, microphone: null, personal: null },
      change: (change) => store.setState({ hearing: { ...hearing, settings: { ...hearing.settings, ...change } } }),
      study: (said) => Promise.resolve({ said, heard: said, levelDb: -20, views: [] }),
      fit: () => new Promise((done) => (fitted = done)),
    };
    store.setState({ hearing });
    await showPage(store);
    const begin = [...document.querySelectorAll('button')].find((one) => one.textContent === 'Begin');
    await after(() => begin?.focus());
    await enter();
    await vi.waitFor(async () => {
      await after(() => undefined);
      expect(at()).toBe('Begin again');
    });
    const fit = [...document.querySelectorAll('button')].find((one) => one.textContent === 'Set it to my voice');
    await after(() => fit?.focus());
    await enter();
    expect([fit?.getAttribute('aria-disabled'), fit?.previousElementSibling?.textContent]).toEqual(['true', 'Working it out']);
    await after(() => fitted(personal));
    expect(at()).toBe('Keep it');
    await enter();
    expect([at(), fit?.previousElementSibling?.textContent]).toEqual(['✓ Kept', 'Of 10: 8 right before, 9 after.']);
  });
});
