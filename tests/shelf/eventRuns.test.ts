import 'fake-indexeddb/auto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { browserPages } from '../../src/shelf/browserPages.ts';
import { EVENTS_A_RUN, eventsIn, inRuns, type StoredEvents } from '../../src/shelf/eventRuns.ts';
import { memoryPages } from '../../src/shelf/memoryPages.ts';
import { copyFiles } from '../../src/shelf/copyFiles.ts';
import { jobFileOf, type Shelf } from '../../src/shelf/index.ts';
import type { Result } from '../../src/measure/index.ts';
import { EVENTS_A_PART, type EventRow, type Pages } from '../../src/shelf/pages.ts';
import type { SecondCopy } from '../../src/shelf/secondCopy.ts';
import { shelfOver } from '../../src/shelf/shelfOver.ts';
import { memoryFolder } from './copies.ts';
import { golden, plan, reading } from './sample.ts';

const event = (seq: number, text = `{"seq":${seq}}`): EventRow => ({
  job: 'job-1',
  seq,
  id: `id-${seq}`,
  text,
  digest: `digest-${seq}`,
});
const events = (from: number, count: number): EventRow[] => Array.from({ length: count }, (_, index) => event(from + index));
const lettersOf = (row: StoredEvents): number => ('texts' in row ? row.texts.join('').length : row.text.length);

describe('events in runs', () => {
  it('come out as they went in, in rows that Chromium keeps in its database (seed 61)', () => {
    const texts = fc.array(
      fc.oneof(
        fc.string({ maxLength: 30 }),
        fc.nat(30_000).map((letters) => 'ü'.repeat(letters)),
      ),
      { maxLength: 200 },
    );
    fc.assert(
      fc.property(texts, (all) => {
        const given = all.map((text, index) => event(index + 1, text));
        const rows = inRuns(given);
        expect(rows.flatMap(eventsIn)).toEqual(given);
        for (const row of rows) {
          expect(eventsIn(row).length).toBeLessThanOrEqual(EVENTS_A_RUN);
          // Twice as many bytes, and the ids and digests of all, stay under 64 KiB; only one event by itself may be longer.
          if ('texts' in row) expect(lettersOf(row)).toBeLessThanOrEqual(24_000);
        }
      }),
      { seed: 61, numRuns: 100 },
    );
  });

  it.each([
    ['a run', 3 * EVENTS_A_RUN + 7, 4],
    ['one event', 1, 1],
    ['none', 0, 0],
  ])('%s of %i events lies in %i rows', (_what, count, rows) => {
    expect(inRuns(events(1, count))).toHaveLength(rows);
  });

  it.each([
    ['whose lists are of different lengths', { digests: ['digest-1'] }, [1, 2, 3], undefined],
    ['one of whose lists is gone', { texts: null }, [1], undefined],
  ])('that are damaged, %s, are events that no checksum holds for', (_what, damage, numbers, digest) => {
    const row = { ...inRuns(events(1, 3))[0], ...damage } as unknown as StoredEvents;
    expect(eventsIn(row).map(({ seq }) => seq)).toEqual(numbers);
    expect(eventsIn(row).at(-1)?.digest).toBe(digest);
  });
});

/** What is done to a log; numbers are taken within what is there. */
type Deed = { readonly does: 'append' | 'add' | 'cut'; readonly number: number };
const deed: fc.Arbitrary<Deed> = fc.record({
  does: fc.constantFrom('append', 'add', 'add', 'cut'),
  number: fc.nat(2 * EVENTS_A_PART),
});
let databases = 0;

async function lying(pages: Pages, deeds: readonly Deed[]): Promise<unknown> {
  let end = 0;
  for (const { does, number } of deeds)
    await pages.transact('write', ['events'], async (open) => {
      if (does === 'append') await open.add('events', event(++end));
      else if (does === 'add') {
        await open.addEvents(events(end + 1, number));
        end += number;
      } else {
        end = Math.min(end, number);
        await open.cutAfter('job-1', end);
      }
    });
  return await pages.transact('read', ['events'], async (open) => {
    const found: EventRow[] = [];
    await open.eachPart('job-1', (part) => found.push(...part));
    expect(found).toEqual(events(1, end));
    return await Promise.all([0, 1, 2, end >> 1, end - 1, end, end + 1].map((seq) => open.get('events', ['job-1', seq])));
  });
}

describe('a log of runs and single events', () => {
  it('reads and is found by number as one of single events, whatever was added and cut off (seed 62)', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(deed, { maxLength: 6 }), async (deeds) => {
        databases += 1;
        expect(await lying(browserPages(`runs-${databases}`), deeds)).toEqual(await lying(memoryPages(), deeds));
      }),
      { seed: 62, numRuns: 25 },
    );
  });

  it('refuses a number that is taken, and the whole transaction with it', async () => {
    databases += 1;
    const pages = browserPages(`runs-${databases}`);
    await pages.transact('write', ['events'], (open) => open.addEvents(events(1, 10)));
    await expect(pages.transact('write', ['events'], (open) => open.addEvents(events(1, 10)))).rejects.toThrow();
    expect(await pages.transact('read', ['events'], (open) => open.get('events', ['job-1', 10]))).toEqual(event(10));
  });

  it('is read past numbers that are missing', async () => {
    databases += 1;
    const pages = browserPages(`runs-${databases}`);
    const gapped = [...events(1, 3), ...events(7, 2), ...events(9 + 3 * EVENTS_A_PART, 2)];
    await pages.transact('write', ['events'], async (open) => {
      for (const row of gapped) await open.add('events', row);
    });
    const found: EventRow[] = [];
    await pages.transact('read', ['events'], (open) => open.eachPart('job-1', (part) => found.push(...part)));
    expect(found).toEqual(gapped);
  });
});

