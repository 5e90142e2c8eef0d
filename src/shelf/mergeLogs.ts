import { valueAt, type JsonObject } from './json.ts';

/** Two logs of one job made one, as JSON texts numbered from 1. */
export type Merged =
  | {
      readonly as: 'merged';
      readonly events: readonly string[];
      /** How many came from the second log, and how many only the first had. */
      readonly added: number;
      readonly onlyHere: number;
      /** The operations at which both logs had been busy by themselves: the person should look at them. */
      readonly both: readonly string[];
    }
  /** The logs hold different events under one id, or what they share in another order: no one history has both. */
  | { readonly as: 'no-one-history' };

type Entry = { readonly id: string; readonly at: number; readonly json: JsonObject };

function entryOf(text: string): Entry {
  const json = JSON.parse(text) as JsonObject & { readonly id: string; readonly at: number };
  return { id: json.id, at: json.at, json };
}
/** An event apart from its number, which a merge may change. The place of the field in the text stays. */
const numbered = (json: JsonObject, seq: number): string => JSON.stringify({ ...json, seq });

/** Lays two runs of events into one another by time, ties by id; each keeps its own order. The same whichever comes first. */
function laidTogether(a: readonly Entry[], b: readonly Entry[]): readonly Entry[] {
  const laid: Entry[] = [];
  let [i, j] = [0, 0];
  for (;;) {
    const [x, y] = [a[i], b[j]];
    if (x === undefined && y === undefined) return laid;
    if (y === undefined || (x !== undefined && (x.at < y.at || (x.at === y.at && x.id < y.id)))) {
      if (x !== undefined) laid.push(x);
      i += 1;
    } else {
      laid.push(y);
      j += 1;
    }
  }
}

const operationsOf = (entries: readonly Entry[]): ReadonlySet<string> =>
  new Set(entries.map(({ json }) => valueAt(json, ['body', 'operation'])).filter((operation) => typeof operation === 'string'));

/**
 * Joins two logs of one job by the ids of their events. Laws: the order of the two does not matter, a log joined with itself
 * or with a part of its beginning is itself, every event of both is there once, and each log's own order is kept.
 */
export function mergeLogs(here: readonly string[], there: readonly string[]): Merged {
  const a = here.map(entryOf);
  const b = there.map(entryOf);
  const placeInB = new Map(b.map((entry, index) => [entry.id, index]));
  const merged: Entry[] = [];
  const onlyA: Entry[] = [];
  const onlyB: Entry[] = [];
  // What both have cuts the logs into stretches; each pair of stretches is laid together by itself.
  let stretch: Entry[] = [];
  let nextInB = 0;
  const close = (endInB: number): void => {
    const stretchB = b.slice(nextInB, endInB);
    merged.push(...laidTogether(stretch, stretchB));
    onlyA.push(...stretch);
    onlyB.push(...stretchB);
    stretch = [];
  };
  for (const entry of a) {
    const place = placeInB.get(entry.id);
    if (place === undefined) {
      stretch.push(entry);
      continue;
    }
    const other = b[place];
    if (place < nextInB || other === undefined || numbered(entry.json, 0) !== numbered(other.json, 0)) return { as: 'no-one-history' };
    close(place);
    merged.push(entry);
    nextInB = place + 1;
  }
  close(b.length);
  const busyThere = operationsOf(onlyB);
  return {
    as: 'merged',
    events: merged.map(({ json }, index) => numbered(json, index + 1)),
    added: onlyB.length,
    onlyHere: onlyA.length,
    both: [...operationsOf(onlyA)].filter((operation) => busyThere.has(operation)),
  };
}
