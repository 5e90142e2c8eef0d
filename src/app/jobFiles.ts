import {
  describeFileFault,
  describeNotices,
  describeTaken,
  inSlices,
  readingJobFile,
  writeJobFile,
  type JobFile,
  type OpenLog,
  type ShelfFault,
  type StoredJob,
} from '../shelf/index.ts';
import type { AssistantDeps } from './assistantDeps.ts';
import type { AssistantState } from './assistantState.ts';
import { pausing } from './pausing.ts';

/** How many unknown entries of an imported file are named; the rest are counted. */
const MOST_NOTICES = 3;

/** A file of so many letters or more is not there at once: it says how far it has come. */
const LONG_FILE = 1_000_000;

/** What the job files take from the assistant: the job that is open, how to open one, and how to say what became of a file. */
export type JobFileEdges = {
  readonly open: () => { readonly job: StoredJob; readonly log: OpenLog } | null;
  readonly openJob: (id: string) => Promise<void>;
  /** Opens a job that the store did not take. */
  readonly openUnstored: (job: StoredJob) => Promise<void>;
  readonly trouble: (fault: ShelfFault) => void;
  readonly say: (text: string) => void;
  readonly settled: () => void;
};

/** Jobs that come in as files, the demos among them, and the open job as a file. */
export function jobFiles(
  deps: AssistantDeps,
  edges: JobFileEdges,
): Pick<AssistantState, 'startDemo' | 'importJob' | 'exportJob'> {
  const pause = pausing(deps.tick, deps.afterPainting);

  /** Puts a job file on the shelf and opens it; nothing that is there is overwritten. `far` hears how far it has come. */
  async function takeIn(file: JobFile, fileName: string | null, far: (sentence: string) => void): Promise<void> {
    const entries = file.kept.events.length;
    let tenth = 0;
    const added = (events: number): void => {
      if (Math.floor((10 * events) / entries) === tenth) return;
      tenth = Math.floor((10 * events) / entries);
      far(`${events} of ${entries} entries are in; the job is there when all are.`);
    };
    const outcome = await deps.shelf.take(file, { newId: deps.newId(), at: deps.now(), pace: { pause, added } });
    if (!outcome.ok) {
      const { key } = outcome.error;
      // Work goes on where nothing can be stored; a job that is on this device already is not opened beside itself.
      if (key === 'store-denied' || key === 'disk-full') {
        edges.settled();
        await edges.openUnstored(heldJob(file));
      }
      edges.trouble(outcome.error);
      return;
    }
    far(`All ${entries} entries are in. The job is being opened.`);
    await edges.openJob(outcome.value.id);
    const said = [describeTaken(outcome.value, file.plan), ...describeNotices(file.notices, MOST_NOTICES)].join(' ');
    if (fileName !== null) edges.say(`${fileName}: ${said}`);
  }

  function heldJob({ job, startedAt, plan, events, unknown, kept }: JobFile): StoredJob {
    const id = job ?? deps.newId();
    const nextSeq = kept.events.length + 1;
    return { id, plan, startedAt: startedAt ?? deps.now(), events, unknown, nextSeq, damage: [], setAside: 0, kept };
  }

  return {
    async startDemo(demo) {
      edges.settled();
      const text = await deps.demos[demo]();
      await deps.afterPainting();
      const read = await inSlices(readingJobFile(text), pause);
      await deps.afterPainting();
      if (read.ok) await takeIn(read.value, null, () => undefined);
      else edges.say(describeFileFault(read.error, `demo ${demo}`));
    },
    async importJob(fileName, text) {
      edges.settled();
      const far = (sentence: string): void => {
        if (text.length >= LONG_FILE) edges.say(`${fileName}: ${sentence}`);
      };
      far('It is long, and is being read and checked.');
      const read = await inSlices(readingJobFile(text), pause);
      if (read.ok) await takeIn(read.value, fileName, far);
      else edges.say(describeFileFault(read.error, fileName));
    },
    /** The job as one file, with what has not been stored yet. */
    async exportJob() {
      const open = edges.open();
      if (open === null) return null;
      const day = new Date(deps.now()).toISOString().slice(0, 10);
      return { fileName: `${open.job.plan.id}-${day}.job.json`, text: writeJobFile(await open.log.asFile()) };
    },
  };
}
