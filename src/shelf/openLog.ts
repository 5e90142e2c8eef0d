import { ok, type Result } from '../measure/index.ts';
import type { JobEvent } from '../job/index.ts';
import type { JobFile } from './jobFile.ts';
import { writeEvent } from './loggedEvent.ts';
import type { Shelf, ShelfFault, StoredJob } from './shelf.ts';

/** The log of one open job on its way into the store. */
export type OpenLog = {
  /**
   * Stores an event after those before it; `ok` only when it is on the disk. On a fault the event, and all after it, are held
   * in memory: show them, but acknowledge none as stored.
   */
  append(event: JobEvent): Promise<Result<void, ShelfFault>>;
  /** The events that are not stored, in order; empty when all is well. */
  held(): readonly JobEvent[];
  /** Tries again to store what is held, as after room has been made. */
  retry(): Promise<Result<void, ShelfFault>>;
  /** Resolves when nothing is on its way into the store. */
  settled(): Promise<void>;
  /** The whole job with what is held, for writing to a file while the store refuses. Reads the store where it still answers. */
  asFile(): Promise<JobFile>;
};

/**
 * Keeps the events of a job in the order in which they came and loses none when the store is full or denied.
 * Invariants: at most one event is on its way into the store; an event is stored only when all before it are.
 */
export function openLog(shelf: Shelf, job: StoredJob): OpenLog {
  /** What was stored since the job was opened. */
  const stored: JobEvent[] = [];
  const held: JobEvent[] = [];
  let last: Promise<unknown> = Promise.resolve();

  /** Stores what is held up to and with `to`, so that each append answers for its own event; with null, all. */
  async function drain(to: JobEvent | null): Promise<Result<void, ShelfFault>> {
    while (to === null || held.includes(to)) {
      const event = held[0];
      if (event === undefined) break;
      const done = await shelf.append(job.id, event);
      if (!done.ok) return done;
      stored.push(event);
      held.shift();
    }
    return ok(undefined);
  }
  function inTurn<T>(work: () => Promise<T>): Promise<T> {
    const next = last.then(work);
    last = next.catch(() => undefined);
    return next;
  }

  return {
    append(event) {
      held.push(event);
      return inTurn(() => drain(event));
    },
    held: () => held,
    retry: () => inTurn(() => drain(null)),
    settled: () => last.then(() => undefined),
    async asFile() {
      const { id, plan, startedAt, unknown } = job;
      const waiting = [...held];
      const copy = await shelf.copy(id);
      // As it was opened, and what came since; only the sound of memos is in the store alone.
      const { events, kept } = job;
      const given = { clips: new Map(), olderPlan: null, notices: [] };
      const asOpened: JobFile = { job: id, startedAt, plan, events, unknown, kept, ...given };
      const file = copy.ok ? copy.value : asOpened;
      const since = copy.ok ? waiting : [...stored, ...waiting];
      const after = since.filter((event) => event.seq > file.kept.events.length);
      const texts = [...file.kept.events, ...after.map(writeEvent)];
      return { ...file, events: [...file.events, ...after], kept: { ...file.kept, events: texts } };
    },
  };
}
