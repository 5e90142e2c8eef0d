import { budgetOf } from '../coach/index.ts';
import { magnitude, minus } from '../measure/index.ts';
import type { Operation } from '../route/index.ts';
import { asLength } from '../trade/index.ts';
import { offAsSaid } from './differenceOff.ts';
import { progressOf } from './fold.ts';
import { downward } from './history.ts';
import { amount, comma, sentence, type Piece } from './reply.ts';
import type { JobState, Reading } from './state.ts';
import { instrumentsHere } from './window.ts';

/** The readings of the size here since metal last came off, the newest first. */
function sinceTheCut(state: JobState, { id, target }: Operation): readonly Reading[] {
  const readings: Reading[] = [];
  for (const work of downward(progressOf(state, id).work)) {
    if (work.did === 'cut' || work.did === 'dialled' || work.did === 'filed') break;
    if (work.did === 'read' && work.reading.quantity === target?.quantity) readings.push(work.reading);
  }
  return readings;
}

/**
 * What a reading across, turned a quarter from the one before it, says of the roundness; nothing after any other reading. The
 * difference of two readings with one instrument is free of its lasting error: U = 2·√2 times what passes (GUM 5.1.2, k = 2).
 */
export function roundnessPieces(state: JobState, operation: Operation): readonly (readonly Piece[])[] {
  const [across, ...before] = sinceTheCut(state, operation);
  if (across === undefined || across.place !== 'across') return [];
  const other = before.find(({ place, instrument }) => place !== 'across' && instrument === across.instrument);
  if (other === undefined) return [];
  const off = magnitude(minus(across.value, other.value));
  const uncertainty = asLength(
    2 * Math.SQRT2 * budgetOf(across.instrument, across.value, instrumentsHere(state)).passing,
    'half-even',
  );
  if (off <= uncertainty) return [sentence('round-as-told')];
  return [sentence('out-of-round-by', amount(off), comma, 'give-or-take', amount(offAsSaid(uncertainty, state)))];
}
