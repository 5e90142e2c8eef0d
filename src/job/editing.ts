import { fail, ok, type Result } from '../measure/index.ts';
import type { MateReading, Part } from '../part/index.ts';
import {
  applyEdit,
  changesBetween,
  keepMeasuring,
  reapply,
  remeasured,
  routeFor,
  type EditFault,
  type Route,
  type RouteChange,
  type RouteEdit,
  type RouteFault,
} from '../route/index.ts';
import type { ToolMaterial } from '../trade/index.ts';
import type { EventBody } from './event.ts';
import { inOrder } from './history.ts';
import type { JobState, Reading } from './state.ts';

/** What is passed over by an edit. */
const skippedIn = ({ editing, plan }: JobState): readonly string[] =>
  editing.edits.flatMap((edit) =>
    edit.edit === 'skip' && plan.route.operations.some(({ id }) => id === edit.operation) ? [edit.operation] : [],
  );

/** The operations that are done, and so no longer change. */
export const doneIn = (state: JobState): ReadonlySet<string> =>
  new Set(Object.entries(state.progress).flatMap(([operation, { status }]) => (status === 'done' ? [operation] : [])));

/** The state with one more edit of its route; an edit that no longer applies (one before it was struck) is left over and told. */
export function editedBy(state: JobState, edit: RouteEdit): JobState {
  const { editing } = state;
  const { edits, leftOver } = editing;
  const next = applyEdit({ route: state.plan.route, skipped: skippedIn(state), edits }, edit);
  if (!next.ok)
    return { ...state, editing: { ...editing, edits: [...edits, edit], leftOver: [...leftOver, { edit, fault: next.error }] } };
  return { ...state, plan: { ...state.plan, route: next.value.route }, editing: { ...editing, edits: next.value.edits } };
}

/** The state with a route that was generated anew; the edits that stand are applied to it again. */
export function remadeAs(state: JobState, part: Part, base: Route): JobState {
  const { edited, leftOver } = reapply(base, state.editing.edits);
  return { ...state, plan: { ...state.plan, part, route: edited.route }, editing: { ...state.editing, base, leftOver } };
}

/** The event that edits the route of a job, or why the edit makes no sense where the job stands. */
export function editOf(state: JobState, edit: RouteEdit): Result<EventBody, EditFault> {
  const { route } = state.plan;
  const next = applyEdit({ route, skipped: skippedIn(state), edits: state.editing.edits }, edit, doneIn(state));
  if (!next.ok) return next;
  // The edit is stored with the size of the mate that it was made at.
  return ok({ type: 'RouteEdited', edit: next.value.edits.at(-1) ?? edit });
}

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
  const part = remeasured(state.plan.part, readings);
  const route = routeFor(part, state.plan.machines, tool);
  if (!route.ok) return fail(route.error);
  const base = keepMeasuring(route.value, state.editing.base);
  const after = remadeAs(state, part, base);
  const event: EventBody = { type: 'RouteRemade', part, route: base };
  return ok({ event, changes: changesBetween(state.plan.route, after.plan.route) });
}
