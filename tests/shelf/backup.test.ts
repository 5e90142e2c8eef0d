import { describe, expect, it } from 'vitest';
import {
  backUp,
  describeBackupFault,
  describeRestored,
  describeRestoring,
  folderOf,
  jobFileOf,
  memoryShelf,
  MOST_FILE_LENGTH,
  openLog,
  readJobFile,
  restore,
  tooLarge,
  writeJobFile,
  type BackupFolder,
} from '../../src/shelf/index.ts';
import { golden, goldenText, plan, reading } from './sample.ts';

/** A folder in memory that may refuse; `texts` is what lies in it. */
function folder(texts = new Map<string, string>(), mood = { allowed: true, broken: false }): BackupFolder {
  const wholly = <T>(value: T): Promise<T> =>
    mood.broken ? Promise.reject(new Error('the stick was pulled out')) : Promise.resolve(value);
  return {
    name: 'stick',
    allowed: () => Promise.resolve(mood.allowed),
    ask: () => Promise.resolve((mood.allowed = true)),
    write: async (name, text) => void (await wholly(texts.set(name, text))),
    files: () => wholly([...texts].map(([name, text]) => ({ name, size: text.length, text: () => Promise.resolve(text) }))),
  };
}

/** As the page restores, without a pause and without telling. */
const START = { newId: () => 'new', at: 0, pause: () => Promise.resolve(), far: () => undefined };

describe('a backup in a folder', () => {
  it('holds the whole job, and gives it back to an empty device', async () => {
    const shelf = memoryShelf(() => 0);
    await shelf.take(golden, { newId: 'unused', at: 0 });
    const texts = new Map<string, string>();
    expect(await backUp(shelf, folder(texts), 'golden-axle-1')).toEqual({
      ok: true,
      value: { events: golden.kept.events.length },
    });
    // A second backup takes the place of the first.
    await shelf.append('golden-axle-1', reading(golden.kept.events.length + 1, 'later'));
    await backUp(shelf, folder(texts), 'golden-axle-1');
    expect([...texts.keys()]).toEqual([`${golden.plan.id}-golden-axle-1.job.json`]);

    const empty = memoryShelf(() => 0);
    const restored = await restore(empty, folder(texts), START);
    expect(restored).toEqual({ ok: true, value: { taken: [{ as: 'new', id: 'golden-axle-1' }], refused: [] } });
    const [there, back] = [await shelf.copy('golden-axle-1'), await empty.copy('golden-axle-1')];
    expect(back.ok && there.ok && back.value.kept).toEqual(there.ok && there.value.kept);

    const again = await restore(empty, folder(texts), START);
    expect(again.ok && again.value.taken.map(({ as }) => as)).toEqual(['already-here']);
    expect(again.ok && describeRestored(again.value)).toBe('0 jobs came in from the folder; 1 was here already.');
  });

  it('brings back a long file with pauses, and tells how far it has come', async () => {
    const events = Array.from({ length: 4_600 }, (_, index) => reading(index + 1));
    const long = writeJobFile(jobFileOf({ id: 'long', startedAt: 0, plan, events }));
    const texts = new Map([
      ['a.job.json', goldenText],
      ['b.job.json', long],
    ]);
    let pauses = 0;
    const told: string[] = [];
    const shelf = memoryShelf(() => 0);
    await restore(shelf, folder(texts), {
      ...START,
      pause: () => Promise.resolve(void (pauses += 1)),
      far: (progress) => void told.push(describeRestoring(progress)),
    });
    // At every 250 events when they are read, and again when they are digested.
    expect(pauses).toBeGreaterThan((2 * 4_600) / 250);
    expect(told.filter((line) => line.startsWith('File 2 of 2 (b.job.json) is being brought back'))).toEqual([
      'File 2 of 2 (b.job.json) is being brought back.',
      'File 2 of 2 (b.job.json) is being brought back: 2000 entries are in.',
      'File 2 of 2 (b.job.json) is being brought back: 4000 entries are in.',
    ]);
    expect(told[0]).toBe('File 1 of 2 (a.job.json) is being brought back.');
  });

  it('names each file that is damaged, and takes in the rest', async () => {
    const texts = new Map([
      ['a.job.json', goldenText.slice(0, 400)],
      ['b.job.json', goldenText],
    ]);
    const restored = await restore(
      memoryShelf(() => 0),
      folder(texts),
      START,
    );
    expect(restored.ok && restored.value.taken).toHaveLength(1);
    expect(restored.ok && restored.value.refused).toEqual([expect.stringMatching(/^a\.job\.json: line \d+, column \d+/)]);
    expect(restored.ok && describeRestored(restored.value)).toMatch(/^1 job came in.* Not taken in: a\.job\.json/);
  });

  it('says why it was not written, and what to do', async () => {
    const shelf = memoryShelf(() => 0);
    await shelf.start('job-1', plan, 1000);
    const asked = await backUp(shelf, folder(new Map(), { allowed: false, broken: false }), 'job-1');
    expect(!asked.ok && describeBackupFault(asked.error)).toBe(
      'The browser asks you again before it writes into the folder "stick".',
    );
    const broken = await backUp(shelf, folder(new Map(), { allowed: true, broken: true }), 'job-1');
    expect(!broken.ok && describeBackupFault(broken.error)).toMatch(
      /"stick" \(the stick was pulled out\)\. Is the folder still there/,
    );
    const missing = await backUp(shelf, folder(), 'nowhere');
    expect(!missing.ok && describeBackupFault(missing.error)).toBe('There is no job "nowhere" on this device.');
    const unread = await restore(shelf, folder(new Map(), { allowed: true, broken: true }), START);
    expect(!unread.ok && unread.error.key).toBe('not-read');
  });

  it('writes through the handle of the browser, job files alone being read back', async () => {
    const written = new Map<string, string>([['notes.txt', 'not ours']]);
    const fileHandle = (name: string) => ({
      kind: 'file',
      name,
      getFile: () => Promise.resolve(new File([written.get(name) ?? ''], name)),
      createWritable: () => {
        let text = '';
        return Promise.resolve({
          write: (piece: string) => Promise.resolve((text += piece)),
          close: () => Promise.resolve(written.set(name, text)),
        });
      },
    });
    const handle = {
      name: 'backups',
      queryPermission: () => Promise.resolve('prompt'),
      requestPermission: () => Promise.resolve('granted'),
      getFileHandle: (name: string) => Promise.resolve(fileHandle(name)),
      async *values() {
        await Promise.resolve();
        for (const name of written.keys()) yield fileHandle(name);
      },
    } as unknown as FileSystemDirectoryHandle;
    const chosen = folderOf(handle);
    expect([chosen.name, await chosen.allowed(), await chosen.ask()]).toEqual(['backups', false, true]);
    await chosen.write('axle.job.json', goldenText);
    const files = await chosen.files();
    expect(files.map(({ name, size }) => [name, size])).toEqual([['axle.job.json', new TextEncoder().encode(goldenText).length]]);
    expect(await files[0]?.text()).toBe(goldenText);
  });
});

