import { budgetOf } from '../coach/index.ts';
import { micrometres, roundedTo, thou, type Length } from '../measure/index.ts';
import { asLength } from '../trade/index.ts';
import type { JobState, Reading } from './state.ts';
import { instrumentsHere } from './window.ts';

/**
 * What the difference of two readings may be off: U = 2·u, the parts added as squares (GUM 5.1.2). With one instrument its
 * lasting error falls out of the difference.
 */
export function differenceOff(one: Reading, other: Reading, state: JobState): Length {
  const instruments = instrumentsHere(state);
  const [a, b] = [budgetOf(one.instrument, one.value, instruments), budgetOf(other.instrument, other.value, instruments)];
  const lasting = one.instrument === other.instrument ? 0 : Math.hypot(a.lasting, b.lasting);
  return offAsSaid(asLength(2 * Math.hypot(a.passing, b.passing, lasting), 'ceiling'), state);
}

/** What something may be off as it is said: rounded up to a tenth of a thou, or to a micrometre. */
export const offAsSaid = (off: Length, { plan }: JobState): Length =>
  roundedTo(off, plan.part.unit === 'inch' ? thou(0.1) : micrometres(1), 'ceiling');
