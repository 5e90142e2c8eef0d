import { z } from 'zod';
import { formatSize, parseLength, type DisplayUnit, type Length } from '../../measure/index.ts';
import { operationSchema, type Operation } from '../operation.ts';
import type { Route } from '../route.ts';

/** One value of an operation as it was or as it is; null where there is none. */
export type ChangedValue =
  | { readonly as: 'length'; readonly length: Length }
  | { readonly as: 'number'; readonly number: number }
  | { readonly as: 'words'; readonly words: string }
  | null;

/**
 * What is different between two routes, one entry a value. `field` is the way to the value within the operation
 * (`target.aim`, `cut.speedRpm`); `title` is the operation's as it is now.
 */
export type RouteChange =
  | { readonly change: 'added' | 'removed'; readonly operation: string; readonly title: string }
  | { readonly change: 'moved'; readonly operation: string; readonly title: string; readonly after: string | null }
  | {
      readonly change: 'value';
      readonly operation: string;
      readonly title: string;
      readonly field: string;
      readonly from: ChangedValue;
      readonly to: ChangedValue;
    };

type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };

/** Lengths are text with a unit once encoded, so a value tells by itself what it is. */
const LENGTH = /^-?[\d.]+(?:in|mm)$/;

function valueOf(json: Json | undefined): ChangedValue {
  if (typeof json === 'number') return { as: 'number', number: json };
  if (typeof json !== 'string') return typeof json === 'boolean' ? { as: 'words', words: json ? 'yes' : 'no' } : null;
  const length = LENGTH.test(json) ? parseLength(json, 'millimetre') : null;
  return length?.ok === true ? { as: 'length', length: length.value } : { as: 'words', words: json };
}

function leaves(json: Json, path: string, into: Map<string, Json>): Map<string, Json> {
  if (json !== null && typeof json === 'object')
    for (const [key, value] of Object.entries(json)) leaves(value, path === '' ? key : `${path}.${key}`, into);
  else if (json !== null) into.set(path, json);
  return into;
}

const leavesOf = (operation: Operation): Map<string, Json> =>
  leaves(z.encode(operationSchema, operation) as unknown as Json, '', new Map());

function valueChanges(before: Operation, after: Operation): RouteChange[] {
  const [was, is] = [leavesOf(before), leavesOf(after)];
  const fields = [...new Set([...was.keys(), ...is.keys()])].filter((field) => was.get(field) !== is.get(field));
  return fields.map(
    (field): RouteChange => ({
      change: 'value',
      operation: after.id,
      title: after.title,
      field,
      from: valueOf(was.get(field)),
      to: valueOf(is.get(field)),
    }),
  );
}

/** The ids that keep their order from one route to the other: a longest common run, so that the fewest count as moved. */
function staying(before: readonly string[], after: readonly string[]): ReadonlySet<string> {
  const place = new Map(before.map((id, index) => [id, index]));
  const ranks = after.map((id) => place.get(id) ?? -1);
  // Longest increasing run by patience: `ends[n]` is the place in `after` where the best run of length n + 1 ends.
  const ends: number[] = [];
  const previous: number[] = [];
  ranks.forEach((rank, index) => {
    let low = 0;
    let high = ends.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((ranks[ends[middle] ?? 0] ?? -1) < rank) low = middle + 1;
      else high = middle;
    }
    previous[index] = low === 0 ? -1 : (ends[low - 1] ?? -1);
    ends[low] = index;
  });
  const kept = new Set<string>();
  for (let at = ends.at(-1) ?? -1; at >= 0; at = previous[at] ?? -1) kept.add(after[at] ?? '');
  return kept;
}

/**
 * What changed from one route to another: operations gone and added, moved, and every value that is different, in the order of
 * the route as it is now. Two equal routes give none.
 */
export function changesBetween(before: Route, after: Route): readonly RouteChange[] {
  const was = new Map(before.operations.map((operation) => [operation.id, operation]));
  const is = new Set(after.operations.map(({ id }) => id));
  const gone = before.operations.filter(({ id }) => !is.has(id));
  const stay = staying(
    before.operations.map(({ id }) => id).filter((id) => is.has(id)),
    after.operations.map(({ id }) => id).filter((id) => was.has(id)),
  );
  return [
    ...gone.map(({ id, title }): RouteChange => ({ change: 'removed', operation: id, title })),
    ...after.operations.flatMap((operation, index): RouteChange[] => {
      const { id, title } = operation;
      const old = was.get(id);
      if (old === undefined) return [{ change: 'added', operation: id, title }];
      const moved: RouteChange[] = stay.has(id)
        ? []
        : [{ change: 'moved', operation: id, title, after: after.operations[index - 1]?.title ?? null }];
      return [...moved, ...valueChanges(old, operation)];
    }),
  ];
}

/** What each value of an operation is called. */
const FIELD_NAMES: ReadonlyMap<string, string> = new Map([
  ['target.low', 'low limit'],
  ['target.aim', 'size to aim at'],
  ['target.high', 'high limit'],
  ['target.from', 'size to start from'],
  ['target.fit.leastClearance', 'least clearance'],
  ['target.fit.mostClearance', 'most clearance'],
  ['target.fit.name', 'fit'],
  ['target.fit.mate', 'mate'],
  ['target.quantity', 'what is measured'],
  ['target.datum', 'what it is counted from'],
  ['stop.distance', 'stop'],
  ['stop.from', 'zero of the stop'],
  ['cut.speedRpm', 'spindle speed'],
  ['cut.feedPerTurn', 'feed'],
  ['cut.depthOnRadius', 'depth of cut'],
  ['cut.tool', 'tool'],
  ['cut.note', 'how it is cut'],
  ['minutes', 'minutes'],
  ['setup', 'set-up'],
  ['say', 'words'],
]);

const fieldName = (field: string): string => FIELD_NAMES.get(field) ?? field.replace(/[.-]/g, ' ');

function valueText(value: ChangedValue, unit: DisplayUnit): string {
  if (value === null) return 'none';
  switch (value.as) {
    case 'length':
      return formatSize(value.length, unit);
    case 'number':
      return String(value.number);
    case 'words':
      return `"${value.words}"`;
  }
}

/** A change as one line in plain words: `Finish the arm journal: size to aim at .6265 in, now .6262 in`. */
export function describeChange(change: RouteChange, unit: DisplayUnit): string {
  switch (change.change) {
    case 'added':
      return `${change.title}: added`;
    case 'removed':
      return `${change.title}: taken out`;
    case 'moved':
      return `${change.title}: moved ${change.after === null ? 'to the beginning' : `after "${change.after}"`}`;
    case 'value':
      return `${change.title}: ${fieldName(change.field)} ${valueText(change.from, unit)}, now ${valueText(change.to, unit)}`;
  }
}
