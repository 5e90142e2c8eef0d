import { nanometres, roundedQuotient, roundedTo, type Length } from '../measure/index.ts';
import type { Machine } from '../part/index.ts';

/** A carriage stop on the dial: whole turns, and where the dial stands at the stop. */
export type DialStop = { readonly turns: number; readonly reads: Length };

/**
 * Turns of the carriage wheel from where the tool touched, with the dial at `from`, to a stop `distance` further; `reads` is to the
 * nearest division. A dial that comes round to where it began has made whole turns.
 */
export function dialStop(distance: Length, dial: NonNullable<Machine['carriage']>, from: Length): DialStop {
  const end = roundedTo(nanometres(distance + from), dial.division, 'half-away');
  const turns = roundedQuotient(nanometres(end - from), dial.perTurn, 'floor');
  return { turns, reads: nanometres(((end % dial.perTurn) + dial.perTurn) % dial.perTurn) };
}