it.each([
  [MOST_FILE_LENGTH, null],
  [MOST_FILE_LENGTH + 1, { key: 'too-large', length: MOST_FILE_LENGTH + 1, most: MOST_FILE_LENGTH }],
])('a file of %i bytes is judged before it is read', (bytes, fault) => expect(tooLarge(bytes)).toEqual(fault));

describe('the whole job as a file where the store has gone silent', () => {
  it('keeps the events that this build does not know, and their numbers', async () => {
    const foreign = '{"id":"e-x","seq":2,"at":1750000000002,"v":1,"body":{"type":"SpindleWarmed","minutes":4}}';
    const inner = memoryShelf(() => 0);
    const begun = { ...golden, job: 'job-1', events: [], unknown: [], kept: { ...golden.kept, events: [] } };
    await inner.take(begun, { newId: 'x', at: 0 });
    await inner.append('job-1', reading(1));
    const before = await inner.copy('job-1');
    if (!before.ok) throw new Error('the job is not there');
    const { kept } = before.value;
    const file = readJobFile(writeJobFile({ ...before.value, kept: { ...kept, events: [...kept.events, foreign] } }));
    if (!file.ok) throw new Error('the sample does not read');
    await inner.take(file.value, { newId: 'x', at: 0 });
    const opened = await inner.open('job-1');
    if (!opened.ok) throw new Error('the job does not open');
    const silent = {
      ...inner,
      copy: () => Promise.resolve({ ok: false, error: { key: 'store-denied', detail: 'gone' } } as const),
    };
    const log = openLog(silent, opened.value);
    await log.append(reading(3));
    const saved = readJobFile(writeJobFile(await log.asFile()));
    expect(saved.ok && saved.value.kept.events).toEqual([...file.value.kept.events, expect.stringContaining('"seq":3')]);
    expect(saved.ok && saved.value.unknown.map(({ type }) => type)).toEqual(['SpindleWarmed']);
  });
});
