import {
  describeFileFault,
  describeNotices,
  describeTaken,
  readJobFile,
  writeJobFile,
  type JobFile,
  type OpenLog,
  type ShelfFault,
  type StoredJob,
} from '../shelf/index.ts';
import type { AssistantDeps } from './assistantDeps.ts';
import type { AssistantState } from './assistantState.ts';

/** How many unknown entries of an imported file are named; the rest are counted. */
const MOST_NOTICES = 3;

/** What the job files take from the assistant: the job that is open, how to open one, and how to say what became of a file. */
export type JobFileEdges = {
  readonly open: () => { readonly job: StoredJob; readonly log: OpenLog } | null;
  readonly openJob: (id: string) => Promise<void>;
  readonly trouble: (fault: ShelfFault) => void;
  readonly say: (text: string) => void;
  readonly settled: () => void;
};

/** Jobs that come in as files, the demos among them, and the open job as a file. */
export function jobFiles(
  deps: AssistantDeps,
  edges: JobFileEdges,
): Pick<AssistantState, 'startDemo' | 'importJob' | 'exportJob'> {
  /** Puts a job file on the shelf and opens it; nothing that is there is overwritten. */
  async function takeIn(file: JobFile, fileName: string | null): Promise<void> {
    const outcome = await deps.shelf.take(file, { newId: deps.newId(), at: deps.now() });
    if (!outcome.ok) {
      edges.trouble(outcome.error);
      return;
    }
    edges.settled();
    await edges.openJob(outcome.value.id);
    const said = [describeTaken(outcome.value), ...describeNotices(file.notices, MOST_NOTICES)].join(' ');
    if (fileName !== null) edges.say(`${fileName}: ${said}`);
  }

  return {
    async startDemo(demo) {
      const text = await deps.demos[demo]();
      await deps.afterPainting();
      const read = readJobFile(text);
      await deps.afterPainting();
      if (read.ok) await takeIn(read.value, null);
      else edges.say(describeFileFault(read.error, `demo ${demo}`));
    },
    async importJob(fileName, text) {
      const read = readJobFile(text);
      if (read.ok) await takeIn(read.value, fileName);
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
