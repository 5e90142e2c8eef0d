import { describe, expect, test } from 'vitest';
import { createStore } from 'zustand/vanilla';
import { followBack } from '../../src/app/browserBack.ts';
import type { AssistantState, PageName } from '../../src/app/index.ts';

/** As much of the assistant as "Back" looks at. */
function followed(has: { readonly job: boolean; readonly draft: boolean }) {
  const store = createStore<AssistantState>()(
    (set) =>
      ({
        page: 'starting',
        job: has.job ? {} : null,
        draft: has.draft ? {} : null,
        goTo: (page: PageName) => set({ page }),
      }) as unknown as AssistantState,
  );
  const noted: string[] = [];
  let moved: (state: unknown) => void = () => undefined;
  const write =
    (how: string) =>
    (state: unknown): void =>
      void noted.push(`${how} ${(state as { page: string }).page}`);
  followBack(store, {
    history: { pushState: write('push'), replaceState: write('replace') },
    onMoved: (take) => {
      moved = take;
    },
  });
  return { store, noted, back: (state: unknown) => moved(state), page: () => store.getState().page };
}

describe("the browser's own Back", () => {
  test('has an entry for each page that was shown, the first in place of the one it found', () => {
    const { store, noted } = followed({ job: true, draft: false });
    for (const page of ['machine', 'machine', 'record', 'machine'] as const) store.getState().goTo(page);
    expect(noted).toEqual(['replace machine', 'push record', 'push machine']);
  });

  test('leads to the page of the entry and notes nothing of it', () => {
    const { store, noted, back, page } = followed({ job: true, draft: true });
    for (const next of ['machine', 'layout'] as const) store.getState().goTo(next);
    back({ page: 'machine' });
    expect(page()).toBe('machine');
    back({ page: 'layout' });
    expect(page()).toBe('layout');
    expect(noted).toHaveLength(2);
  });

  test.each<readonly [string, unknown, string]>([
    ['a draft that is gone', { page: 'layout' }, 'jobs'],
    ['a job that is gone', { page: 'machine' }, 'jobs'],
    ['its record', { page: 'record' }, 'jobs'],
    ['an entry of another page', null, 'voice'],
    ['an entry of a newer build', { page: 'elsewhere' }, 'voice'],
  ])('%s', (_, noted, then) => {
    const { store, back, page } = followed({ job: false, draft: false });
    store.getState().goTo('voice');
    back(noted);
    expect(page()).toBe(then);
  });
});
