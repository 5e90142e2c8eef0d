import { fail, minus, ok, plus, type Length, type Result } from '../../measure/index.ts';
import type { Operation } from '../operation.ts';
import type { Route } from '../route.ts';
import { windowOf } from '../window.ts';
import { holdsTheWork, isBesideTheMachine, needs } from './dependencies.ts';
import type { RouteEdit } from './edit.ts';
import type { EditFault } from './editFault.ts';
import { changed, halves, mateSizeAt, mateSizeOf } from './numbers.ts';

/**
 * A route with edits applied. `edits` are those that were applied, each with the size of the mate that it was made at, so that
 * they can be applied again to a route for another size. Every operation of the route before is in it; what is passed over
 * stands in `skipped` too.
 */
export type EditedRoute = {
  readonly route: Route;
  readonly skipped: readonly string[];
  readonly edits: readonly RouteEdit[];
};

export const unedited = (route: Route): EditedRoute => ({ route, skipped: [], edits: [] });

const NONE: ReadonlySet<string> = new Set();

type Applied = Result<{ readonly operations: readonly Operation[]; readonly skipped: readonly string[] }, EditFault>;

/** Whether an operation of a set-up may stand at a place: next to another of the same set-up, so that the work is held for it. */
const fitsBetween = (setup: string, operations: readonly Operation[], at: number): boolean =>
  operations[at - 1]?.setup === setup || operations[at]?.setup === setup;

function moveTo(operations: readonly Operation[], from: number, after: string | null): Result<readonly Operation[], EditFault> {
  const operation = operations[from];
  const target = after === null ? -1 : operations.findIndex(({ id }) => id === after);
  if (operation === undefined || (after !== null && target === -1))
    return fail({ key: 'no-such-operation', operation: after ?? '' });
  const { id } = operation;
  if (target === from || target === from - 1) return fail({ key: 'already-there', operation: id });
  const [first, last] = target < from ? [target + 1, from - 1] : [from + 1, target];
  for (let index = first; index <= last; index++) {
    const passed = operations[index];
    if (passed === undefined) continue;
    if (target < from && needs(operation, passed, operations.slice(index + 1, from)))
      return fail({ key: 'before-what-it-needs', operation: id, needs: passed.id });
    if (target > from && needs(passed, operation, operations.slice(from + 1, index)))
      return fail({ key: 'after-what-needs-it', operation: id, neededBy: passed.id });
  }
  const rest = operations.filter((_, index) => index !== from);
  const at = after === null ? 0 : rest.findIndex(({ id: other }) => other === after) + 1;
  const neighbour = rest[at - 1] ?? rest[at];
  const moved = isBesideTheMachine(operation) && neighbour !== undefined ? { ...operation, setup: neighbour.setup } : operation;
  if (!fitsBetween(moved.setup, rest, at)) return fail({ key: 'other-setup', operation: id, setup: moved.setup });
  return ok([...rest.slice(0, at), moved, ...rest.slice(at)]);
}

/** The size of a mate that the route reckons with, by any operation that is fitted to it; null where none is. */
function mateSizeIn(operations: readonly Operation[], mate: string): Length | null {
  const fitted = operations.find(({ target }) => target?.fit?.mate === mate);
  return mateSizeOf(fitted?.target ?? null);
}

/** An operation of one's own, with its window moved to the size that the route reckons its mate at. */
function brought(operation: Operation, operations: readonly Operation[]): Operation {
  const { target } = operation;
  const mate = target?.fit == null ? null : mateSizeIn(operations, target.fit.mate);
  const then = mateSizeOf(target);
  if (target === null || mate === null || then === null) return operation;
  const from = target.from === null ? null : plus(target.from, minus(mate, then));
  return { ...operation, target: { ...target, ...windowOf(target, mate), from } };
}

function add(operations: readonly Operation[], edit: Extract<RouteEdit, { edit: 'add' }>, route: Route): Applied {
  const { operation, after } = edit;
  if (operations.some(({ id }) => id === operation.id)) return fail({ key: 'id-taken', operation: operation.id });
  if (!route.setups.some(({ id }) => id === operation.setup)) return fail({ key: 'no-such-setup', setup: operation.setup });
  const at = after === null ? 0 : operations.findIndex(({ id }) => id === after) + 1;
  if (after !== null && at === 0) return fail({ key: 'no-such-operation', operation: after });
  if (!fitsBetween(operation.setup, operations, at))
    return fail({ key: 'other-setup', operation: operation.id, setup: operation.setup });
  const all = [...operations.slice(0, at), brought(operation, operations), ...operations.slice(at)];
  return ok({ operations: all, skipped: [] });
}

