import { createStore, type StoreApi } from 'zustand/vanilla';
import type { JobEvent } from '../job/index.ts';
import {
  describeFileFault,
  describeShelfFault,
  FILE_VERSION,
  joinEvents,
  momentAfter,
  writeEvent,
  type JobHead,
  type Shelf,
  type Taken,
} from '../shelf/index.ts';
import type { Replica, ReplicaEdges, ReplicaStanding } from './replica.ts';

/** Working on the same jobs with another device, as the screens see it; off until somebody types the desk's code. */
export type HandOver = {
  readonly standing: 'off' | ReplicaStanding;
  readonly start: (code: string) => Promise<void>;
  readonly stop: () => void;
};

export type HandOverDeps = {
  readonly shelf: Shelf;
  /** Fetches the engine, which is no part of the page until now, and opens it. */
  readonly openReplica: (edges: Pick<ReplicaEdges, 'code' | 'onStanding' | 'onChange'>) => Promise<Replica>;
  readonly newId: () => string;
  readonly now: () => number;
  readonly later: (work: () => void, ms: number) => void;
  /** Events of other devices have been stored with this job. */
  readonly onTaken: (taken: Taken) => void;
  /** The stored log has changed beside the assistant, which should read it again. */
  readonly onStored: (job: string) => void;
  /** Something from another device was not taken in, in one line. */
  readonly onRefused: (line: string) => void;
};

/** What comes in is taken in together, so that a burst of events is checked once. */
const GATHER_MS = 150;
/** A reading that was being stored while others came in may have been missed by the reading again: it is done once more. */
const AGAIN_MS = 400;

/**
 * Wraps the shelf: what is stored here is told to the other devices, what they tell is checked as a file is and stored here.
 * Invariants: the shelf is the truth and works the same with the replica gone; one change of a log at a time.
 */
export function createHandOver(deps: HandOverDeps): { readonly shelf: Shelf; readonly store: StoreApi<HandOver> } {
  const { shelf } = deps;
  let replica: Replica | null = null;
  let asked = 0;
  let last: Promise<unknown> = Promise.resolve();
  const waiting = new Set<string>();
  const refused = new Set<string>();
  const shared = new Map<string, JobHead>();
  let takenAt = Number.NEGATIVE_INFINITY;

  const store: StoreApi<HandOver> = createStore<HandOver>()(() => ({ standing: 'off', start, stop }));

  function inTurn<T>(work: () => Promise<T>): Promise<T> {
    const next = last.then(work);
    last = next.catch(() => undefined);
    return next;
  }

  async function start(code: string): Promise<void> {
    stop();
    asked += 1;
    const mine = asked;
    const current = (): boolean => mine === asked;
    store.setState({ standing: 'connecting' });
    try {
      const opened = await deps.openReplica({
        code: code.trim(),
        onStanding: (standing) => {
          if (current()) store.setState({ standing });
        },
        onChange: (jobs) => {
          if (current()) gather(jobs);
        },
      });
      if (!current()) {
        opened.close();
        return;
      }
      replica = opened;
      for (const job of shared.keys()) await tell(job);
    } catch (error) {
      if (!current()) return;
      store.setState({ standing: 'cut' });
      deps.onRefused(`Working together did not start: ${error instanceof Error ? error.message : String(error)}`);
    }
  }

  function stop(): void {
    asked += 1;
    replica?.close();
    replica = null;
    store.setState({ standing: 'off' });
  }

  /** Tells the other devices of all that is stored of a job. */
  async function tell(job: string): Promise<void> {
    const copy = await shelf.copy(job);
    if (!copy.ok || copy.value.startedAt === null) return;
    const head = { job, startedAt: copy.value.startedAt, plan: copy.value.kept.plan, version: FILE_VERSION };
    shared.set(job, head);
    replica?.put(head, copy.value.kept.events);
  }

  function gather(jobs: ReadonlySet<string>): void {
    if (waiting.size === 0) deps.later(() => void takeAll(), GATHER_MS);
    jobs.forEach((job) => waiting.add(job));
  }

  async function takeAll(): Promise<void> {
    const jobs = [...waiting];
    waiting.clear();
    for (const job of jobs) await inTurn(() => takeIn(job));
  }

  async function takeIn(job: string): Promise<void> {
    const told = replica?.head(job) ?? null;
    if (told === null) return;
    const copy = await shelf.copy(job);
    const here = copy.ok ? copy.value.kept : null;
    const head =
      copy.ok && here !== null
        ? { ...told, plan: here.plan, version: FILE_VERSION, startedAt: copy.value.startedAt ?? told.startedAt }
        : told;
    const joined = joinEvents(head, here?.events ?? null, replica?.events(job) ?? []);
    if (!joined.ok) {
      refuse(job, describeFileFault(joined.error, 'the other device'));
      return;
    }
    for (const { id, fault } of joined.value.refused) refuse(id, describeFileFault(fault, 'the other device'));
    if (joined.value.file === null) return;
    const taken = await shelf.take(joined.value.file, { newId: deps.newId(), at: deps.now() });
    if (!taken.ok) {
      // Not noted as refused: the next change tries again, and by then there may be room.
      deps.onRefused(describeShelfFault(taken.error));
      return;
    }
    takenAt = deps.now();
    shared.set(job, head);
    deps.onTaken(taken.value);
    deps.onStored(taken.value.id);
  }

  /** Says once what was not taken in. */
  function refuse(key: string, line: string): void {
    if (refused.has(key)) return;
    refused.add(key);
    deps.onRefused(line);
  }

  async function append(job: string, event: JobEvent): ReturnType<Shelf['append']> {
    let numbered = event;
    let stored = await shelf.append(job, numbered);
    // Others' events may have taken its number since it was decided; it is not acknowledged yet, so it takes the next, and a time
    // after theirs: by the times the other devices lay it in.
    while (replica !== null && !stored.ok && stored.error.key === 'out-of-order' && stored.error.expected > numbered.seq) {
      numbered = { ...numbered, seq: stored.error.expected, at: momentAfter(stored.error.lastAt, numbered.at) };
      stored = await shelf.append(job, numbered);
    }
    const head = shared.get(job);
    if (stored.ok && replica !== null && head !== undefined) replica.put(head, [writeEvent(numbered)]);
    if (stored.ok && (numbered !== event || deps.now() - takenAt < AGAIN_MS)) deps.later(() => deps.onStored(job), AGAIN_MS);
    return stored;
  }

  return {
    store,
    shelf: {
      ...shelf,
      append: (job, event) => inTurn(() => append(job, event)),
      async open(id) {
        const opened = await shelf.open(id);
        if (opened.ok && replica !== null) await tell(id);
        else if (opened.ok) {
          const { startedAt, kept } = opened.value;
          shared.set(id, { job: id, startedAt, plan: kept.plan, version: FILE_VERSION });
        }
        return opened;
      },
      async wipe() {
        stop();
        shared.clear();
        return await shelf.wipe();
      },
    },
  };
}
