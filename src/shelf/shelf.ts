import type { Result } from '../measure/index.ts';
import type { JobEvent, Plan } from '../job/index.ts';

/** One line of the list of jobs. `at` fields are milliseconds since 1970. */
export type JobSummary = {
  readonly id: string;
  readonly title: string;
  readonly invented: boolean;
  readonly startedAt: number;
  readonly changedAt: number;
  readonly events: number;
};

export type StoredJob = { readonly id: string; readonly plan: Plan; readonly startedAt: number; readonly events: readonly JobEvent[] };

/** Why the store did not do what was asked. Nothing that was acknowledged before is touched by any of them. */
export type ShelfFault =
  | { readonly key: 'no-such-job'; readonly job: string }
  | { readonly key: 'out-of-order'; readonly job: string; readonly expected: number; readonly got: number }
  | { readonly key: 'disk-full'; readonly job: string }
  | { readonly key: 'store-denied'; readonly detail: string }
  | { readonly key: 'unreadable'; readonly job: string; readonly path: string; readonly detail: string };

/**
 * The event store. Invariants: the events of a job are numbered from 1 without gaps; an append that resolved `ok` is on the
 * disk (strict durability) before it resolves; nothing is ever changed or deleted.
 */
export interface Shelf {
  jobs(): Promise<Result<readonly JobSummary[], ShelfFault>>;
  start(id: string, plan: Plan, at: number): Promise<Result<StoredJob, ShelfFault>>;
  open(id: string): Promise<Result<StoredJob, ShelfFault>>;
  /** Stores one event in one transaction; its `seq` must be the next one. */
  append(job: string, event: JobEvent): Promise<Result<void, ShelfFault>>;
  /** A short sound clip of a memo, kept apart from the log. */
  keepClip(job: string, clip: string, wav: Uint8Array): Promise<Result<void, ShelfFault>>;
  clip(job: string, clip: string): Promise<Result<Uint8Array | null, ShelfFault>>;
  setting(name: string): Promise<Result<unknown, ShelfFault>>;
  keepSetting(name: string, value: unknown): Promise<Result<void, ShelfFault>>;
}
