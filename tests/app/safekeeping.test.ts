import { readFileSync } from 'node:fs';
import { beforeEach, describe, expect, it } from 'vitest';
import { createStore, type StoreApi } from 'zustand/vanilla';
import type { AssistantState } from '../../src/app/index.ts';
import { createFaultLog } from '../../src/app/faultLog.ts';
import { createSafekeeping } from '../../src/app/safekeeping.ts';
import type { Safekeeping } from '../../src/app/safekeepingState.ts';
import { folded, type JobEvent } from '../../src/job/index.ts';
import { memoryShelf, readJobFile, type BackupFolder, type Shelf } from '../../src/shelf/index.ts';

const NOON = Date.UTC(2026, 0, 5, 12);
const demo = readJobFile(readFileSync(new URL('../../src/shelf/demos/inch.job.json', import.meta.url), 'utf8'));
if (!demo.ok) throw new Error('the demo job does not read');
const { plan } = demo.value;
const operation = plan.route.operations[0]!.id;
const entries = (count: number): readonly JobEvent[] =>
  Array.from({ length: count }, (_, index) => ({
    id: `e-${index}`,
    seq: index + 1,
    at: NOON + index,
    v: 1,
    body: { type: 'CautionGiven', operation },
  }));

/** What of the assistant the safekeeping reads: the job, the page and the notices. */
type Seen = Pick<AssistantState, 'job' | 'page' | 'notices' | 'exportJob'>;
const withJob = (count: number): Seen['job'] =>
  ({ id: 'job-1', state: folded(plan, entries(count)), talk: {} }) as unknown as Seen['job'];

class TestFolder implements BackupFolder {
  readonly name = 'backups';
  may = true;
  full = false;
  readonly written = new Map<string, string>();
  allowed = (): Promise<boolean> => Promise.resolve(this.may);
  ask = (): Promise<boolean> => Promise.resolve((this.may = true));
  write(name: string, text: string): Promise<void> {
    if (this.full) return Promise.reject(new Error('no room'));
    this.written.set(name, text);
    return Promise.resolve();
  }
  files = (): ReturnType<BackupFolder['files']> => Promise.resolve([]);
}

describe('keeping the record safe', () => {
  let assistant: StoreApi<AssistantState>;
  let shelf: Shelf;
  let folder: TestFolder;
  let waiting: (() => void)[];
  const settled = (): Promise<void> => new Promise((done) => setTimeout(done, 5));
  const toPage = (page: Seen['page']): void => assistant.setState({ page });
  const notice = (id: string): Seen['notices'][number] | undefined => assistant.getState().notices.find((each) => each.id === id);

  beforeEach(async () => {
    waiting = [];
    folder = new TestFolder();
    shelf = memoryShelf(() => NOON);
    await shelf.start('job-1', plan, NOON);
    for (const event of entries(30)) await shelf.append('job-1', event);
    const seen: Seen = {
      job: withJob(24),
      page: 'machine',
      notices: [],
      exportJob: () => Promise.resolve({ fileName: 'job.json', text: '{}' }),
    };
    assistant = createStore(() => seen as unknown as AssistantState);
  });
  async function opened(canChoose: boolean): Promise<StoreApi<Safekeeping>> {
    const safekeeping = createSafekeeping({
      shelf,
      assistant,
      faults: createFaultLog(() => NOON),
      now: () => NOON,
      newId: () => 'id',
      later: (work) => void waiting.push(work),
      afterPainting: () => Promise.resolve(),
      tick: () => 0,
      canChoose,
      choose: () => Promise.resolve('chosen'),
      folderOf: (kept) => (kept === null ? null : folder),
      persist: () => Promise.resolve('may-be-cleared'),
      surroundings: () => Promise.reject(new Error('not asked')),
    });
    await settled();
    return safekeeping;
  }

  it('reminds once, at the desk, that 25 entries are in this browser alone', async () => {
    await opened(false);
    toPage('jobs');
    expect(notice('backup-reminder')).toBeUndefined();
    toPage('machine');
    assistant.setState({ job: withJob(25) });
    expect(notice('backup-reminder')).toBeUndefined();
    toPage('jobs');
    expect(notice('backup-reminder')?.text).toMatch(/^25 entries of this job are in this browser alone\. Save the job as a file/);
    assistant.setState({ notices: [] });
    toPage('record');
    expect(notice('backup-reminder')).toBeUndefined();
  });

  it('counts a job that was saved by hand as saved, and takes the reminder back', async () => {
    const safekeeping = await opened(false);
    assistant.setState({ job: withJob(30) });
    toPage('jobs');
    expect(notice('backup-reminder')).toBeDefined();
    await assistant.getState().exportJob();
    expect(notice('backup-reminder')).toBeUndefined();
    expect(safekeeping.getState().saved).toEqual({ at: NOON, events: 30 });
  });

  it('writes the open job into the chosen folder, and again after a change, one file a job', async () => {
    const safekeeping = await opened(true);
    await safekeeping.getState().chooseFolder();
    expect(folder.written.size).toBe(1);
    expect(safekeeping.getState()).toMatchObject({ folder: { name: 'backups', standing: 'kept' }, saved: { events: 30 } });
    folder.written.clear();
    assistant.setState({ job: withJob(26) });
    assistant.setState({ job: withJob(27) });
    expect(waiting).toHaveLength(1);
    waiting[0]?.();
    await settled();
    expect([...folder.written.values()].join('')).toContain('"swarfside-job"');
    toPage('jobs');
    expect(notice('backup-reminder')).toBeUndefined();
  });

  it('asks for the folder again where the browser wants it, and writes once it is allowed', async () => {
    await shelf.keepSetting('backup-folder', 'chosen');
    folder.may = false;
    const safekeeping = await opened(true);
    expect(safekeeping.getState().folder?.standing).toBe('asks');
    expect(notice('backup')?.remedy?.label).toBe('Allow it');
    notice('backup')?.remedy?.run();
    await settled();
    expect(folder.written.size).toBe(1);
    expect(notice('backup')).toBeUndefined();
  });

  it('says at once that a backup was not written, and takes it back when one is', async () => {
    const safekeeping = await opened(true);
    folder.full = true;
    await safekeeping.getState().chooseFolder();
    expect(safekeeping.getState().folder?.standing).toBe('failed');
    expect(notice('backup')?.text).toMatch(/no room/);
    folder.full = false;
    await safekeeping.getState().allowFolder();
    expect(notice('backup')).toBeUndefined();
  });
});
