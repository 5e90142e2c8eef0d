import type { Diameter, Length } from '../measure/index.ts';
import type { Operation } from '../route/index.ts';
import type { HighSpot, JawAdvice, JawReading, SpotReading, TapPlan } from '../setups/index.ts';
import { jawAdvice } from './dialling.ts';
import { finderTip } from './edging.ts';
import { progressOf } from './fold.ts';
import { nextDegrees, spotSoFar } from './spotting.ts';
import type { JobState } from './state.ts';
import { tapHere } from './tapping.ts';

/** What a set-up operation shows at a glance, as data; null where the operation is none. Words are the answers' affair. */
export type SetUpView =
  | { readonly of: 'jaws'; readonly readings: readonly JawReading[]; readonly advice: JawAdvice }
  | {
      readonly of: 'high-spot';
      readonly readings: readonly SpotReading[];
      readonly nextDegrees: number;
      readonly spot: HighSpot | null;
    }
  | { readonly of: 'edges'; readonly tip: Diameter; readonly end: Length | null }
  | { readonly of: 'tap'; readonly plan: TapPlan; readonly quartersDone: number };

export function setUpView(state: JobState, operation: Operation): SetUpView | null {
  const { setUp } = progressOf(state, operation.id);
  if (operation.kind === 'dial-in')
    return { of: 'jaws', readings: setUp.chuck.filter((reading) => 'jaw' in reading), advice: jawAdvice(state, operation) };
  if (operation.kind === 'find-high-spot')
    return {
      of: 'high-spot',
      readings: setUp.spots,
      nextDegrees: nextDegrees(state, operation),
      spot: spotSoFar(state, operation),
    };
  if (operation.kind === 'find-edge') return { of: 'edges', tip: finderTip(state, operation), end: setUp.end };
  const plan = tapHere(state, operation);
  return plan === null ? null : { of: 'tap', plan, quartersDone: (setUp.counts.turns ?? 0) * 4 };
}
