import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Result } from '../../src/measure/index.ts';
import { memoryShelf, writeEvent, type Shelf } from '../../src/shelf/index.ts';
import { copyFiles } from '../../src/shelf/copyFiles.ts';
import { logIn, readRecords, writeRecords, type CopyRecord } from '../../src/shelf/copyRecords.ts';
import { memoryPages } from '../../src/shelf/memoryPages.ts';
import type { EventRow, Pages } from '../../src/shelf/pages.ts';
import { shelfOver } from '../../src/shelf/shelfOver.ts';
import { memoryFolder, type MemoryFolder } from './copies.ts';
import { seeded } from '../seeded.ts';
import { golden, plan, reading } from './sample.ts';

const FOUND_AT = 1_760_000_000_000;

/** A store and its second copy, each of which a test may damage; `reopened` is the page after a reload. */
type Bench = { pages: Pages; readonly folder: MemoryFolder; reopened(): Shelf };
function bench(): Bench {
  const made: Bench = {
    pages: memoryPages(),
    folder: memoryFolder(),
    reopened: () => shelfOver(made.pages, () => FOUND_AT, copyFiles(made.folder)),
  };
  return made;
}
async function value<T>(result: Promise<Result<T, unknown>>): Promise<T> {
  const got = await result;
  if (!got.ok) throw new Error(`refused: ${JSON.stringify(got.error)}`);
  return got.value;
}
async function withReadings(on: Bench, count: number): Promise<Shelf> {
  const shelf = on.reopened();
  await value(shelf.start('job-1', plan, 1000));
  for (let seq = 1; seq <= count; seq += 1) await value(shelf.append('job-1', reading(seq)));
  return shelf;
}
const readings = (count: number) => Array.from({ length: count }, (_, index) => reading(index + 1));
const change = (on: Bench, seq: number, to: (row: EventRow) => EventRow | null): Promise<void> =>
  on.pages.transact('write', ['events'], async (open) => {
    const row = await open.get('events', ['job-1', seq]);
    const changed = row === undefined ? null : to(row);
    if (changed === null) await open.remove('events', ['job-1', seq]);
    else await open.put('events', changed);
  });
const copiedEvents = (on: Bench): number =>
  logIn(readRecords(on.folder.files.get('job-1') ?? new Uint8Array()).records)?.events.length ?? 0;

describe('the lines of a copy', () => {
  const records: readonly CopyRecord[] = [
    ...readings(5).map((event) => ({ is: 'event', seq: event.seq, text: writeEvent(event), digest: `d${event.seq}` }) as const),
    { is: 'clip', clip: 'memo-ü', wav: 'AAEC' },
  ];
  const bytes = writeRecords(records);

  it('read as they were written', () => {
    expect(readRecords(bytes)).toEqual({ records, end: bytes.length });
  });

  it('cut off at any byte, hold up to the last whole line', () => {
    for (let size = 0; size < bytes.length; size += 1) {
      const { records: held, end } = readRecords(bytes.slice(0, size));
      expect(held).toEqual(records.slice(0, held.length));
      expect(end).toBe(writeRecords(held).length);
      expect(size - end).toBeLessThan(writeRecords(records.slice(held.length, held.length + 1)).length);
    }
  });

  it('with any byte changed, one line or two are left out and no other is touched (seed 31)', () => {
    fc.assert(
      fc.property(fc.nat(bytes.length - 1), fc.integer({ min: 1, max: 255 }), (at, by) => {
        const changed = bytes.slice();
        changed[at] = (changed[at] ?? 0) ^ by;
        const held = readRecords(changed).records;
        expect(records).toEqual(expect.arrayContaining([...held]));
        expect(held.length).toBeGreaterThanOrEqual(records.length - 2);
        expect(held.length).toBeLessThan(records.length);
      }),
      { seed: 31, numRuns: 300 },
    );
  });

  it('a replacement counts only when all of it is there', () => {
    const job = {
      is: 'job',
      job: { id: 'j', startedAt: 0, version: 2, plan: '{}', rest: '{}', digest: 'd', origin: null },
    } as const;
    const event = (seq: number, digest: string) => ({ is: 'event', seq, text: '{}', digest }) as const;
    const whole: CopyRecord[] = [
      job,
      event(1, 'a'),
      event(2, 'b'),
      { is: 'replaced', from: 2, count: 2 },
      event(2, 'c'),
      event(3, 'd'),
    ];
    const digests = (of: readonly CopyRecord[]) => logIn(of)?.events.map(({ digest }) => digest);
    expect(digests(whole)).toEqual(['a', 'c', 'd']);
    expect(digests(whole.slice(0, -1))).toEqual(['a', 'b']);
    expect(digests(whole.slice(1))).toBeUndefined();
  });
});

