import { describe, expect, it } from 'vitest';
import { createStore, type StoreApi } from 'zustand/vanilla';
import type { AssistantState, Notice } from '../../src/app/assistantState.ts';
import { noticesOf } from '../../src/app/notices.ts';

const notice = (id: string, text = id): Notice => ({ id, part: 'shelf', text, remedy: null });

describe('notices, of which the first is shown', () => {
  it.each([
    ['wait for those before them', ['a', 'b'], [], ['a', 'b']],
    ['come before all others where they may not wait', ['a', 'b'], ['c'], ['c', 'a', 'b']],
    ['take the place of the one with the same id', ['a', 'b', 'a'], [], ['b', 'a']],
    ['come before all others where they waited first', ['a', 'b'], ['b'], ['b', 'a']],
  ])('%s', (_what, inTurn, atOnce, shown) => {
    const store = createStore(() => ({ notices: [] as readonly Notice[] })) as unknown as StoreApi<AssistantState>;
    const { notify, notifyAtOnce, settle } = noticesOf(store);
    inTurn.forEach((id) => notify(notice(id)));
    atOnce.forEach((id) => notifyAtOnce(notice(id)));
    expect(store.getState().notices.map(({ id }) => id)).toEqual(shown);
    settle('a');
    expect(store.getState().notices.map(({ id }) => id)).toEqual(shown.filter((id) => id !== 'a'));
  });
});
