import { createStore, type StoreApi } from 'zustand/vanilla';
import { nextSeq } from '../job/index.ts';
import {
  backUp,
  describeBackupFault,
  describeCopyTrouble,
  describeRestored,
  describeRestoring,
  restore,
  type BackupFault,
  type BackupFolder,
  type Persistence,
  type Shelf,
} from '../shelf/index.ts';
import type { AssistantState, Notice } from './assistantState.ts';
import { diagnosticText, type Surroundings } from './diagnostic.ts';
import type { FaultLog } from './faultLog.ts';
import { pausing } from './pausing.ts';
import type { NamedText, Safekeeping } from './safekeepingState.ts';

export type SafekeepingDeps = {
  readonly shelf: Shelf;
  readonly assistant: StoreApi<AssistantState>;
  readonly faults: FaultLog;
  readonly now: () => number;
  readonly newId: () => string;
  readonly later: (work: () => void, ms: number) => void;
  /** Lets the browser paint and take input before long work goes on. */
  readonly afterPainting: () => Promise<void>;
  readonly tick: () => number;
  readonly canChoose: boolean;
  /** The handle of the folder that the person chooses, null where they choose none; it is kept as a setting. */
  readonly choose: () => Promise<unknown>;
  readonly folderOf: (kept: unknown) => BackupFolder | null;
  readonly persist: () => Promise<Persistence>;
  readonly surroundings: (storage: Pick<Safekeeping, 'persistence' | 'copy'>) => Promise<Surroundings>;
};

const FOLDER = 'backup-folder';
const savedName = (job: string): string => `saved:${job}`;

/** A backup is written this long after the last change, so that a run of readings makes one. */
const BACKUP_AFTER_MS = 5_000;
/** So many events without a file are worth a word, once a session and job. */
const EVENTS_AT_RISK = 25;

