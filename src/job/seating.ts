import { minus } from '../measure/index.ts';
import { ringOf } from '../part/index.ts';
import type { Operation } from '../route/index.ts';
import type { Clearances } from '../trade/index.ts';
import { turnedOf } from './featureOf.ts';
import type { JobState } from './state.ts';
import { bearingRing, instrumentsHere, measuredMate, windowOf } from './window.ts';

/**
 * What the window of a seat leaves a bearing whose class the part does not name; null where it is no bearing, or where the step
 * does not bring the seat to its own size.
 */
export function seatOf(state: JobState, operation: Operation): Clearances | null {
  const bored = state.plan.part.ends.find((end) => end.id === operation.feature && end.kind === 'bored-hole');
  const feature = bored?.kind === 'bored-hole' ? bored : turnedOf(state, operation);
  const window = windowOf(state, operation);
  if (feature === null || !('mate' in feature) || window === null) return null;
  const bearing = state.plan.part.mates.find(({ id }) => id === feature.mate);
  const ring = bearing === undefined ? null : ringOf(bearing);
  if (bearing === undefined || ring === null) return null;
  if (window.low !== feature.diameter.low || window.high !== feature.diameter.high) return null;
  const size = bearingRing(ring, bearing, measuredMate(state, bearing.id), instrumentsHere(state));
  return ring === 'inner'
    ? { least: minus(size, window.high), most: minus(size, window.low) }
    : { least: minus(window.low, size), most: minus(window.high, size) };
}
