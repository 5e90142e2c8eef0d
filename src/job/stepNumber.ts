import type { Operation } from '../route/index.ts';
import type { JobState } from './state.ts';

/** The step number of an operation, from 1, as it is said aloud. */
export const stepNumber = (state: JobState, operation: Operation): number => state.plan.route.operations.indexOf(operation) + 1;
