import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import type { Result } from '../../src/measure/index.ts';
import type { Shelf } from '../../src/shelf/index.ts';
import { readJobFile, writeJobFile } from '../../src/shelf/index.ts';
import { browserPages } from '../../src/shelf/browserPages.ts';
import { memoryPages } from '../../src/shelf/memoryPages.ts';
import type { EventRow, Pages } from '../../src/shelf/pages.ts';
import { shelfOver } from '../../src/shelf/shelfOver.ts';
import { golden, goldenText, plan, read, reading } from './sample.ts';

const FOUND_AT = 1_760_000_000_000;
let databases = 0;

/** A store that can be opened again, as after a reload, and tampered with, as a failing disk does. */
type Bench = { readonly pages: Pages; reopened(): Shelf };
const kinds: readonly [string, () => Bench][] = [
  ['memory', () => {
    const pages = memoryPages();
    return { pages, reopened: () => shelfOver(pages, () => FOUND_AT) };
  }],
  ['IndexedDB', () => {
    databases += 1;
    const name = `shelf-${databases}`;
    return { pages: browserPages(name), reopened: () => shelfOver(browserPages(name), () => FOUND_AT) };
  }],
];

async function value<T>(result: Promise<Result<T, unknown>>): Promise<T> {
  const got = await result;
  if (!got.ok) throw new Error(`refused: ${JSON.stringify(got.error)}`);
  return got.value;
}
async function fault(result: Promise<Result<unknown, unknown>>): Promise<unknown> {
  const got = await result;
  if (got.ok) throw new Error(`not refused: ${JSON.stringify(got.value)}`);
  return got.error;
}

async function withReadings(bench: Bench, count: number): Promise<Shelf> {
  const shelf = bench.reopened();
  await value(shelf.start('job-1', plan, 1000));
  for (let seq = 1; seq <= count; seq += 1) await value(shelf.append('job-1', reading(seq)));
  return shelf;
}

const tamper = (bench: Bench, seq: number, change: (row: EventRow) => EventRow | null): Promise<void> =>
  bench.pages.transact('write', ['events'], async (open) => {
    const row = await open.get('events', ['job-1', seq]);
    const changed = row === undefined ? null : change(row);
    if (changed === null) await open.remove('events', ['job-1', seq]);
    else await open.put('events', changed);
  });

