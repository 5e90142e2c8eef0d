import { minus } from '../measure/index.ts';
import type { Operation } from '../route/index.ts';
import type { Clearances } from '../trade/index.ts';
import { turnedOf } from './featureOf.ts';
import type { JobState } from './state.ts';
import { bearingBore, measuredMate, windowOf } from './window.ts';

/**
 * What the window of a seat leaves a bearing whose class the part does not name; null where it is no bearing, or where the step
 * does not bring the seat to its own size.
 */
export function seatOf(state: JobState, operation: Operation): Clearances | null {
  const feature = turnedOf(state, operation);
  const window = windowOf(state, operation);
  if (feature === null || !('mate' in feature) || window === null) return null;
  const bearing = state.plan.part.mates.find(({ id, kind }) => id === feature.mate && kind === 'bearing');
  if (bearing === undefined || window.low !== feature.diameter.low || window.high !== feature.diameter.high) return null;
  const bore = bearingBore(bearing, measuredMate(state, bearing.id));
  return { least: minus<typeof bore>(bore, window.high), most: minus<typeof bore>(bore, window.low) };
}
