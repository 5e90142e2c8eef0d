import 'fake-indexeddb/auto';
import { describe, expect, it, vi } from 'vitest';
import { askToPersist, memoryShelf, openLog, readJobFile, writeJobFile, type Shelf } from '../../src/shelf/index.ts';
import { browserShelf } from '../../src/shelf/index.ts';
import { plan, reading } from './sample.ts';

/** A shelf that refuses every append while `refusing`. */
async function moodyShelf(): Promise<{ shelf: Shelf; mood: { refusing: boolean } }> {
  const inner = memoryShelf(() => 0);
  await inner.start('job-1', plan, 1000);
  const mood = { refusing: false };
  const append: Shelf['append'] = async (job, event) => {
    await new Promise((resolve) => setTimeout(resolve, 1));
    return mood.refusing ? { ok: false, error: { key: 'disk-full', job } } : inner.append(job, event);
  };
  return { shelf: { ...inner, append }, mood };
}
async function opened(shelf: Shelf) {
  const job = await shelf.open('job-1');
  if (!job.ok) throw new Error('the job does not open');
  return openLog(shelf, job.value);
}
const stored = async (shelf: Shelf): Promise<readonly number[]> => {
  const job = await shelf.open('job-1');
  return job.ok ? job.value.events.map((event) => event.seq) : [];
};

describe('the log of an open job', () => {
  it('stores events one after the other, each answered when it is stored', async () => {
    const { shelf } = await moodyShelf();
    const log = await opened(shelf);
    const answers = await Promise.all([1, 2, 3, 4].map((seq) => log.append(reading(seq))));
    expect(answers.every((answer) => answer.ok)).toBe(true);
    expect(log.held()).toEqual([]);
    expect(await stored(shelf)).toEqual([1, 2, 3, 4]);
  });

  it('holds what is refused, answers for each event by itself, and stores all once there is room', async () => {
    const { shelf, mood } = await moodyShelf();
    const log = await opened(shelf);
    const first = log.append(reading(1));
    const second = first.then((answer) => {
      mood.refusing = true;
      expect(answer.ok).toBe(true);
      return Promise.all([log.append(reading(2)), log.append(reading(3))]);
    });
    expect(await second).toEqual([
      { ok: false, error: { key: 'disk-full', job: 'job-1' } },
      { ok: false, error: { key: 'disk-full', job: 'job-1' } },
    ]);
    expect(log.held().map((event) => event.seq)).toEqual([2, 3]);
    const file = readJobFile(writeJobFile(await log.asFile()));
    expect(file.ok && file.value.events).toEqual([1, 2, 3].map((seq) => reading(seq)));

    mood.refusing = false;
    expect(await log.retry()).toEqual({ ok: true, value: undefined });
    expect(log.held()).toEqual([]);
    expect(await stored(shelf)).toEqual([1, 2, 3]);
  });

  it('stores what was held before the event that comes after it', async () => {
    const { shelf, mood } = await moodyShelf();
    const log = await opened(shelf);
    mood.refusing = true;
    await log.append(reading(1));
    mood.refusing = false;
    expect((await log.append(reading(2))).ok).toBe(true);
    expect(await stored(shelf)).toEqual([1, 2]);
  });

  it('gives the whole job as a file where the store cannot be read either', async () => {
    const { shelf, mood } = await moodyShelf();
    const log = await opened({ ...shelf, copy: () => Promise.resolve({ ok: false, error: { key: 'store-denied', detail: 'gone' } }) });
    await log.append(reading(1));
    mood.refusing = true;
    await log.append(reading(2));
    const file = readJobFile(writeJobFile(await log.asFile()));
    expect(file.ok && file.value.events).toEqual([reading(1), reading(2)]);
  });
});

describe('a browser store that fails', () => {
  const failures: readonly [string, DOMException | Error, object][] = [
    ['quota', new DOMException('Encountered full disk while committing transaction.', 'QuotaExceededError'), { key: 'disk-full', job: 'job-1' }],
    ['a full disk by another name', new DOMException('Failed to write blobs (no space left on device)', 'UnknownError'), { key: 'disk-full', job: 'job-1' }],
    ['a failing disk', new DOMException('Internal error.', 'UnknownError'), { key: 'store-denied', detail: 'UnknownError: Internal error.' }],
  ];
  it.each(failures)('%s: the event is refused, and what was stored stays', async (name, error, expected) => {
    const shelf = browserShelf(() => 0, `failing ${name}`);
    await shelf.start('job-1', plan, 1000);
    await shelf.append('job-1', reading(1));
    const put = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw error;
    });
    const refused = await shelf.append('job-1', reading(2));
    put.mockRestore();
    expect(refused).toEqual({ ok: false, error: expected });
    expect(await stored(shelf)).toEqual([1]);
    expect((await shelf.append('job-1', reading(2))).ok).toBe(true);
  });

  it('denied from the start: each call says so', async () => {
    const open = vi.spyOn(indexedDB, 'open').mockImplementation(() => {
      throw new DOMException('The user denied permission to access the database.', 'SecurityError');
    });
    const shelf = browserShelf(() => 0, 'denied');
    const expected = { key: 'store-denied', detail: 'SecurityError: The user denied permission to access the database.' };
    expect(await shelf.jobs()).toEqual({ ok: false, error: expected });
    expect(await shelf.start('job-1', plan, 1000)).toEqual({ ok: false, error: expected });
    open.mockRestore();
    expect((await shelf.start('job-1', plan, 1000)).ok).toBe(true);
  });

  it('closed by the browser: the next call opens it again', async () => {
    const shelf = browserShelf(() => 0, 'closed');
    await shelf.start('job-1', plan, 1000);
    const transaction = vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementationOnce(() => {
      throw new DOMException('The database connection is closing.', 'InvalidStateError');
    });
    expect((await shelf.append('job-1', reading(1))).ok).toBe(true);
    expect(transaction).toHaveBeenCalledTimes(2);
    transaction.mockRestore();
    expect(await stored(shelf)).toEqual([1]);
  });
});

describe('asking the browser to keep the store', () => {
  const storage = (persisted: boolean, granted: boolean | Error) => ({
    persisted: () => Promise.resolve(persisted),
    persist: () => (granted instanceof Error ? Promise.reject(granted) : Promise.resolve(granted)),
  });
  it.each([
    ['kept already', storage(true, false), 'kept'],
    ['granted', storage(false, true), 'kept'],
    ['not granted', storage(false, false), 'may-be-cleared'],
    ['failing', storage(false, new Error('no')), 'cannot-tell'],
    ['not there', undefined, 'cannot-tell'],
  ] as const)('%s', async (_name, edge, expected) => expect(await askToPersist(edge)).toBe(expected));
});