describe.each(kinds)('shelf in %s', (_kind, makeBench) => {
  it('gives back after reopening what was appended', async () => {
    const bench = makeBench();
    await withReadings(bench, 5);
    const job = await value(bench.reopened().open('job-1'));
    expect(job.plan).toEqual(plan);
    expect(job.events).toEqual([1, 2, 3, 4, 5].map((seq) => reading(seq)));
    expect(job).toMatchObject({ id: 'job-1', startedAt: 1000, nextSeq: 6, damage: [], setAside: 0, unknown: [] });
  });

  it('lists the jobs with their number of events and last change', async () => {
    const shelf = await withReadings(makeBench(), 3);
    await value(shelf.start('job-2', plan, 2000));
    const jobs = await value(shelf.jobs());
    expect(jobs).toEqual([
      { id: 'job-1', title: plan.title, invented: true, startedAt: 1000, changedAt: reading(3).at, events: 3 },
      { id: 'job-2', title: plan.title, invented: true, startedAt: 2000, changedAt: 2000, events: 0 },
    ]);
  });

  it.each([2, 5, 7])('refuses event %i where 4 is due, and stores nothing', async (seq) => {
    const bench = makeBench();
    const shelf = await withReadings(bench, 3);
    const outOfOrder = { key: 'out-of-order', job: 'job-1', expected: 4, got: seq, lastAt: reading(3).at };
    expect(await fault(shelf.append('job-1', reading(seq, 'other')))).toEqual(outOfOrder);
    expect((await value(bench.reopened().open('job-1'))).events).toHaveLength(3);
  });

  it('takes an event that does not fit its schema for a bug of ours', async () => {
    const shelf = await withReadings(makeBench(), 3);
    expect(() => shelf.append('job-1', reading(0))).toThrow('Broken invariant');
  });

  it('takes the same event twice as one', async () => {
    const bench = makeBench();
    const shelf = await withReadings(bench, 3);
    await value(shelf.append('job-1', reading(3)));
    await value(shelf.append('job-1', reading(2)));
    expect((await value(bench.reopened().open('job-1'))).events).toHaveLength(3);
  });

  it('of two windows that append the same number one is refused', async () => {
    const bench = makeBench();
    await withReadings(bench, 3);
    const both = await Promise.all([bench.reopened().append('job-1', reading(4, 'here')), bench.reopened().append('job-1', reading(4, 'there'))]);
    expect(both.filter((one) => one.ok)).toHaveLength(1);
    expect((await value(bench.reopened().open('job-1'))).events).toHaveLength(4);
  });

  it('refuses unknown and doubled jobs', async () => {
    const shelf = await withReadings(makeBench(), 1);
    expect(await fault(shelf.open('nowhere'))).toEqual({ key: 'no-such-job', job: 'nowhere' });
    expect(await fault(shelf.append('nowhere', reading(1)))).toEqual({ key: 'no-such-job', job: 'nowhere' });
    expect(await fault(shelf.keepClip('nowhere', 'memo', new Uint8Array(1)))).toEqual({ key: 'no-such-job', job: 'nowhere' });
    expect(await fault(shelf.copy('nowhere'))).toEqual({ key: 'no-such-job', job: 'nowhere' });
    expect(await fault(shelf.start('job-1', plan, 5000))).toEqual({ key: 'job-exists', job: 'job-1' });
    expect((await value(shelf.open('job-1'))).events).toHaveLength(1);
  });

  it('keeps clips and settings', async () => {
    const bench = makeBench();
    const shelf = await withReadings(bench, 1);
    await value(shelf.keepClip('job-1', 'memo-1', Uint8Array.of(1, 2, 3)));
    await value(shelf.keepSetting('unit', { show: 'inch' }));
    const again = bench.reopened();
    expect(await value(again.clip('job-1', 'memo-1'))).toEqual(Uint8Array.of(1, 2, 3));
    expect(await value(again.clip('job-1', 'memo-2'))).toBeNull();
    expect(await value(again.setting('unit'))).toEqual({ show: 'inch' });
    expect(await value(again.setting('other'))).toBeNull();
  });

  it('wipes everything', async () => {
    const bench = makeBench();
    const shelf = await withReadings(bench, 1);
    await value(shelf.wipe());
    expect(await value(shelf.jobs())).toEqual([]);
  });

  const spoiled = (row: EventRow): EventRow => ({ ...row, text: row.text.replace('reading', 'rEading') });
  const damages: readonly [string, number, (row: EventRow) => EventRow | null, object, number][] = [
    ['a changed letter', 4, spoiled, { key: 'tail-set-aside', cause: 'altered', from: 4, setAside: 3, sound: 2, lost: 0 }, 3],
    ['a changed letter in the last event', 6, spoiled, { key: 'tail-set-aside', cause: 'altered', from: 6, setAside: 1, sound: 0, lost: 0 }, 5],
    ['a changed digest', 4, (row) => ({ ...row, digest: row.digest.replace(/^./, 'x') }), { key: 'tail-set-aside', cause: 'altered', from: 4, setAside: 3, sound: 1, lost: 0 }, 3],
    ['a text that is gone', 2, (row) => ({ ...row, text: undefined as unknown as string }), { key: 'tail-set-aside', cause: 'altered', from: 2, setAside: 5, sound: 4, lost: 0 }, 1],
    ['a missing event', 3, () => null, { key: 'tail-set-aside', cause: 'gap', from: 3, setAside: 3, sound: 2, lost: 1 }, 2],
    ['a missing first event', 1, () => null, { key: 'tail-set-aside', cause: 'gap', from: 1, setAside: 5, sound: 4, lost: 1 }, 0],
    ['a missing last event', 6, () => null, { key: 'cut-short', from: 6, lost: 1 }, 5],
  ];
  it.each(damages)('finds %s (event %i), sets the tail aside and goes on', async (_name, seq, change, expected, good) => {
    const bench = makeBench();
    await withReadings(bench, 6);
    await tamper(bench, seq, change);
    let stored = 0;
    await bench.pages.transact('read', ['events'], (open) =>
      open.eachPart('job-1', (events) => {
        stored += events.length;
      }),
    );
    const shelf = bench.reopened();
    const job = await value(shelf.open('job-1'));
    expect(job.damage).toEqual([expected]);
    expect(job.events).toEqual([1, 2, 3, 4, 5, 6].slice(0, good).map((number) => reading(number)));
    // Nothing is dropped: what was in the store is in the log or lies aside.
    expect(job.events.length + job.setAside).toBe(stored);
    const aside = await value(shelf.setAside('job-1'));
    expect(aside.map((event) => event.foundAt)).toEqual(aside.map(() => FOUND_AT));
    // The next opening is sound, and the log can be written on.
    await value(shelf.append('job-1', reading(good + 1, 'after')));
    const again = await value(bench.reopened().open('job-1'));
    expect(again.damage).toEqual([]);
    expect(again.setAside).toBe(job.setAside);
    expect(again.events).toHaveLength(good + 1);
  });

  it('reports a changed plan and opens all the same', async () => {
    const bench = makeBench();
    await withReadings(bench, 2);
    await bench.pages.transact('write', ['jobs'], async (open) => {
      const row = await open.get('jobs', 'job-1');
      if (row !== undefined) await open.put('jobs', { ...row, plan: row.plan.replace('Mild steel', 'Mild steem') });
    });
    const job = await value(bench.reopened().open('job-1'));
    expect(job.damage).toEqual([{ key: 'plan-altered' }]);
    expect(job.events).toHaveLength(2);
  });

  it('says which part of a plan cannot be read', async () => {
    const bench = makeBench();
    await withReadings(bench, 2);
    await bench.pages.transact('write', ['jobs'], async (open) => {
      const row = await open.get('jobs', 'job-1');
      if (row !== undefined) await open.put('jobs', { ...row, plan: row.plan.replace('"4in"', '4') });
    });
    expect(await fault(bench.reopened().open('job-1'))).toMatchObject({ key: 'unreadable', job: 'job-1', path: 'plan.part.stock.length' });
  });

  it('makes a lost line of the list anew', async () => {
    const bench = makeBench();
    await withReadings(bench, 2);
    await bench.pages.transact('write', ['heads'], (open) => open.remove('heads', 'job-1'));
    const shelf = bench.reopened();
    expect((await value(shelf.open('job-1'))).damage).toEqual([{ key: 'list-line-mended' }]);
    expect(await value(shelf.jobs())).toMatchObject([{ id: 'job-1', events: 2, changedAt: reading(2).at }]);
  });

  it('exports what an import takes in, the same text again', async () => {
    const shelf = makeBench().reopened();
    expect(await value(shelf.take(golden, { newId: 'unused', at: 5 }))).toEqual({ as: 'new', id: 'golden-axle-1' });
    const copy = await value(shelf.copy('golden-axle-1'));
    expect(copy).toEqual({ ...golden, olderPlan: null });
    expect(writeJobFile(copy)).toBe(writeJobFile(golden));
    expect((await value(shelf.open('golden-axle-1'))).damage).toEqual([]);
  });

  it('recognises the same file, an older and a newer copy of it', async () => {
    const shelf = makeBench().reopened();
    const kept = { ...golden.kept, events: golden.kept.events.slice(0, 7) };
    const older = { ...golden, events: golden.events.slice(0, 7), kept };
    const at = { newId: 'spare', at: 5 };
    expect(await value(shelf.take(older, at))).toEqual({ as: 'new', id: 'golden-axle-1' });
    expect(await value(shelf.take(golden, at))).toEqual({ as: 'continued', id: 'golden-axle-1', added: 12 });
    expect(await value(shelf.take(golden, at))).toEqual({ as: 'already-here', id: 'golden-axle-1', newer: 0 });
    expect(await value(shelf.take(older, at))).toEqual({ as: 'already-here', id: 'golden-axle-1', newer: 12 });
    expect((await value(shelf.copy('golden-axle-1'))).kept).toEqual(golden.kept);
    expect(await value(shelf.jobs())).toHaveLength(1);
  });

  it('takes a file whose job has gone another way as a copy, once', async () => {
    const shelf = makeBench().reopened();
    await value(shelf.take(golden, { newId: 'unused', at: 5 }));
    const other = read(goldenText.replace('"celsius":31.5', '"celsius":32.5'));
    expect(await value(shelf.take(other, { newId: 'copy-1', at: 5 }))).toEqual({ as: 'copy', id: 'copy-1', of: 'golden-axle-1' });
    expect(await value(shelf.take(other, { newId: 'copy-2', at: 5 }))).toEqual({ as: 'already-here', id: 'copy-1', newer: 0 });
    expect((await value(shelf.copy('golden-axle-1'))).kept).toEqual(golden.kept);
    expect((await value(shelf.copy('copy-1'))).kept).toEqual(other.kept);
  });

  it('starts a job from a file that names none', async () => {
    const shelf = makeBench().reopened();
    const demo = { ...golden, job: null, startedAt: null };
    expect(await value(shelf.take(demo, { newId: 'mine', at: 77 }))).toEqual({ as: 'new', id: 'mine' });
    expect((await value(shelf.open('mine'))).startedAt).toBe(77);
  });

  it('keeps fields and events that this build does not know', async () => {
    const shelf = makeBench().reopened();
    const text = goldenText
      .replace('"material": "Mild steel"', '"material": "Mild steel",\n        "heatTreatment": "none"')
      .replace('"events": [', '"shop": {\n    "bench": 3\n  },\n  "events": [')
      .replace('"type":"TouchedOff"', '"type":"CoolantTurnedOn"')
      .replace('"v":1,"body":{"type":"DialZeroed"', '"v":2,"body":{"type":"DialZeroed"');
    const file = read(text);
    expect(file.notices.map((notice) => [notice.key, notice.path])).toEqual([
      ['unknown-field', ['shop']],
      ['unknown-field', ['plan', 'part', 'stock', 'heatTreatment']],
      ['unknown-event', ['events', 4]],
      ['unknown-event', ['events', 5]],
    ]);
    await value(shelf.take(file, { newId: 'unused', at: 5 }));
    const job = await value(shelf.open('golden-axle-1'));
    expect(job.unknown).toMatchObject([
      { seq: 5, type: 'CoolantTurnedOn', why: 'unknown-type' },
      { seq: 6, type: 'DialZeroed', v: 2, why: 'newer-version' },
    ]);
    expect(job.events).toHaveLength(17);
    expect(job.nextSeq).toBe(20);
    const again = readJobFile(writeJobFile(await value(shelf.copy('golden-axle-1'))));
    expect(again.ok && again.value.kept).toEqual(file.kept);
    expect(again.ok && again.value.notices).toEqual(file.notices);
  });
});

it('a full store refuses the event and keeps what was there', async () => {
  const pages = memoryPages(5);
  const shelf = shelfOver(pages, () => FOUND_AT);
  await value(shelf.start('job-1', plan, 1000));
  for (const seq of [1, 2, 3]) await value(shelf.append('job-1', reading(seq)));
  expect(await fault(shelf.append('job-1', reading(4)))).toEqual({ key: 'disk-full', job: 'job-1' });
  expect((await value(shelf.open('job-1'))).events).toHaveLength(3);
});