async function value<T>(result: Promise<Result<T, unknown>>): Promise<T> {
  const got = await result;
  if (!got.ok) throw new Error(`refused: ${JSON.stringify(got.error)}`);
  return got.value;
}
const done = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error('refused'));
  });
const seqs = (count: number): number[] => Array.from({ length: count }, (_, index) => index + 1);

/** A store of its own, its database to be changed behind its back while it is closed, and opened again as after a reload. */
function store(copy: SecondCopy | null): {
  readonly opened: () => Shelf;
  readonly altered: (from: number, at: number) => Promise<void>;
} {
  databases += 1;
  const name = `runs-${databases}`;
  return {
    opened: () => shelfOver(browserPages(name), () => 0, copy),
    async altered(from, at) {
      const opening = indexedDB.open(name);
      const db = await done(opening);
      const page = db.transaction('events', 'readwrite').objectStore('events');
      const row = (await done(page.get(['job-1', from]))) as { readonly texts: readonly string[] };
      const texts = row.texts.map((text, index) => (index === at ? text.replace('micrometer', 'caliper') : text));
      await done(page.put({ ...row, texts }));
      db.close();
    },
  };
}

describe('a run that was altered in the database', () => {
  const file = jobFileOf({ id: 'job-1', startedAt: 0, plan, events: seqs(120).map((seq) => reading(seq)) });

  it('is set aside from the very event on, and the job goes on before it', async () => {
    const { opened, altered } = store(null);
    await value(opened().take(file, { newId: 'none', at: 0 }));
    await altered(EVENTS_A_RUN + 1, 19);
    const shelf = opened();
    const [from, setAside] = [EVENTS_A_RUN + 20, 120 - EVENTS_A_RUN - 19];
    const job = await value(shelf.open('job-1'));
    expect(job.events.map(({ seq }) => seq)).toEqual(seqs(from - 1));
    expect(job.damage).toEqual([{ key: 'tail-set-aside', cause: 'altered', from, setAside, sound: setAside - 1, lost: 0 }]);
    expect((await value(shelf.setAside('job-1'))).map(({ seq }) => seq)).toEqual(seqs(120).slice(from - 1));
    await value(shelf.append('job-1', reading(from, 'after')));
    const again = await value(opened().open('job-1'));
    expect(again.events.at(-1)?.id).toBe('after');
    expect(again).toMatchObject({ damage: [], nextSeq: from + 1 });
  });

  it('is put back from the second copy', async () => {
    const { opened, altered } = store(copyFiles(memoryFolder()));
    await value(opened().take(file, { newId: 'none', at: 0 }));
    await altered(1, 3);
    const shelf = opened();
    const job = await value(shelf.open('job-1'));
    expect(job.events).toEqual(file.events);
    expect(job.damage).toMatchObject([{ key: 'put-back', events: 1, whole: false }]);
    expect((await value(opened().open('job-1'))).damage).toEqual([]);
  });
});

describe('a database of the version before runs', () => {
  it('is opened as it is, and goes on', async () => {
    databases += 1;
    const name = `runs-${databases}`;
    // The rows of that version are those of this one where each event came by itself.
    const made = browserPages(name);
    const before = shelfOver(made, () => 0);
    await value(before.start('job-1', golden.plan, 0));
    await value(before.append('job-1', reading(1)));
    const rows = new Map<string, unknown[]>();
    const db = await done(indexedDB.open(name));
    const names = [...db.objectStoreNames];
    for (const page of names) rows.set(page, await done(db.transaction(page).objectStore(page).getAll()));
    db.close();
    await made.wipe();
    const opening = indexedDB.open(name, 1);
    opening.onupgradeneeded = () => {
      const keys: Record<string, string | string[]> = {
        jobs: 'id',
        heads: 'job',
        events: ['job', 'seq'],
        clips: ['job', 'clip'],
        settings: 'name',
        setAside: ['job', 'no'],
      };
      for (const page of names) {
        const into = opening.result.createObjectStore(page, { keyPath: keys[page] ?? '' });
        if (page === 'events') into.createIndex('byId', ['job', 'id'], { unique: true });
        rows.get(page)?.forEach((row) => into.add(row));
      }
    };
    (await done(opening)).close();

    const shelf = shelfOver(browserPages(name), () => 0);
    expect(await value(shelf.open('job-1'))).toMatchObject({ events: [reading(1)], damage: [], nextSeq: 2 });
    await value(shelf.append('job-1', reading(2)));
    expect((await value(shelf.open('job-1'))).events).toHaveLength(2);
  });
});
