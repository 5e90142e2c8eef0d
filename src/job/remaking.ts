import { fail, ok, type Result } from '../measure/index.ts';
import type { MateReading } from '../part/index.ts';
import { changesBetween, keepMeasuring, remeasured, routeFor, type RouteChange, type RouteFault } from '../route/index.ts';
import type { ToolMaterial } from '../trade/index.ts';
import { remadeAs } from './editing.ts';
import type { EventBody } from './event.ts';
import { inOrder } from './history.ts';
import type { JobState, Reading } from './state.ts';
import { instrumentsHere } from './window.ts';

const asMateReading = ({ value, instrument, quantity }: Reading): MateReading => ({
  value,
  place: 'middle',
  across: 'one-way',
  instrument: instrument ?? (quantity === 'bore' ? 'telescoping-gauge' : 'micrometer'),
});

/** A route generated anew: the event to store, and what it changes in the route as it is worked by. */
export type Remade = { readonly event: EventBody; readonly changes: readonly RouteChange[] };

/**
 * The route generated again from the part with its mates as they were measured at the machine, or every reason why it cannot
 * be. Edits by hand are kept. Where nothing changes, `changes` is empty and there is nothing to store.
 */
export function remadeFrom(state: JobState, tool: ToolMaterial): Result<Remade, readonly RouteFault[]> {
  const readings = Object.fromEntries(
    Object.entries(state.mates).map(([mate, history]) => [mate, inOrder(history).map(asMateReading)]),
  );
  const instruments = instrumentsHere(state);
  const part = remeasured(state.plan.part, readings, instruments);
  const route = routeFor(part, state.plan.machines, tool, instruments);
  if (!route.ok) return fail(route.error);
  const base = keepMeasuring(route.value, state.editing.base);
  const after = remadeAs(state, part, base);
  const event: EventBody = { type: 'RouteRemade', part, route: base };
  return ok({ event, changes: changesBetween(state.plan.route, after.plan.route) });
}
