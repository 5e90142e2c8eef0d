import type { CopiedEvent, CopiedJob, CopiedLog } from './copyRecords.ts';

/**
 * Whether each log is kept twice. `none`: this browser has no place for it; `failing`: it has, and the last writing failed. The
 * store goes on with one copy in both.
 */
export type CopyStanding =
  | { readonly as: 'kept' }
  | { readonly as: 'none' }
  | { readonly as: 'failing'; readonly reason: 'disk-full' | 'denied'; readonly detail: string };

/** Where a copy ends: how many events, the digest of the last (of the plan where there is none), and the names of its clips. */
export type CopyEnd = { readonly events: number; readonly digest: string; readonly clips: readonly string[] };

/**
 * A second copy of every log, outside of the browser's database. A call that resolved has what it wrote on the disk; calls are
 * done in the order in which they were made. Throws `PagesError` where the copy cannot be read or written.
 */
export interface SecondCopy {
  jobs(): Promise<readonly string[]>;
  end(job: string): Promise<CopyEnd | null>;
  read(job: string): Promise<CopiedLog | null>;
  /** Adds events after the one with the digest `before`; `behind`, and nothing written, where the copy does not end there. */
  append(job: string, events: readonly CopiedEvent[], before: string): Promise<'written' | 'behind'>;
  /** Makes the copy hold at least these events; one that goes on from them stays as it is. Gives its end. */
  complete(job: CopiedJob, events: readonly CopiedEvent[]): Promise<CopyEnd>;
  keepClip(job: string, clip: string, wav: Uint8Array): Promise<void>;
  wipe(): Promise<void>;
}
