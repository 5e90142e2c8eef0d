import type { HoldEdges, JobHold, Shelf } from '../shelf/index.ts';
import type { PageEar, VoicePort } from './ports.ts';

/** The edges of the page, made elsewhere: the store, the ear, the voice, the clock, ids, and the two demo jobs. */
export type AssistantDeps = {
  readonly shelf: Shelf;
  /** Holds a job for this window, so that two windows never write to one log. */
  readonly holdJob: (job: string, edges: Pick<HoldEdges, 'onStanding' | 'onStored' | 'settled'>) => Promise<JobHold>;
  readonly openEar: () => Promise<PageEar>;
  readonly openVoice: () => Promise<VoicePort>;
  readonly now: () => number;
  readonly tick: () => number;
  /** Lets the browser paint and take input before long work goes on. */
  readonly afterPainting: () => Promise<void>;
  /** Waits until what has changed is on the screen; those that wait go on in the order in which they came. */
  readonly drawn: () => Promise<void>;
  readonly newId: () => string;
  readonly demos: Readonly<Record<'inch' | 'metric', () => Promise<string>>>;
  /** Asks the browser to keep what is stored; called once a job is open. */
  readonly keepStored: () => Promise<void>;
  /** Marks a span in the browser's own timeline, so that the answer's delay can be looked at. */
  readonly mark: (name: string, startMs: number, endMs: number, detail: object) => void;
};
