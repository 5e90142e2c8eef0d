import { parseThread } from '../trade/index.ts';
import type { Operation } from '../route/index.ts';
import { tapAfter, tapPlan, type TapPlan } from '../setups/index.ts';
import { progressOf } from './fold.ts';
import { comma, count, sentence, type Piece } from './reply.ts';
import type { JobState } from './state.ts';

type Sentences = readonly (readonly Piece[])[];

/** How far the tap of an operation goes; null where it taps nothing that the part knows. */
export function tapHere(state: JobState, operation: Operation): TapPlan | null {
  const hole = state.plan.part.ends.find((feature) => feature.id === operation.feature);
  if (operation.kind !== 'tap' || hole?.kind !== 'tapped-hole') return null;
  const thread = parseThread(hole.designation.replace(/\s+UN[A-Z]*$/i, ''));
  return thread.ok ? tapPlan(thread.value, hole.threadDepth, true) : null;
}

const AFTER_WHOLE = [null, 'and-a-quarter', 'and-a-half', 'and-three-quarters'] as const;
const ALONE = [null, 'a-quarter', 'a-half', 'three-quarters'] as const;

/** Quarter turns in words: "thirteen and a half", "nine", "a quarter". */
export function turnsPieces(quarters: number): readonly Piece[] {
  const whole = Math.floor(quarters / 4);
  const part = (whole === 0 ? ALONE : AFTER_WHOLE)[quarters % 4] ?? null;
  return [
    ...(whole === 0 && part !== null ? [] : [count(whole)]),
    ...(part === null ? [] : [{ say: 'phrase', phrase: part } as const]),
  ];
}

/** All the turns of a tap, for the start. */
export const tapStart = (plan: TapPlan): readonly Piece[] => sentence(...turnsPieces(plan.quarters), 'tap-turns');

/** What to do after the turns that were counted last. */
export function tapNext(state: JobState, operation: Operation): Sentences {
  const plan = tapHere(state, operation);
  const { counts, tappedBefore } = progressOf(state, operation.id).setUp;
  if (plan === null) return [];
  if (counts.turns === undefined) return [tapStart(plan), sentence('back-off-half')];
  const { next, quartersLeft } = tapAfter(plan, tappedBefore * 4, counts.turns * 4);
  switch (next) {
    case 'back-off':
      return [sentence(...turnsPieces(quartersLeft), 'to-go', comma, 'back-off-half')];
    case 'clear-chips':
      return [sentence(...turnsPieces(quartersLeft), 'to-go', comma, 'clear-the-chips')];
    case 'at-depth':
      return [sentence('at-depth')];
    case 'too-deep':
      return [sentence('too-many-turns')];
  }
}
