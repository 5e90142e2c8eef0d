import { sizeOf as coachSize, type Advice, type Expected } from '../coach/index.ts';
import type { InstrumentKind, Instruments, Length } from '../measure/index.ts';
import { asLength } from '../trade/index.ts';
import { dialOf, filingPlan, whyOf, type FilingPlan } from './advising.ts';
import { unmirrored } from './bench.ts';
import { coachedAt } from './coaching.ts';
import type { PhraseId } from './reply.ts';
import type { Operation, Setup, SizeWindow } from '../route/index.ts';
import { sizeOf } from './history.ts';
import { progressOf } from './fold.ts';
import { leftAt, nextCut, type Left, type NextCut } from './coach.ts';
import { stepNumber } from './stepNumber.ts';
import { setUpView, type SetUpView } from './setUpView.ts';
import type { JobState, OperationStatus, Progress, Reading } from './state.ts';
import { anyLastReading, instrumentsHere, machineOf, openOperation, windowOf } from './window.ts';
import type { Machine } from '../part/index.ts';

/**
 * The coach, as data: what kind of advice, why, the next dial, what is expected after it with its spread (one standard
 * deviation), and the filing so far. Lengths are on the part but for `onDial` and `then`.
 */
export type CoachGlance = {
  readonly kind: Advice['kind'];
  readonly why: PhraseId;
  readonly onDial: Length | null;
  readonly passes: number | null;
  readonly then: Length | null;
  readonly expected: Expected | null;
  readonly instrument: InstrumentKind | null;
  readonly place: 'chuck-end' | 'free-end' | 'middle' | 'anywhere' | null;
  readonly size: Expected;
  readonly filing: FilingPlan | null;
  /** What each measured stretch of filing took, and over how many rounds. */
  readonly filed: readonly { readonly removed: Length; readonly rounds: number }[];
};

/** What one look at the machine screen needs to know, as data; the screens only format it. */
export type Glance = {
  readonly step: number;
  readonly steps: number;
  readonly setup: Setup;
  readonly machine: Machine | null;
  readonly operation: Operation;
  readonly window: SizeWindow | null;
  readonly last: Reading | null;
  readonly readings: number;
  readonly left: Left | null;
  readonly cut: NextCut | null;
  /** What the coach makes of it: null where it has nothing to say, or nothing was measured yet. */
  readonly coach: CoachGlance | null;
  readonly progress: Progress;
  readonly instruments: Instruments;
  /** What a set-up shows: jaws, high spot, edges, tap; null elsewhere. */
  readonly setUp: SetUpView | null;
  readonly next: Operation | null;
};

/** The operation that follows in the route and is still waiting, or null. */
export function operationAfter(state: JobState, operation: Operation): Operation | null {
  const rest = state.plan.route.operations.slice(stepNumber(state, operation));
  return rest.find((candidate) => progressOf(state, candidate.id).status === 'waiting') ?? null;
}

function coachGlance(state: JobState, operation: Operation): CoachGlance | null {
  const bench = coachedAt(state, operation);
  if (bench === null || bench.readings === 0) return null;
  const { advice, shop, filed } = bench;
  const now = coachSize(bench.model);
  const cut = advice.kind === 'cut' ? advice : null;
  const reading = advice.kind === 'measure' ? advice : null;
  const expected = 'expected' in advice ? advice.expected : null;
  return {
    kind: advice.kind,
    why: whyOf(bench),
    onDial: cut === null ? null : dialOf(bench, cut.onPart),
    passes: cut?.passes ?? null,
    then: cut === null || cut.then === null ? null : dialOf(bench, cut.then),
    expected: expected === null ? null : { ...expected, size: unmirrored(shop, expected.size) },
    instrument: reading?.instrument ?? null,
    place: reading?.place ?? null,
    size: { size: unmirrored(shop, asLength(now.mean, 'half-even')), spread: asLength(now.spread, 'ceiling') },
    filing: filingPlan(bench),
    filed: filed.map(({ removed, rounds }) => ({ removed: asLength(removed.mean, 'half-even'), rounds })),
  };
}

/** The glance at any operation; null where its set-up is missing, which the schema rules out. */
export function glanceAt(state: JobState, operation: Operation): Glance | null {
  const setup = state.plan.route.setups.find((candidate) => candidate.id === operation.setup);
  if (setup === undefined) return null;
  const progress = progressOf(state, operation.id);
  return {
    step: stepNumber(state, operation),
    steps: state.plan.route.operations.length,
    setup,
    machine: machineOf(state, operation),
    operation,
    window: windowOf(state, operation),
    last: anyLastReading(state, operation),
    readings: sizeOf(progress.readings),
    left: leftAt(state, operation),
    cut: nextCut(state, operation),
    coach: coachGlance(state, operation),
    progress,
    instruments: instrumentsHere(state),
    setUp: setUpView(state, operation),
    next: operationAfter(state, operation),
  };
}

/** The glance at the open operation, or null when all are done. */
export function glance(state: JobState): Glance | null {
  const operation = openOperation(state);
  return operation === null ? null : glanceAt(state, operation);
}

/** The route as a list with how far each step has come. */
export function routeProgress(
  state: JobState,
): readonly { readonly operation: Operation; readonly status: OperationStatus; readonly open: boolean }[] {
  return state.plan.route.operations.map((operation) => ({
    operation,
    status: progressOf(state, operation.id).status,
    open: operation.id === state.open,
  }));
}
