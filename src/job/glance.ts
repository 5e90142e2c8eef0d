import type { Operation, Setup, SizeWindow } from '../route/index.ts';
import { sizeOf } from './history.ts';
import { progressOf } from './fold.ts';
import { leftAt, nextCut, type Left, type NextCut } from './coach.ts';
import type { JobState, OperationStatus, Progress, Reading } from './state.ts';
import { anyLastReading, machineOf, openOperation, windowOf } from './window.ts';
import type { Machine } from '../part/index.ts';

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
  readonly progress: Progress;
  readonly next: Operation | null;
};

/** The step number of an operation, from 1, as it is said aloud. */
export const stepNumber = (state: JobState, operation: Operation): number => state.plan.route.operations.indexOf(operation) + 1;

/** The operation that follows in the route and is still waiting, or null. */
export function operationAfter(state: JobState, operation: Operation): Operation | null {
  const rest = state.plan.route.operations.slice(stepNumber(state, operation));
  return rest.find((candidate) => progressOf(state, candidate.id).status === 'waiting') ?? null;
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
    progress,
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
