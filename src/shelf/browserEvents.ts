import type { DBSchema, IDBPObjectStore } from 'idb';
import { eventsIn, inRuns, type StoredEvents } from './eventRuns.ts';
import { EVENTS_A_PART, type EventRow, type OpenPages, type PageName, type PageRows } from './pages.ts';

export type Schema = DBSchema & {
  jobs: { key: string; value: PageRows['jobs'] };
  heads: { key: string; value: PageRows['heads'] };
  events: { key: [string, number]; value: StoredEvents; indexes: { byId: [string, string] } };
  clips: { key: [string, string]; value: PageRows['clips'] };
  settings: { key: string; value: PageRows['settings'] };
  setAside: { key: [string, number]; value: PageRows['setAside'] };
};

type EventStore = IDBPObjectStore<Schema, PageName[], 'events', IDBTransactionMode>;

/** The events of the browser's database as single ones, however they lie there; `asked` makes each request. */
export function browserEvents(
  events: () => EventStore,
  asked: <V>(request: () => Promise<V> | undefined) => Promise<V | undefined>,
): Pick<OpenPages, 'eachPart' | 'addEvents' | 'cutAfter'> & {
  event(key: readonly [string, number]): Promise<EventRow | undefined>;
} {
  const rows = async (range: IDBKeyRange, most?: number): Promise<readonly StoredEvents[]> =>
    (await asked(() => events().getAll(range as never, most))) ?? [];
  /** The row that an event lies in, or would lie in. */
  const rowBefore = async ([job, seq]: readonly [string, number]): Promise<StoredEvents | undefined> =>
    (await asked(() => events().openCursor(IDBKeyRange.bound([job], [job, seq]) as never, 'prev')))?.value;

  return {
    async event(key) {
      const row = await rowBefore(key);
      return row === undefined ? undefined : eventsIn(row).find(({ seq }) => seq === key[1]);
    },
    async eachPart(job, take) {
      // By their numbers, since a row may hold many: those that begin within the next so many.
      const within = (seq: number) => rows(IDBKeyRange.bound([job, seq], [job, seq + EVENTS_A_PART], true));
      // An array sorts after every string and number, so this bound takes in all keys of the job.
      const beyond = (seq: number) => rows(IDBKeyRange.bound([job, seq], [job, []], true), 1);
      let last = 0;
      let upTo = EVENTS_A_PART;
      for (let coming = rows(IDBKeyRange.bound([job], [job, upTo])), looksBeyond = false; ; ) {
        const part = (await coming).flatMap(eventsIn);
        if (part.length === 0 && looksBeyond) return;
        last = part.at(-1)?.seq ?? last;
        // Where it ends short, it was the last one, or what should be behind it is missing.
        looksBeyond = part.length === 0 || !(last >= upTo);
        upTo = last + EVENTS_A_PART;
        // The next is asked for before this one is looked at: the browser fetches it meanwhile.
        coming = looksBeyond ? beyond(last) : within(last);
        if (part.length > 0) take(part);
      }
    },
    async addEvents(given) {
      await Promise.all(inRuns(given).map((row) => asked(() => events().add?.(row))));
    },
    async cutAfter(job, seq) {
      const across = seq === 0 ? undefined : await rowBefore([job, seq]);
      const behind = IDBKeyRange.bound(seq === 0 ? [job] : [job, seq], [job, []], seq !== 0);
      await asked(() => events().delete?.(behind as never));
      const lying = across === undefined ? [] : eventsIn(across);
      const kept = lying.filter((event) => event.seq <= seq);
      if (kept.length < lying.length) await Promise.all(inRuns(kept).map((row) => asked(() => events().put?.(row))));
    },
  };
}
