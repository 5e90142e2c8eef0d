import type { AssistantState, Notice } from './assistantState.ts';
import type { NotedFault } from './faultLog.ts';

/** What the browser says of itself and of its store; null where it does not say. */
export type Surroundings = {
  readonly browser: string;
  readonly language: string;
  readonly secure: boolean;
  readonly servedByWorker: boolean;
  readonly usedBytes: number | null;
  readonly roomBytes: number | null;
  readonly persistence: string;
  readonly secondCopy: string;
  readonly screen: readonly [number, number];
};

/** A notice about a file may quote the file, so of those only the fact is kept. */
const withoutQuotes = ({ id, part, text }: Notice): object => (part === 'file' ? { id, part } : { id, part, text });

/**
 * The text of a diagnostic file, to be read before it is given away: what does not work, and on what. It holds no sound, no
 * title, no words that were heard, and no reading; `job` is the text of a whole job file where the person chose to add it.
 */
export function diagnosticText(
  state: Pick<AssistantState, 'page' | 'jobs' | 'job' | 'listening' | 'notices' | 'unstored' | 'volume'>,
  about: {
    readonly madeAt: number;
    readonly surroundings: Surroundings;
    readonly faults: readonly NotedFault[];
    readonly job: string | null;
  },
): string {
  const { mode, state: ear, tooLoud, levelDb, floorDb } = state.listening;
  const file = {
    format: 'swarfside-diagnostic',
    version: 1,
    madeAt: new Date(about.madeAt).toISOString(),
    surroundings: about.surroundings,
    page: state.page,
    jobs: state.jobs.length,
    events: state.jobs.reduce((sum, job) => sum + job.events, 0),
    jobIsOpen: state.job !== null,
    keptInMemoryOnly: state.unstored,
    listening: { mode, state: ear, tooLoud, levelDb, floorDb },
    volume: state.volume,
    notices: state.notices.map(withoutQuotes),
    faults: about.faults,
    ...(about.job === null ? {} : { job: JSON.parse(about.job) as unknown }),
  };
  return `${JSON.stringify(file, null, 2)}\n`;
}
