import { nanometres, roundedQuotient, type Length } from '../measure/index.ts';
import type { Machine } from '../part/index.ts';

/** A carriage stop on the dial: whole turns, and where the dial stands at the stop, between its divisions where it must. */
export type DialStop = { readonly turns: number; readonly reads: Length };

/** Turns of the carriage wheel from where the tool touched, with the dial at `from`, to a stop `distance` further. Exact. */
export function dialStop(distance: Length, dial: NonNullable<Machine['carriage']>, from: Length): DialStop {
  const end = distance + from;
  const turns = roundedQuotient(distance, dial.perTurn, 'floor');
  return { turns, reads: nanometres(((end % dial.perTurn) + dial.perTurn) % dial.perTurn) };
}
