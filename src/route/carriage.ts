import { minus, roundedQuotient, times, type Length } from '../measure/index.ts';
import type { Machine } from '../part/index.ts';

/** Turns of the carriage hand-wheel, whole divisions of its dial, and what is left of the way, less than a division. */
export type CarriageTravel = { readonly turns: number; readonly divisions: number; readonly rest: Length };

/** A carriage travel by its dial, the divisions rounded down: no shoulder is cut too far by rounding. */
export function carriageTravel(distance: Length, dial: NonNullable<Machine['carriage']>): CarriageTravel {
  const perTurn = roundedQuotient(dial.perTurn, dial.division, 'half-away');
  const divisions = roundedQuotient(distance, dial.division, 'floor');
  return {
    turns: Math.floor(divisions / perTurn),
    divisions: divisions % perTurn,
    rest: minus(distance, times(dial.division, divisions)),
  };
}