export function createSafekeeping(deps: SafekeepingDeps): StoreApi<Safekeeping> {
  const { shelf, assistant, now } = deps;
  let folder: BackupFolder | null = null;
  let due = false;
  const reminded = new Set<string>();

  const store: StoreApi<Safekeeping> = createStore<Safekeeping>()(() => ({
    canChoose: deps.canChoose,
    folder: null,
    saved: null,
    persistence: 'cannot-tell',
    copy: shelf.secondCopy().as,
    setAside: [],
    chooseFolder,
    allowFolder,
    leaveFolder,
    restoreFolder,
    setAsideFile,
    diagnosticFile,
  }));

  const notify = (notice: Notice): void =>
    assistant.setState((state) => ({ notices: [...state.notices.filter((each) => each.id !== notice.id), notice] }));
  const settle = (id: string): void =>
    assistant.setState((state) => ({ notices: state.notices.filter((each) => each.id !== id) }));
  const standing = (of: 'kept' | 'asks' | 'failed'): void =>
    store.setState({ folder: folder === null ? null : { name: folder.name, standing: of } });

  function trouble(fault: BackupFault): void {
    const remedy = fault.key === 'not-allowed' ? { label: 'Allow it', run: () => void allowFolder() } : null;
    standing(fault.key === 'not-allowed' ? 'asks' : 'failed');
    notify({ id: 'backup', part: 'shelf', text: describeBackupFault(fault), remedy });
  }

  async function noteSaved(job: string, events: number): Promise<void> {
    const saved = { at: now(), events };
    await shelf.keepSetting(savedName(job), saved);
    if (assistant.getState().job?.id === job) store.setState({ saved });
    settle('backup-reminder');
  }

  async function write(): Promise<void> {
    due = false;
    const job = assistant.getState().job?.id ?? null;
    if (folder === null || job === null) return;
    const done = await backUp(shelf, folder, job);
    if (!done.ok) {
      trouble(done.error);
      return;
    }
    settle('backup');
    standing('kept');
    await noteSaved(job, done.value.events);
  }
  function writeSoon(): void {
    if (due || folder === null) return;
    due = true;
    deps.later(() => void write(), BACKUP_AFTER_MS);
  }

  async function use(kept: unknown): Promise<boolean> {
    folder = deps.folderOf(kept);
    if (folder === null) return false;
    standing((await folder.allowed()) ? 'kept' : 'asks');
    return true;
  }

  async function chooseFolder(): Promise<void> {
    try {
      const chosen = await deps.choose();
      if (chosen === null || !(await use(chosen))) return;
      await shelf.keepSetting(FOLDER, chosen);
      await write();
    } catch (error) {
      deps.faults.note('backup', error);
      notify({
        id: 'backup',
        part: 'shelf',
        text: 'The browser did not open a folder. Save the job as a file instead.',
        remedy: null,
      });
    }
  }

  async function allowFolder(): Promise<void> {
    if (folder === null || !(await folder.ask().catch(() => false))) return;
    await write();
  }

  async function leaveFolder(): Promise<void> {
    folder = null;
    standing('kept');
    settle('backup');
    await shelf.keepSetting(FOLDER, null);
  }

  async function restoreFolder(): Promise<void> {
    try {
      const chosen = deps.folderOf(await deps.choose());
      if (chosen === null) return;
      const restored = await restore(shelf, chosen, {
        newId: deps.newId,
        at: now(),
        pause: pausing(deps.tick, deps.afterPainting),
        far: (progress) => notify({ id: 'file', part: 'file', text: describeRestoring(progress), remedy: null }),
      });
      if (!restored.ok) {
        settle('file');
        trouble(restored.error);
        return;
      }
      notify({ id: 'file', part: 'file', text: describeRestored(restored.value), remedy: null });
      assistant.getState().goTo('jobs');
    } catch (error) {
      deps.faults.note('backup', error);
      notify({
        id: 'backup',
        part: 'shelf',
        text: 'The browser did not open a folder. Open the files one by one.',
        remedy: null,
      });
    }
  }

  function setAsideFile(): NamedText | null {
    const job = assistant.getState().job?.id ?? null;
    const { setAside } = store.getState();
    if (job === null || setAside.length === 0) return null;
    const text = `${JSON.stringify({ format: 'swarfside-set-aside', version: 1, job, events: setAside }, null, 2)}\n`;
    return { fileName: `${job}-set-aside.json`, text };
  }

  async function diagnosticFile(withJob: boolean): Promise<NamedText> {
    const surroundings = await deps.surroundings(store.getState());
    const job = withJob ? ((await assistant.getState().exportJob())?.text ?? null) : null;
    const text = diagnosticText(assistant.getState(), { madeAt: now(), surroundings, faults: deps.faults.faults(), job });
    return { fileName: `swarfside-diagnostic-${new Date(now()).toISOString().slice(0, 10)}.json`, text };
  }

  /** Says once that a job hangs on this browser alone; never at the machine, where it would be in the way. */
  function remind(state: AssistantState): void {
    if (folder !== null || state.job === null || state.page === 'machine' || reminded.has(state.job.id)) return;
    const atRisk = nextSeq(state.job.state) - 1 - (store.getState().saved?.events ?? 0);
    if (atRisk < EVENTS_AT_RISK) return;
    reminded.add(state.job.id);
    const text = `${atRisk} entries of this job are in this browser alone. Save the job as a file, or choose a folder for backups.`;
    notify({ id: 'backup-reminder', part: 'shelf', text, remedy: null });
  }

  /** Tells at once when a log is no longer kept twice, and takes it back when it is again. */
  function watchCopy(): void {
    const copy = shelf.secondCopy();
    if (copy.as === store.getState().copy) return;
    store.setState({ copy: copy.as });
    if (copy.as === 'failing') notify({ id: 'second-copy', part: 'shelf', text: describeCopyTrouble(copy), remedy: null });
    else settle('second-copy');
  }

  async function jobOpened(id: string): Promise<void> {
    store.setState({ saved: null, setAside: [] });
    const saved = await shelf.setting(savedName(id));
    const aside = await shelf.setAside(id);
    if (assistant.getState().job?.id !== id) return;
    if (saved.ok && saved.value !== null) store.setState({ saved: saved.value as Safekeeping['saved'] });
    if (aside.ok) store.setState({ setAside: aside.value });
    writeSoon();
  }

  // A job that is saved by hand counts as saved.
  const asMade = assistant.getState();
  assistant.setState({
    exportJob: async () => {
      const { job } = assistant.getState();
      const file = await asMade.exportJob();
      if (file !== null && job !== null) await noteSaved(job.id, nextSeq(job.state) - 1);
      return file;
    },
  });
  assistant.subscribe((state, before) => {
    watchCopy();
    const id = state.job?.id ?? null;
    if (id !== null && id !== before.job?.id) void jobOpened(id);
    else if (state.job !== null && state.job.state !== before.job?.state) writeSoon();
    // Only wiping everything closes a job without opening another: the folder is forgotten with the rest.
    if (state.job === null && before.job !== null) {
      folder = null;
      store.setState({ folder: null, saved: null, setAside: [] });
    }
    if (state.page !== before.page) remind(state);
  });

  async function begin(): Promise<void> {
    const kept = await shelf.setting(FOLDER);
    const known = kept.ok && kept.value !== null && (await use(kept.value));
    const asks = store.getState().folder?.standing === 'asks';
    if (known && asks && folder !== null) trouble({ key: 'not-allowed', folder: folder.name });
    store.setState({ persistence: await deps.persist() });
    const open = assistant.getState().job?.id ?? null;
    if (open !== null) await jobOpened(open);
  }
  void begin();
  return store;
}
