import { createStore, type StoreApi } from 'zustand/vanilla';
import {
  contextOf,
  decide,
  fold,
  initialState,
  nextSeq,
  silence,
  type EventBody,
  type Intent,
  type JobState,
  type Plan,
} from '../../job/index.ts';
import { draftOfPart, newDraft } from '../../part/index.ts';
import { interpretTyped, textOfReply } from '../../phrasebook/index.ts';
import type { AssistantState } from '../../app/index.ts';

/** What was called on the store, oldest first, for tests to look at. */
export type Call = { readonly name: string; readonly with: readonly unknown[] };

/** 14 March 2026, 09:30 UTC: every scene is set on the same invented morning. */
const MORNING = Date.UTC(2026, 2, 14, 9, 30);

const done = (act: () => void): Promise<void> => {
  act();
  return Promise.resolve();
};

export type FakeStore = StoreApi<AssistantState> & { readonly calls: Call[] };

/**
 * An assistant that keeps nothing and hears nothing, with the real rules of the job behind it: for the gallery and for tests
 * of the screens. `events` have already happened.
 */
export function fakeStore(plan: Plan | null, events: readonly EventBody[] = [], given: Partial<AssistantState> = {}): FakeStore {
  const calls: Call[] = [];
  let count = 0;
  const now = (): number => MORNING + count * 240_000;
  const happened = (state: JobState, body: EventBody): JobState => {
    count += 1;
    return fold(state, { id: `e${count}`, seq: nextSeq(state), at: now(), v: 1, body });
  };
  const begun = plan === null ? null : { id: 'here', state: events.reduce(happened, initialState(plan)), talk: silence };

  const store = createStore<AssistantState>((set, get) => {
    const called = (name: string, ...args: readonly unknown[]): void => void calls.push({ name, with: args });
    const settle = (intent: Intent, words: string, from: 'voice' | 'typed' | 'button'): void => {
      const { job } = get();
      if (job === null) return;
      const decision = decide({ state: job.state, talk: job.talk, words, now: now() }, intent);
      set({
        job: { id: job.id, state: decision.events.reduce(happened, job.state), talk: decision.talk },
        heard: { words, from, outcome: decision.outcome },
        reply: { text: textOfReply(decision.reply), reply: decision.reply, outcome: decision.outcome },
      });
    };
    return {
      page: plan === null ? 'jobs' : 'machine',
      jobs: [],
      job: begun,
      heard: null,
      reply: null,
      listening: {
        mode: 'hold',
        state: 'waiting',
        levelDb: -48,
        floorDb: -56,
        tooLoud: false,
        callName: 'shop hand',
        called: false,
      },
      volume: 1,
      speech: { loudness: 4, pace: 0 },
      instrument: null,
      notices: [],
      unstored: 0,
      drafts: [],
      draft: null,
      draftKept: true,
      ...given,
      goTo: (page) => {
        called('goTo', page);
        set({ page });
      },
      openJob: (id) => {
        called('openJob', id);
        set({ page: 'machine' });
        return Promise.resolve();
      },
      startDemo: (demo) =>
        done(() => {
          called('startDemo', demo);
        }),
      importJob: (fileName, text) =>
        done(() => {
          called('importJob', fileName, text);
        }),
      exportJob: () => {
        called('exportJob');
        return Promise.resolve({ fileName: 'here.job.json', text: '{}' });
      },
      command: (intent) => {
        called('command', intent);
        settle(intent, '', 'button');
        return Promise.resolve();
      },
      typed: (text) => {
        called('typed', text);
        const { job } = get();
        const read = job === null ? null : interpretTyped(text, contextOf(job.state, job.talk, now()));
        if (read?.ok === true) settle(read.value, text, 'typed');
        return Promise.resolve();
      },
      answer: (choice) => {
        called('answer', choice);
        const question = get().job?.talk.question ?? null;
        const second = choice === 'second' && question?.about === 'which-value' ? question.other : null;
        settle(second ?? { type: choice === 'yes' || choice === 'first' ? 'yes' : 'no' }, '', 'button');
        return Promise.resolve();
      },
      listen: (mode) => {
        called('listen', mode);
        set({ listening: { ...get().listening, mode, state: 'waiting' } });
        return Promise.resolve();
      },
      stopListening: () => {
        called('stopListening');
        set({ listening: { ...get().listening, state: 'off' } });
      },
      hold: () => {
        called('hold');
        set({ listening: { ...get().listening, state: 'hearing' } });
      },
      release: () => {
        called('release');
        set({ listening: { ...get().listening, state: 'waiting' } });
      },
      hush: () => {
        called('hush');
      },
      restart: (part) =>
        done(() => {
          called('restart', part);
        }),
      setSpeech: (speech) => {
        called('setSpeech', speech);
        set({ speech });
      },
      newDraft: (unit) =>
        done(() => {
          called('newDraft', unit);
          set({ draft: newDraft('draft', unit, null), page: 'layout' });
        }),
      openDraft: (id) =>
        done(() => {
          called('openDraft', id);
          set({ page: 'layout' });
        }),
      keepDraft: (draft) => {
        called('keepDraft', draft);
        set({ draft });
      },
      dropDraft: (id) =>
        done(() => {
          called('dropDraft', id);
          set({ drafts: get().drafts.filter((draft) => draft.id !== id) });
        }),
      draftFromJob: () =>
        done(() => {
          called('draftFromJob');
          if (plan !== null) set({ draft: draftOfPart(plan.part, plan.machines, 'draft', plan.instruments), page: 'layout' });
        }),
      startJob: (begun) =>
        done(() => {
          called('startJob', begun);
        }),
      memo: (clip) => {
        called('memo', clip);
        return Promise.resolve(null);
      },
      pieceOf: (id) => {
        called('pieceOf', id);
        return Promise.resolve(get().job?.state ?? null);
      },
      wipe: () =>
        done(() => {
          called('wipe');
        }),
      dismiss: (notice) => {
        called('dismiss', notice);
        set({ notices: get().notices.filter((other) => other.id !== notice) });
      },
    };
  });
  return Object.assign(store, { calls });
}