describe('a log that is kept twice', () => {
  it('has every event that was acknowledged in both', async () => {
    const on = bench();
    const shelf = await withReadings(on, 4);
    expect(copiedEvents(on)).toBe(4);
    expect(shelf.secondCopy()).toEqual({ as: 'kept' });
    expect(memoryShelf(() => 0).secondCopy()).toEqual({ as: 'none' });
  });

  it('comes back whole when the database is gone, and that is told once', async () => {
    const on = bench();
    const shelf = await withReadings(on, 6);
    await value(shelf.keepClip('job-1', 'memo-1', Uint8Array.of(1, 2, 3)));
    await value(shelf.take(golden, { newId: 'unused', at: 5 }));
    on.pages = memoryPages();
    const after = on.reopened();
    expect(await value(after.jobs())).toMatchObject([
      { id: 'golden-axle-1', events: 19 },
      { id: 'job-1', events: 6 },
    ]);
    const job = await value(after.open('job-1'));
    expect(job.events).toEqual(readings(6));
    expect(job.damage).toEqual([{ key: 'put-back', events: 6, plan: true, whole: true, setAside: 0 }]);
    expect(await value(after.clip('job-1', 'memo-1'))).toEqual(Uint8Array.of(1, 2, 3));
    expect((await value(after.open('job-1'))).damage).toEqual([]);
    // The file that it came from is known as before.
    expect(await value(after.take({ ...golden, job: null }, { newId: 'again', at: 5 }))).toMatchObject({ as: 'already-here' });
    await value(after.append('job-1', reading(7)));
    expect((await value(on.reopened().open('job-1'))).events).toHaveLength(7);
  });

  it('a job that is opened before the list was read comes back too', async () => {
    const on = bench();
    await withReadings(on, 2);
    on.pages = memoryPages();
    expect((await value(on.reopened().open('job-1'))).events).toHaveLength(2);
  });

  const spoiled = (row: EventRow): EventRow => ({ ...row, text: row.text.replace('reading', 'rEading') });
  const damages: readonly [string, number, (row: EventRow) => EventRow | null, { events: number; setAside: number }][] = [
    ['a changed letter', 4, spoiled, { events: 1, setAside: 1 }],
    ['a missing event', 3, () => null, { events: 1, setAside: 0 }],
    ['a missing first event', 1, () => null, { events: 1, setAside: 0 }],
    ['a missing last event', 6, () => null, { events: 1, setAside: 0 }],
    ['a text that is gone', 2, (row) => ({ ...row, text: undefined as unknown as string }), { events: 1, setAside: 1 }],
  ];
  it.each(damages)('%s (event %i) is put back', async (_name, seq, to, expected) => {
    const on = bench();
    await withReadings(on, 6);
    await change(on, seq, to);
    const job = await value(on.reopened().open('job-1'));
    expect(job.events).toEqual(readings(6));
    expect(job.damage).toEqual([{ key: 'put-back', plan: false, whole: false, ...expected }]);
    expect(job.setAside).toBe(expected.setAside);
    expect((await value(on.reopened().open('job-1'))).damage).toEqual([]);
  });

  it('a changed plan is put back', async () => {
    const on = bench();
    await withReadings(on, 2);
    await on.pages.transact('write', ['jobs'], async (open) => {
      const row = await open.get('jobs', 'job-1');
      if (row !== undefined) await open.put('jobs', { ...row, plan: row.plan.replace('"4in"', '4') });
    });
    const job = await value(on.reopened().open('job-1'));
    expect(job.plan).toEqual(plan);
    expect(job.damage).toEqual([{ key: 'put-back', events: 0, plan: true, whole: false, setAside: 0 }]);
  });

  it('the copy is filled again when it was cut off at any byte, or lost', async () => {
    const on = bench();
    await withReadings(on, 3);
    const whole = on.folder.files.get('job-1') ?? new Uint8Array();
    for (let size = 0; size <= whole.length; size += 97) {
      on.folder.files.set('job-1', whole.slice(0, size));
      const job = await value(on.reopened().open('job-1'));
      expect(job.damage).toEqual([]);
      expect(copiedEvents(on)).toBe(3);
    }
    on.folder.files.clear();
    await value(on.reopened().append('job-1', reading(4)));
    expect(copiedEvents(on)).toBe(4);
  });

  it('a database that went back by an event, as when the power went while it wrote, goes on from the copy', async () => {
    const on = bench();
    const head = () => on.pages.transact('read', ['heads'], (open) => open.get('heads', 'job-1'));
    const shelf = await withReadings(on, 2);
    const before = await head();
    await value(shelf.append('job-1', reading(3)));
    await change(on, 3, () => null);
    if (before !== undefined) await on.pages.transact('write', ['heads'], (open) => open.put('heads', before));
    const job = await value(on.reopened().open('job-1'));
    expect(job.events).toEqual(readings(3));
    expect(job.damage).toMatchObject([{ key: 'put-back', events: 1 }]);
  });

  it('goes on with one copy when the second cannot be written, and says so until it can', async () => {
    const on = bench();
    const shelf = await withReadings(on, 2);
    on.folder.refuses = 'disk-full';
    await value(shelf.append('job-1', reading(3)));
    expect(shelf.secondCopy()).toMatchObject({ as: 'failing', reason: 'disk-full' });
    on.folder.refuses = null;
    await value(shelf.append('job-1', reading(4)));
    expect(shelf.secondCopy()).toEqual({ as: 'kept' });
    expect(copiedEvents(on)).toBe(4);
  });

  it('a merge reaches the copy, and one that did not is made up for', async () => {
    const on = bench();
    const shelf = await withReadings(on, 3);
    const other = memoryShelf(() => 0);
    await value(other.take(await value(shelf.copy('job-1')), { newId: 'unused', at: 5 }));
    await value(other.append('job-1', reading(4, 'there', 1_750_000_000_010)));
    await value(shelf.append('job-1', reading(4, 'here', 1_750_000_000_020)));
    const before = on.folder.files.get('job-1') ?? new Uint8Array();
    expect(await value(shelf.take(await value(other.copy('job-1')), { newId: 'unused', at: 5 }))).toMatchObject({ as: 'merged' });
    expect(copiedEvents(on)).toBe(5);
    on.folder.files.set('job-1', before);
    const job = await value(on.reopened().open('job-1'));
    expect(job.events.map(({ id }) => id)).toEqual(['e-1', 'e-2', 'e-3', 'there', 'here']);
    expect(copiedEvents(on)).toBe(5);
    on.pages = memoryPages();
    expect((await value(on.reopened().open('job-1'))).events.map(({ id }) => id)).toEqual(['e-1', 'e-2', 'e-3', 'there', 'here']);
  });

  it('two windows: the one that did not write reads both, and the numbering guards them', async () => {
    const on = bench();
    const [here, there] = [await withReadings(on, 2), on.reopened()];
    await value(here.append('job-1', reading(3)));
    expect((await value(there.open('job-1'))).events).toHaveLength(3);
    await value(there.append('job-1', reading(4)));
    await value(here.append('job-1', reading(5)));
    expect(copiedEvents(on)).toBe(5);
  });

  it('wiping takes both', async () => {
    const on = bench();
    const shelf = await withReadings(on, 2);
    await value(shelf.wipe());
    expect(on.folder.files.size).toBe(0);
    expect(await value(on.reopened().jobs())).toEqual([]);
  });

  it('whatever one of the two loses, nothing is missing after 200 losses (seed 32)', async () => {
    const pick = seeded(32);
    const on = bench();
    await withReadings(on, 1);
    let count = 1;
    for (let loss = 0; loss < 200; loss += 1) {
      const shelf = on.reopened();
      const opened = await value(shelf.open('job-1'));
      expect(opened.events).toEqual(readings(count));
      for (let more = pick(4); more > 0; more -= 1) await value(shelf.append('job-1', reading((count += 1))));
      const kind = pick(6);
      const file = on.folder.files.get('job-1') ?? new Uint8Array();
      const at = pick(file.length);
      if (kind === 0) on.pages = memoryPages();
      else if (kind === 1) await change(on, 1 + pick(count), () => null);
      else if (kind === 2) await change(on, 1 + pick(count), spoiled);
      else if (kind === 3) on.folder.files.set('job-1', file.slice(0, at));
      else if (kind === 4)
        on.folder.files.set(
          'job-1',
          file.map((byte, index) => (index === at ? byte ^ 1 : byte)),
        );
      else on.folder.files.clear();
    }
  });
});
