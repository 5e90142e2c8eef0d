import { asDiameter, asRadius, dividedBy, midway, type Diameter, type Length, type Radius } from '../measure/index.ts';
import type { TurnedFeature } from '../part/index.ts';
import type { Operation } from '../route/index.ts';
import { inOrder } from './history.ts';
import type { JobState } from './state.ts';
import { progressOf } from './fold.ts';

/** The turned feature that an operation is about; null where it is none of them. */
export const turnedOf = (state: JobState, operation: Operation): TurnedFeature | null =>
  state.plan.part.turned.find((feature) => feature.id === operation.feature) ?? null;

/** The throw of the offset journal that an operation is about. */
export function throwOf(state: JobState, operation: Operation): Length | null {
  const feature = turnedOf(state, operation);
  return feature?.kind === 'offset-journal' ? feature.throw : null;
}

/** A feature's diameter as it was last measured anywhere, else the middle of its limits; null where it has none. */
export function diameterNow(state: JobState, feature: TurnedFeature): Diameter | null {
  const measured = state.plan.route.operations
    .filter((operation) => operation.feature === feature.id)
    .flatMap((operation) => inOrder(progressOf(state, operation.id).readings))
    .filter((reading) => reading.quantity === 'diameter')
    .at(-1);
  if (measured !== undefined) return asDiameter(measured.value);
  return 'diameter' in feature ? asDiameter(midway(feature.diameter.low, feature.diameter.high, 'half-even')) : null;
}

export const radiusNow = (state: JobState, feature: TurnedFeature): Radius | null => {
  const across = diameterNow(state, feature);
  return across === null ? null : asRadius(dividedBy(across, 2, 'half-even'));
};

/** A feature's length, the middle of its limits. */
export const lengthOf = (feature: TurnedFeature): Length => midway(feature.length.low, feature.length.high, 'half-even');
