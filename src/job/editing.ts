import { ok, type Result } from '../measure/index.ts';
import type { Part } from '../part/index.ts';
import { applyEdit, reapply, type EditFault, type Route, type RouteEdit } from '../route/index.ts';
import type { EventBody } from './event.ts';
import type { JobState } from './state.ts';

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
