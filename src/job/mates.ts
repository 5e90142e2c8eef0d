import type { Mate } from '../part/index.ts';
import type { Operation } from '../route/index.ts';
import type { JobState } from './state.ts';

/** The mate that an operation is about: the one it measures, the one it fits, or the only one of the part. */
export function mateHere(state: JobState, operation: Operation): Mate | null {
  const mates = state.plan.part.mates;
  const named =
    mates.find((mate) => mate.id === operation.feature) ?? mates.find((mate) => mate.id === operation.target?.fit?.mate);
  if (named !== undefined) return named;
  const feature = state.plan.part.turned.find((candidate) => candidate.id === operation.feature);
  const fitted = feature !== undefined && 'mate' in feature ? mates.find((mate) => mate.id === feature.mate) : undefined;
  return fitted ?? (mates.length === 1 ? (mates[0] ?? null) : null);
}
