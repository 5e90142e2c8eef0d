import type { InstrumentKind, Length } from '../measure/index.ts';
import type { LeftOver, MeasuredQuantity, Route, RouteEdit } from '../route/index.ts';
import type { History } from './history.ts';
import type { Feel, Place, Working } from './intent.ts';
import type { JobEvent } from './event.ts';
import type { Plan } from './plan.ts';
import type { SetUpLog } from './setUpLog.ts';

/** A reading that stands: logged, not struck. `event` is the id of the event that logged it. */
export type Reading = {
  readonly event: string;
  readonly at: number;
  readonly operation: string;
  readonly quantity: MeasuredQuantity;
  readonly value: Length;
  readonly instrument: InstrumentKind | null;
  readonly place: Place | null;
  readonly confirmed: boolean;
};

export type OperationStatus = 'waiting' | 'done' | 'skipped';

/** What the hands did and the instruments showed at an operation, in order: what the coach reads. */
export type Work =
  | { readonly did: 'cut'; readonly onDial: Length }
  | { readonly did: 'dialled'; readonly onDial: Length }
  | { readonly did: 'touched-off' }
  | { readonly did: 'filed'; readonly amount: Filed }
  | { readonly did: 'felt'; readonly feel: Feel }
  | { readonly did: 'working'; readonly working: Working }
  /** `celsius` is how warm the part was said to be by then, or, where nothing was said at the step yet, right after it. */
  | { readonly did: 'read'; readonly reading: Reading; readonly celsius: number | null };

/** How much filing was said to be: rounds alone, or strokes or seconds. */
export type Filed = { readonly in: 'rounds' | 'strokes' | 'seconds'; readonly count: number };

/** What has happened at one operation. */
export type Progress = {
  readonly status: OperationStatus;
  readonly readings: History<Reading>;
  readonly work: History<Work>;
  /** The last amount dialled or taken, as the dial shows it, since the last reading; null when a reading came after. */
  readonly dialled: Length | null;
  readonly feel: Feel | null;
  readonly working: Working;
  readonly indicator: { readonly low: Length | null; readonly high: Length | null };
  readonly jaws: Readonly<Partial<Record<1 | 2 | 3 | 4, Length>>>;
  readonly edges: { readonly first: Length | null; readonly other: Length | null };
  readonly setUp: SetUpLog;
  readonly cautioned: boolean;
  /** The temperature that was said here last, degrees Celsius: of the mate where one is measured, else of the part. */
  readonly celsius: number | null;
  readonly memos: History<{ readonly clip: string; readonly seconds: number; readonly at: number }>;
};

/**
 * What became of the plan since the job was started with it: `base` is the route without edits, as it was last generated;
 * `edits` holds every edit in order, `leftOver` those of them that no longer apply.
 */
export type RouteEditing = {
  readonly started: Plan;
  readonly base: Route;
  readonly edits: readonly RouteEdit[];
  readonly leftOver: readonly LeftOver[];
};

/**
 * Where a job stands: its plan and the fold of its events. The route of the plan is the one worked by, edits applied.
 * Invariants: `open` is an operation of the plan, or null when none is waiting; `log` holds every event, struck or not, in
 * the order of their numbers; all else is what the events that are not struck amount to.
 */
export type JobState = {
  readonly plan: Plan;
  readonly editing: RouteEditing;
  readonly open: string | null;
  readonly progress: Readonly<Record<string, Progress>>;
  readonly mates: Readonly<Record<string, History<Reading>>>;
  readonly celsius: number | null;
  readonly log: History<JobEvent>;
  readonly struck: ReadonlySet<string>;
};
