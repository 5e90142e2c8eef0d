// @vitest-environment happy-dom
import { act } from 'react';
import { expect, test, vi } from 'vitest';
import { SCENES } from '../../src/screens/gallery/scenes.ts';
import { calls, keyDown, show } from './show.tsx';

/** The table of commands comes after the page. It is held back here until the keys have been pressed. */
const hold = vi.hoisted(() => {
  let letGo = (): void => undefined;
  const held = new Promise<void>((done) => {
    letGo = done;
  });
  return { held, letGo: () => letGo() };
});
vi.mock('../../src/screens/machine/table.ts', async (original) => {
  await hold.held;
  return await original();
});

test('keys that are pressed before the table of commands has come are done once it is there, in their order', async () => {
  const store = SCENES['roughing']?.();
  if (store === undefined) throw new Error('no scene');
  store.calls.length = 0;
  show(store);
  await keyDown('l');
  await keyDown(';');
  await keyDown('t');
  expect(calls(store, 'command')).toEqual([]);
  hold.letGo();
  await vi.waitFor(async () => {
    await act(() => Promise.resolve());
    expect(calls(store, 'command')).toEqual([[{ type: 'ask-left' }], [{ type: 'feel', feel: 'tight' }]]);
  }, 10_000);
});
