import { draftOfPart, draftSchema, newDraft, type Draft } from '../part/index.ts';
import { folded, type JobState, type Plan } from '../job/index.ts';
import type { AssistantDeps } from './assistantDeps.ts';
import type { DeskActions, DeskEdges } from './deskActions.ts';
import { DRAFTS, draftsOn } from './draftList.ts';

const draftAt = (id: string): string => `draft ${id}`;

const nameOf = (draft: Draft): string => draft.about['name']?.trim() ?? '';

/**
 * The desk's part of the assistant: drafts, jobs begun from them, and what the record asks of the shelf. A draft is stored whole
 * on every change, one write behind another, so that the last one always wins.
 */
export function createDesk({ shelf, now, newId }: AssistantDeps, { get, set, trouble, say, openJob }: DeskEdges): DeskActions {
  let writing: Promise<void> = Promise.resolve();
  const pending: { draft: Draft | null } = { draft: null };

  async function store(name: string, value: unknown): Promise<boolean> {
    const kept = await shelf.keepSetting(name, value);
    if (!kept.ok) trouble(kept.error);
    return kept.ok;
  }

  /** Whether nothing was typed since the last write began. */
  const isStill = (): boolean => pending.draft === null;

  async function write(): Promise<void> {
    const { draft } = pending;
    if (draft === null) return;
    pending.draft = null;
    // The draft before anything is read for the list: a page that is left now must not lose what was typed.
    if (!(await store(draftAt(draft.id), draft))) return;
    // Read anew: another window may have added a draft of its own.
    const others = (await draftsOn(shelf)).filter((each) => each.id !== draft.id);
    const drafts = [{ id: draft.id, name: nameOf(draft), changedAt: now() }, ...others];
    if (await store(DRAFTS, drafts)) set({ drafts, ...(isStill() ? { draftKept: true } : {}) });
  }

  function keepDraft(draft: Draft): void {
    set({ draft, draftKept: false });
    pending.draft = draft;
    writing = writing.then(write);
  }

  async function read(id: string): Promise<Draft | null> {
    await writing;
    const stored = await shelf.setting(draftAt(id));
    if (!stored.ok) {
      trouble(stored.error);
      return null;
    }
    const draft = draftSchema.safeParse(stored.value);
    return draft.success ? draft.data : null;
  }

  return {
    newDraft: async (unit) => {
      const [latest] = await draftsOn(shelf);
      keepDraft(newDraft(newId(), unit, latest === undefined ? null : await read(latest.id)));
      set({ page: 'layout' });
    },
    openDraft: async (id) => {
      const draft = await read(id);
      if (draft === null) say('This draft cannot be read by this version. It is kept as it is.');
      else set({ draft, draftKept: true, page: 'layout' });
    },
    keepDraft,
    dropDraft: async (id) => {
      await writing;
      const drafts = (await draftsOn(shelf)).filter((each) => each.id !== id);
      if ((await store(DRAFTS, drafts)) && (await store(draftAt(id), null)))
        set({ drafts, ...(get().draft?.id === id ? { draft: null } : {}) });
    },
    draftFromJob: () => {
      const { job } = get();
      if (job === null) return Promise.resolve();
      const { part, machines, instruments } = job.state.plan;
      keepDraft(draftOfPart(part, machines, newId(), instruments));
      set({ page: 'layout' });
      return Promise.resolve();
    },
    startJob: async (plan: Plan) => {
      const id = newId();
      const started = await shelf.start(id, plan, now());
      if (!started.ok) trouble(started.error);
      else await openJob(id);
    },
    memo: async (clip) => {
      const { job } = get();
      const read = job === null ? null : await shelf.clip(job.id, clip);
      if (read !== null && !read.ok) trouble(read.error);
      return read?.ok === true ? read.value : null;
    },
    pieceOf: async (id): Promise<JobState | null> => {
      const opened = await shelf.open(id);
      if (!opened.ok) trouble(opened.error);
      return opened.ok ? folded(opened.value.plan, opened.value.events) : null;
    },
  };
}
