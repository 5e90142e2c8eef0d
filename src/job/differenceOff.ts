import { budgetOf } from '../coach/index.ts';
import { roundedTo, thou, type Instruments, type Length } from '../measure/index.ts';
import { asLength } from '../trade/index.ts';
import type { Reading } from './state.ts';

/**
 * What the difference of two readings may be off, rounded up to a tenth: U = 2·u, the parts added as squares (GUM 5.1.2). With
 * one instrument its lasting error falls out of the difference.
 */
export function differenceOff(one: Reading, other: Reading, instruments: Instruments): Length {
  const [a, b] = [budgetOf(one.instrument, one.value, instruments), budgetOf(other.instrument, other.value, instruments)];
  const lasting = one.instrument === other.instrument ? 0 : Math.hypot(a.lasting, b.lasting);
  return roundedTo(asLength(2 * Math.hypot(a.passing, b.passing, lasting), 'ceiling'), thou(0.1), 'ceiling');
}