/** What goes on from a size that was changed starts from the new one. */
function carried(operations: readonly Operation[], before: Operation, after: Operation): Operation[] {
  let carrying = before.target !== null && after.target !== null && before.target.aim !== after.target.aim;
  const start = operations.findIndex(({ id }) => id === after.id);
  return operations.map((operation, index) => {
    const { target } = operation;
    if (!carrying || index <= start || target === null || before.target === null || after.target === null) return operation;
    if (operation.feature !== before.feature || target.quantity !== before.target.quantity) return operation;
    carrying = false;
    return target.from === before.target.aim ? { ...operation, target: { ...target, from: after.target.aim } } : operation;
  });
}

function applied({ route, skipped }: EditedRoute, edit: RouteEdit, done: ReadonlySet<string>): Applied {
  const { operations } = route;
  if (edit.edit === 'add') return add(operations, edit, route);
  const index = operations.findIndex(({ id }) => id === edit.operation);
  const operation = operations[index];
  if (operation === undefined) return fail({ key: 'no-such-operation', operation: edit.operation });
  const with_ = (...instead: readonly Operation[]): readonly Operation[] => [
    ...operations.slice(0, index),
    ...instead,
    ...operations.slice(index + 1),
  ];
  if (edit.edit !== 'note') {
    if (done.has(operation.id)) return fail({ key: 'already-done', operation: operation.id, edit: edit.edit });
    if (skipped.includes(operation.id)) return fail({ key: 'already-skipped', operation: operation.id });
  }
  switch (edit.edit) {
    case 'move': {
      const order = moveTo(operations, index, edit.after);
      if (!order.ok) return order;
      return ok({ operations: order.value, skipped: [] });
    }
    case 'split': {
      if (operations.some(({ id }) => id === edit.second)) return fail({ key: 'id-taken', operation: edit.second });
      const both = halves(operation, edit, mateSizeAt(operations, operation));
      return both.ok ? ok({ operations: with_(...both.value), skipped: [] }) : both;
    }
    case 'skip':
      if (holdsTheWork(operation)) return fail({ key: 'holds-the-work', operation: operation.id });
      return ok({ operations, skipped: [operation.id] });
    case 'note':
      return ok({ operations: with_({ ...operation, note: edit.note }), skipped: [] });
    case 'change': {
      const after = changed(operation, edit, mateSizeAt(operations, operation));
      return after.ok ? ok({ operations: carried(with_(after.value), operation, after.value), skipped: [] }) : after;
    }
  }
}

/**
 * The edit with what it needs to be applied again: the size of the mate that its sizes were set at, unless it says one already,
 * and the whole window where a part of it was set, since a route that is generated anew may have moved the rest.
 */
function anchored(edit: RouteEdit, route: Route): RouteEdit {
  if (edit.edit !== 'change' && edit.edit !== 'split') return edit;
  const operation = route.operations.find(({ id }) => id === edit.operation);
  if (operation === undefined || edit.mateSize !== null) return edit;
  const placed = { ...edit, mateSize: mateSizeAt(route.operations, operation) };
  if (placed.edit === 'split' || operation.target === null) return placed;
  const { numbers } = placed;
  if (numbers.low === undefined && numbers.aim === undefined && numbers.high === undefined) return placed;
  const { low, aim, high } = operation.target;
  return { ...placed, numbers: { ...numbers, low: numbers.low ?? low, aim: numbers.aim ?? aim, high: numbers.high ?? high } };
}

/** One more edit on an edited route; `done` holds the ids of operations that are finished and may no longer change. */
export function applyEdit(
  edited: EditedRoute,
  edit: RouteEdit,
  done: ReadonlySet<string> = NONE,
): Result<EditedRoute, EditFault> {
  const placed = anchored(edit, edited.route);
  const result = applied(edited, placed, done);
  if (!result.ok) return result;
  const { operations, skipped } = result.value;
  return ok({
    route: { ...edited.route, operations: [...operations] },
    skipped: [...edited.skipped, ...skipped],
    edits: [...edited.edits, placed],
  });
}

/** All edits in order, or the first that makes no sense, by its place from 0. Pure. */
export function applyEdits(
  route: Route,
  edits: readonly RouteEdit[],
): Result<EditedRoute, { readonly index: number; readonly fault: EditFault }> {
  let edited = unedited(route);
  for (const [index, edit] of edits.entries()) {
    const next = applyEdit(edited, edit);
    if (!next.ok) return fail({ index, fault: next.error });
    edited = next.value;
  }
  return ok(edited);
}

/** An edit that no longer fits a route that was generated anew, with the reason. It is reported and not dropped in silence. */
export type LeftOver = { readonly edit: RouteEdit; readonly fault: EditFault };

/**
 * The edits applied again to a route that was generated anew, in order. What no longer makes sense (its operation is gone) is
 * left over and told.
 */
export function reapply(
  route: Route,
  edits: readonly RouteEdit[],
): { readonly edited: EditedRoute; readonly leftOver: readonly LeftOver[] } {
  let edited = unedited(route);
  const leftOver: LeftOver[] = [];
  for (const edit of edits) {
    const next = applyEdit(edited, edit);
    if (next.ok) edited = next.value;
    else leftOver.push({ edit, fault: next.error });
  }
  return { edited, leftOver };
}
