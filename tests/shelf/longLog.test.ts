import 'fake-indexeddb/auto';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Result } from '../../src/measure/index.ts';
import { jobFileOf, type Shelf } from '../../src/shelf/index.ts';
import { browserPages } from '../../src/shelf/browserPages.ts';
import { copyFiles } from '../../src/shelf/copyFiles.ts';
import { logIn, readRecords, writeRecords, type CopyRecord } from '../../src/shelf/copyRecords.ts';
import type { SecondCopy } from '../../src/shelf/secondCopy.ts';
import { EVENTS_A_RUN, eventsIn, type StoredEvents } from '../../src/shelf/eventRuns.ts';
import { EVENTS_A_PART } from '../../src/shelf/pages.ts';
import { shelfOver } from '../../src/shelf/shelfOver.ts';
import { memoryFolder } from './copies.ts';
import { plan, reading } from './sample.ts';

let databases = 0;
afterEach(() => vi.restoreAllMocks());

async function value<T>(result: Promise<Result<T, unknown>>): Promise<T> {
  const got = await result;
  if (!got.ok) throw new Error(`refused: ${JSON.stringify(got.error)}`);
  return got.value;
}

/** How many events each `getAll` brought. */
function eventsFetched(): number[] {
  const fetched: number[] = [];
  const prototype = IDBObjectStore.prototype as { getAll: (this: IDBObjectStore, ...asked: unknown[]) => IDBRequest<unknown[]> };
  const real = prototype.getAll;
  vi.spyOn(prototype, 'getAll').mockImplementation(function (this: IDBObjectStore, ...asked) {
    const request = real.apply(this, asked);
    if (this.name === 'events')
      request.addEventListener('success', () =>
        fetched.push((request.result as readonly StoredEvents[]).reduce((sum, row) => sum + eventsIn(row).length, 0)),
      );
    return request;
  });
  return fetched;
}

/** A shelf with a job of so many events that came as a file, and what its second copy was asked to write at a time. */
async function imported(
  count: number,
): Promise<{ readonly shelf: Shelf; readonly written: number[]; readonly copied: () => number }> {
  const folder = memoryFolder();
  const copy = copyFiles(folder);
  const written: number[] = [];
  const watched: SecondCopy = {
    ...copy,
    append: (job, events, before) => {
      written.push(events.length);
      return copy.append(job, events, before);
    },
    complete: (job, events) => {
      written.push(events.length);
      return copy.complete(job, events);
    },
  };
  databases += 1;
  const shelf = shelfOver(browserPages(`long-${databases}`), () => 0, watched);
  const events = Array.from({ length: count }, (_, index) => reading(index + 1));
  await value(shelf.take(jobFileOf({ id: 'job-1', startedAt: 0, plan, events }), { newId: 'none', at: 0 }));
  const copied = (): number => logIn(readRecords(folder.files.get('job-1') ?? new Uint8Array()).records)?.events.length ?? 0;
  return { shelf, written, copied };
}

describe('a log of any length', () => {
  const sizes = [1, EVENTS_A_PART - 1, EVENTS_A_PART, EVENTS_A_PART + 1, 2 * EVENTS_A_PART, 9 * EVENTS_A_PART + 7];

  it.each(sizes)('of %i events is read at opening once, a bounded part at a time', async (count) => {
    const { shelf } = await imported(count);
    // What came as a file lies in runs, what is appended by itself.
    for (const seq of [count + 1, count + 2]) await value(shelf.append('job-1', reading(seq)));
    const fetched = eventsFetched();
    const job = await value(shelf.open('job-1'));
    expect(job.events.map(({ seq }) => seq)).toEqual(Array.from({ length: count + 2 }, (_, index) => index + 1));
    expect(job.damage).toEqual([]);
    expect(fetched.reduce((sum, events) => sum + events, 0)).toBe(count + 2);
    expect(Math.max(...fetched)).toBeLessThan(EVENTS_A_PART + EVENTS_A_RUN);
    // Two more questions than full parts at the most, to see that there is nothing behind them.
    expect(fetched.length).toBeLessThanOrEqual(Math.floor((count + 2) / EVENTS_A_PART) + 2);
  });

  it.each(sizes)('of %i events from a file costs the database one row for many', async (count) => {
    const put = vi.spyOn(IDBObjectStore.prototype, 'add');
    await imported(count);
    const rows = (put.mock.contexts as readonly IDBObjectStore[]).filter(({ name }) => name === 'events').length;
    expect(rows).toBeLessThanOrEqual(Math.ceil(count / EVENTS_A_RUN));
  });

  it.each(sizes)('of %i events goes into the second copy once, a bounded part at a time', async (count) => {
    const { written, copied } = await imported(count);
    expect(written.reduce((sum, events) => sum + events, 0)).toBe(count);
    expect(Math.max(...written)).toBeLessThanOrEqual(2_000);
    expect(copied()).toBe(count);
  });

  it('gives signs of life while its copy is written and read, in step with its length', () => {
    const signs = (lines: number): number => {
      const records = Array.from(
        { length: lines },
        (_, at): CopyRecord => ({ is: 'event', seq: at + 1, text: '{}', digest: '' }),
      );
      let given = 0;
      const bytes = writeRecords(records, () => (given += 1));
      readRecords(bytes, () => (given += 1));
      return given;
    };
    expect([1_999, 4_000, 12_000].map(signs)).toEqual([0, 4, 12]);
  });
});
