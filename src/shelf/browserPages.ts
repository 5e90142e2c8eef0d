import { deleteDB, openDB, type IDBPDatabase, type IDBPTransaction } from 'idb';
import { browserEvents, type Schema } from './browserEvents.ts';
import { PagesError, type OpenPages, type PageKey, type PageName, type Pages } from './pages.ts';

type Database = IDBPDatabase<Schema>;

export const SHELF_NAME = 'swarfside-shelf';
/** From 2 on a row of events may hold several; the number keeps away builds that would take such a row for damage. */
const DATABASE_VERSION = 2;

/** What the browser calls a full disk or a spent quota, in its several ways. */
function failure(error: unknown): PagesError {
  const name = error instanceof Error || error instanceof DOMException ? error.name : '';
  const detail = error instanceof Error || error instanceof DOMException ? `${name}: ${error.message}` : String(error);
  const full = name === 'QuotaExceededError' || /quota|disk (is )?full|no space|not enough space|out of space/i.test(detail);
  return new PagesError(full ? 'disk-full' : 'denied', detail);
}

function lay(db: Database, from: number): void {
  if (from >= 1) return;
  db.createObjectStore('jobs', { keyPath: 'id' });
  db.createObjectStore('heads', { keyPath: 'job' });
  // A key of job and number, and one of job and id, both unique: a gap or a double cannot be stored even by a faulty caller.
  db.createObjectStore('events', { keyPath: ['job', 'seq'] }).createIndex('byId', ['job', 'id'], { unique: true });
  db.createObjectStore('clips', { keyPath: ['job', 'clip'] });
  db.createObjectStore('settings', { keyPath: 'name' });
  db.createObjectStore('setAside', { keyPath: ['job', 'no'] });
}

/**
 * Pages in the browser's IndexedDB. Writing transactions ask for strict durability: the browser reports them done only when
 * they are on the disk. The database is opened at the first use, and again after the browser has closed it.
 */
export function browserPages(name: string = SHELF_NAME): Pages {
  let opening: Promise<Database> | null = null;
  const forget = (): void => {
    opening = null;
  };
  async function opened(): Promise<Database> {
    try {
      return await openDB<Schema>(name, DATABASE_VERSION, {
        upgrade: lay,
        // A newer build in another window wants to change the database: give way, so that it need not wait for ever.
        blocking: (_from, _to, event) => {
          (event.target as IDBDatabase).close();
          forget();
        },
        terminated: forget,
      });
    } catch (error) {
      throw failure(error);
    }
  }
  function database(): Promise<Database> {
    if (opening !== null) return opening;
    const mine = opened();
    opening = mine;
    // A failed opening is not kept: the next call may find the store allowed again.
    mine.catch(() => {
      if (opening === mine) forget();
    });
    return mine;
  }

  async function begin(mode: 'read' | 'write', pages: readonly PageName[]): Promise<IDBPTransaction<Schema, PageName[], IDBTransactionMode>> {
    const open = async (): Promise<IDBPTransaction<Schema, PageName[], IDBTransactionMode>> => {
      const db = await database();
      return mode === 'write' ? db.transaction([...pages], 'readwrite', { durability: 'strict' }) : db.transaction([...pages], 'readonly');
    };
    try {
      return await open();
    } catch (error) {
      if (error instanceof PagesError) throw error;
      // The connection was closed under us; nothing has been written yet, so a second try is safe.
      forget();
      try {
        return await open();
      } catch (again) {
        throw again instanceof PagesError ? again : failure(again);
      }
    }
  }

  return {
    async transact<T>(mode: 'read' | 'write', pages: readonly PageName[], work: (open: OpenPages) => Promise<T>): Promise<T> {
      const transaction = await begin(mode, pages);
      const done = transaction.done.then(
        () => null,
        (error: unknown) => failure(transaction.error ?? error),
      );
      const store = (page: PageName) => transaction.objectStore(page);
      let refused: unknown = null;
      // Some faults are thrown at the call, some come with the request: both are the store's, not the work's.
      const asked = async <V>(request: () => Promise<V> | undefined): Promise<V> => {
        try {
          return (await request()) as V;
        } catch (error) {
          refused = error;
          throw error;
        }
      };
      const write = (request: () => Promise<unknown> | undefined): Promise<void> => asked(request).then(() => undefined);
      const events = browserEvents(() => transaction.objectStore('events'), asked);
      const open: OpenPages = {
        get: (page, key) =>
          (page === 'events' ? events.event(key as readonly [string, number]) : asked(() => store(page).get(key as never))) as never,
        all: (page) => asked(() => store(page).getAll()) as never,
        // An array sorts after every string and number, so this bound takes in all keys of the job.
        under: (page, job) => asked(() => store(page).getAll(IDBKeyRange.bound([job], [job, []]) as never)) as never,
        ...events,
        add: (page, row) => write(() => store(page).add?.(row)),
        put: (page, row) => write(() => store(page).put?.(row)),
        remove: (page, key: PageKey) => write(() => store(page).delete?.(key as never)),
      };
      let value: T;
      try {
        value = await work(open);
      } catch (error) {
        try {
          transaction.abort();
        } catch {
          // It has ended by itself, which is what was wanted.
        }
        const fault = await done;
        throw refused === null ? error : failure(transaction.error ?? refused ?? fault);
      }
      const fault = await done;
      if (fault !== null) throw fault;
      return value;
    },
    async wipe() {
      const open = opening;
      forget();
      try {
        (await open)?.close();
        await deleteDB(name);
      } catch (error) {
        throw failure(error);
      }
    },
  };
}
