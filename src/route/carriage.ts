import { roundedQuotient, type Length } from '../measure/index.ts';
import type { Machine } from '../part/index.ts';

/** Turns of the carriage hand-wheel and divisions of its dial. */
export type CarriageTravel = { readonly turns: number; readonly divisions: number };

/** A carriage travel as whole turns and the nearest division, half away from zero; a full turn of divisions counts as a turn. */
export function carriageTravel(distance: Length, dial: NonNullable<Machine['carriage']>): CarriageTravel {
  const perTurn = roundedQuotient(dial.perTurn, dial.division, 'half-away');
  const divisions = roundedQuotient(distance, dial.division, 'half-away');
  return { turns: Math.floor(divisions / perTurn), divisions: divisions % perTurn };
}
