import { describe, expect, it } from 'vitest';
import { createStore } from 'zustand/vanilla';
import { inTheMiddle, offerUpdate, type AssistantState } from '../../src/app/index.ts';
import { initialState } from '../../src/job/index.ts';
import { plan } from '../shelf/sample.ts';

const quiet: Pick<AssistantState, 'page' | 'job' | 'unstored' | 'notices' | 'listening'> = {
  page: 'jobs',
  job: null,
  unstored: 0,
  notices: [],
  listening: { mode: 'hold', state: 'waiting', levelDb: null, floorDb: null, tooLoud: false, callName: '', called: false },
};
const job = { id: 'job-1', state: initialState(plan), talk: { question: null, lastReply: null } } as unknown as NonNullable<
  AssistantState['job']
>;
const hearing = { listening: { ...quiet.listening, state: 'hearing' as const } };

/** A page whose worker does what the test says. */
function opened(state: Partial<AssistantState>) {
  const store = createStore<AssistantState>()(() => ({ ...quiet, ...state }) as AssistantState);
  const listeners = new Map<string, () => void>();
  const seen = { skipped: 0, reloaded: 0 };
  const worker = {
    addEventListener: (event: string, listener: () => void) => void listeners.set(event, listener),
    messageSkipWaiting: () => void (seen.skipped += 1),
  };
  offerUpdate(store, worker, () => (seen.reloaded += 1));
  const offered = () => store.getState().notices.find(({ id }) => id === 'update') ?? null;
  return { store, seen, offered, fire: (event: string) => listeners.get(event)?.() };
}

describe('a new version of the page', () => {
  it.each([
    ['at the desk', {}, false],
    ['at the desk with a job open', { job }, false],
    ['at the machine with a step open', { page: 'machine', job }, true],
    ['with a reading that is not stored', { unstored: 1 }, true],
    ['while somebody speaks', hearing, true],
  ] as const)('%s: in the middle of something %s', (_name, change, expected) => {
    expect(inTheMiddle({ ...quiet, ...change })).toBe(expected);
  });

  it('is offered at the desk and taken when the person says so, and then the page is loaded again', () => {
    const { seen, offered, fire } = opened({});
    expect(offered()).toBeNull();
    fire('waiting');
    offered()?.remedy?.run();
    expect(seen).toEqual({ skipped: 1, reloaded: 0 });
    fire('controlling');
    expect(seen.reloaded).toBe(1);
  });

  it('is not offered at the machine; the offer waits, comes at the desk, and goes again', () => {
    const { store, offered, fire } = opened({ page: 'machine', job });
    fire('waiting');
    expect(offered()).toBeNull();
    store.setState({ page: 'record' });
    expect(offered()).not.toBeNull();
    store.setState({ page: 'machine' });
    expect(offered()).toBeNull();
  });

  it('taken in the moment in which somebody speaks does nothing', () => {
    const { store, seen, offered, fire } = opened({});
    fire('waiting');
    const offer = offered();
    store.setState(hearing);
    offer?.remedy?.run();
    expect(seen.skipped).toBe(0);
  });

  it('taken in another window reloads this one only when its step is left', () => {
    const { store, seen, fire } = opened({ page: 'machine', job });
    fire('waiting');
    fire('controlling');
    expect(seen.reloaded).toBe(0);
    store.setState({ page: 'record' });
    expect(seen.reloaded).toBe(1);
  });

  it('put away stays away until the next start, and the first worker of all is no change', () => {
    const { store, seen, offered, fire } = opened({});
    fire('controlling');
    expect(seen.reloaded).toBe(0);
    fire('waiting');
    store.setState({ notices: [] });
    store.setState({ page: 'record' });
    expect(offered()).toBeNull();
  });
});
