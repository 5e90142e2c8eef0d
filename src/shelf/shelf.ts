import type { Result } from '../measure/index.ts';
import type { JobEvent, Plan } from '../job/index.ts';
import type { JobFile } from './jobFile.ts';
import type { Damage } from './log.ts';
import type { UnknownEvent } from './loggedEvent.ts';
import type { CopyStanding } from './secondCopy.ts';

/** One line of the list of jobs. `at` fields are milliseconds since 1970. */
export type JobSummary = {
  readonly id: string;
  readonly title: string;
  readonly invented: boolean;
  readonly startedAt: number;
  readonly changedAt: number;
  readonly events: number;
};

export type StoredJob = {
  readonly id: string;
  readonly plan: Plan;
  readonly startedAt: number;
  /** The events that this build understands, in the order of their numbers. */
  readonly events: readonly JobEvent[];
  /** Events kept that this build does not understand; their numbers are missing in `events`. */
  readonly unknown: readonly UnknownEvent[];
  /** The number that the next event must have; counts the unknown ones, so it may be more than the last of `events` and one. */
  readonly nextSeq: number;
  /** What was found wrong on this opening, and what was done; empty in a sound log. Tell the person. */
  readonly damage: readonly Damage[];
  /** How many events lie aside from this or earlier openings. */
  readonly setAside: number;
  /** The exact JSON of plan, events and further fields as stored, unknown ones included: for a file when the store is silent. */
  readonly kept: JobFile['kept'];
};

/** An event that was taken out of a damaged log; `text` is what was found, as JSON. */
export type SetAsideEvent = { readonly seq: number; readonly foundAt: number; readonly sound: boolean; readonly text: string };

/** What became of a file that was taken in. Nothing that was stored before is overwritten by any of them. */
export type Taken =
  | { readonly as: 'new'; readonly id: string }
  /** All that is in the file is stored already; `newer` events stored here are not in the file. */
  | { readonly as: 'already-here'; readonly id: string; readonly newer: number }
  /** The file went on where the stored log ended: its further events were added. */
  | { readonly as: 'continued'; readonly id: string; readonly added: number }
  /** Stored log and file had gone different ways and were made one; at the operations `both` the person should look. */
  | { readonly as: 'merged'; readonly id: string; readonly added: number; readonly both: readonly string[] }
  /** The file and the stored job of the same id are no one history: the file became a job of its own. */
  | { readonly as: 'copy'; readonly id: string; readonly of: string };

/** How the taking in of a long file goes on beside other work: it pauses where it may, and tells how many entries are in. */
export type Pace = { readonly pause: () => Promise<void>; readonly added: (events: number) => void };

/** Why the store did not do what was asked. Nothing that was acknowledged before is touched by any of them. */
export type ShelfFault =
  | { readonly key: 'no-such-job'; readonly job: string }
  | { readonly key: 'job-exists'; readonly job: string }
  /** `lastAt` is the time of the last event that is there: the next one is later. */
  | { readonly key: 'out-of-order'; readonly job: string; readonly expected: number; readonly got: number; readonly lastAt: number }
  | { readonly key: 'disk-full'; readonly job: string }
  | { readonly key: 'store-denied'; readonly detail: string }
  | { readonly key: 'unreadable'; readonly job: string; readonly path: string; readonly detail: string };

/**
 * The event store. Invariants: the events of a job are numbered from 1 without gaps; an append that resolved `ok` is on the
 * disk (strict durability) before it resolves; no event that is stored is changed (a merge may number it anew), and nothing is
 * deleted but by `wipe`: what is found damaged is set aside. Where the browser has room for a second copy of each log, an append
 * that resolved is in both, and what one of them lost is put back from the other when the job is opened.
 */
export interface Shelf {
  jobs(): Promise<Result<readonly JobSummary[], ShelfFault>>;
  start(id: string, plan: Plan, at: number): Promise<Result<StoredJob, ShelfFault>>;
  /** Reads a job and checks its checksum chain; a damaged tail is set aside and reported in `damage`. */
  open(id: string): Promise<Result<StoredJob, ShelfFault>>;
  /** Stores one event in one transaction; its `seq` must be the next. The same event appended again is `ok`, stored once. */
  append(job: string, event: JobEvent): Promise<Result<void, ShelfFault>>;
  /** A short sound clip of a memo, kept apart from the log. */
  keepClip(job: string, clip: string, wav: Uint8Array): Promise<Result<void, ShelfFault>>;
  clip(job: string, clip: string): Promise<Result<Uint8Array | null, ShelfFault>>;
  setting(name: string): Promise<Result<unknown, ShelfFault>>;
  keepSetting(name: string, value: unknown): Promise<Result<void, ShelfFault>>;
  /** The whole job as a file holds it, for `writeJobFile`; unknown events and fields included. */
  copy(id: string): Promise<Result<JobFile, ShelfFault>>;
  /** Takes in a file that `readJobFile` passed. `newId` is used where the file names no job, or its job must not be touched. */
  take(
    file: JobFile,
    start: { readonly newId: string; readonly at: number; readonly pace?: Pace },
  ): Promise<Result<Taken, ShelfFault>>;
  /** The events that lie aside, in the order in which they were found. */
  setAside(job: string): Promise<Result<readonly SetAsideEvent[], ShelfFault>>;
  /** Whether each log is kept twice; the settings are not. */
  secondCopy(): CopyStanding;
  /** Deletes all jobs, clips and settings of this device; cannot be undone. */
  wipe(): Promise<Result<void, ShelfFault>>;
}
