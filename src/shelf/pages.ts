import type { Digest } from './chain.ts';

/** A job as it was started; written once. `plan` is the exact JSON text, `version` the version of the file format it is in. */
export type JobRow = {
  readonly id: string;
  readonly startedAt: number;
  readonly version: number;
  readonly plan: string;
  /** Top-level fields of the imported file that this build does not know, as JSON text. */
  readonly rest: string;
  readonly digest: Digest;
};

/** The end of a job's log and its line in the list; written anew with each event, in the same transaction. */
export type HeadRow = {
  readonly job: string;
  readonly title: string;
  readonly invented: boolean;
  readonly startedAt: number;
  readonly changedAt: number;
  readonly events: number;
  readonly digest: Digest;
  /** The content digest of the file that the job was last taken in from; null for a job started here. */
  readonly origin: Digest | null;
};

export type EventRow = {
  readonly job: string;
  readonly seq: number;
  readonly id: string;
  readonly text: string;
  readonly digest: Digest;
};
export type ClipRow = { readonly job: string; readonly clip: string; readonly wav: Uint8Array };
export type SettingRow = { readonly name: string; readonly value: unknown };

/** An event taken out of the log when it was found damaged or cut off from what came before; `sound`: its own digest holds. */
export type SetAsideRow = {
  readonly job: string;
  readonly no: number;
  readonly foundAt: number;
  readonly seq: number;
  readonly sound: boolean;
  /** The row as it was found, whatever that is. */
  readonly found: unknown;
};

/**
 * The kinds of rows, each with its key: `jobs` id, `heads` job, `events` job and seq, `clips` job and clip, `settings` name,
 * `setAside` job and no.
 */
export type PageRows = {
  jobs: JobRow;
  heads: HeadRow;
  events: EventRow;
  clips: ClipRow;
  settings: SettingRow;
  setAside: SetAsideRow;
};
export type PageName = keyof PageRows;
export type PageKey = string | readonly [string, string | number];

/**
 * How many events are given at a time. A few hundred are checked within one frame, and Chromium hands them over in a quarter of
 * the time that it takes for the same rows by the thousand.
 */
export const EVENTS_A_PART = 250;

/** The pages as one transaction sees them. Only these calls may be awaited within it. */
export interface OpenPages {
  /** An event is found wherever it lies. */
  get<N extends PageName>(page: N, key: PageKey): Promise<PageRows[N] | undefined>;
  all<N extends PageName>(page: N): Promise<readonly PageRows[N][]>;
  /** The rows whose key starts with this job, in the order of their keys. */
  under<N extends 'clips' | 'setAside'>(page: N, job: string): Promise<readonly PageRows[N][]>;
  /** Gives the events of a job in the order of their keys, some `EVENTS_A_PART` at a time: a log has no bound. */
  eachPart(job: string, take: (events: readonly EventRow[]) => void): Promise<void>;
  /** Adds a row; the transaction fails where its key is taken. */
  add<N extends PageName>(page: N, row: PageRows[N]): Promise<void>;
  put<N extends PageName>(page: N, row: PageRows[N]): Promise<void>;
  remove(page: PageName, key: PageKey): Promise<void>;
  /** Adds events of one job that follow one another; they may lie together in one row. Fails where a number is taken. */
  addEvents(events: readonly EventRow[]): Promise<void>;
  /** Removes the events of a job behind number `seq`, 0 for all. */
  cutAfter(job: string, seq: number): Promise<void>;
}

/** Thrown by pages that cannot be read or written; `shelfOver` turns it into a fault. */
export class PagesError extends Error {
  readonly reason: 'disk-full' | 'denied';
  constructor(reason: 'disk-full' | 'denied', detail: string) {
    super(detail);
    this.reason = reason;
  }
}

/**
 * Where a shelf keeps its rows. A transaction is all or nothing, and a writing one is on the disk before its promise resolves.
 * Throws `PagesError` where the store fails; whatever `work` throws comes out as it is, with nothing written.
 */
export interface Pages {
  transact<T>(mode: 'read' | 'write', pages: readonly PageName[], work: (open: OpenPages) => Promise<T>): Promise<T>;
  /** Deletes everything. */
  wipe(): Promise<void>;
}
