import { fail, ok, type Result } from '../measure/index.ts';
import type { FileFault } from './fileFault.ts';
import { FILE_FORMAT, type JobFile } from './jobFile.ts';
import { isObject, type Json, type JsonObject } from './json.ts';
import { readLoggedEvent } from './loggedEvent.ts';
import { mergeLogs } from './mergeLogs.ts';
import { readJobFile } from './readJobFile.ts';

/**
 * What a device tells of a job besides its events: the JSON text of the plan with the version of the file that it would stand
 * in, and when the job was started.
 */
export type JobHead = { readonly job: string; readonly startedAt: number; readonly plan: string; readonly version: number };

/** An event that came from another device and was not taken in. */
export type RefusedEvent = { readonly id: string; readonly fault: FileFault };

export type Joined = {
  /** A file that passed every check of an import, for `Shelf.take`; null where nothing is new. */
  readonly file: JobFile | null;
  readonly refused: readonly RefusedEvent[];
};

function parsed(text: string): JsonObject | null {
  try {
    const json = JSON.parse(text) as Json;
    return isObject(json) ? json : null;
  } catch {
    return null;
  }
}

/** The text of a file with these events; nothing in it has been checked. `JSON.parse` of the plan may throw. */
const fileText = ({ job, startedAt, plan, version }: JobHead, events: readonly string[]): string =>
  JSON.stringify({
    format: FILE_FORMAT,
    version,
    job,
    startedAt,
    plan: JSON.parse(plan) as Json,
    events: events.map((text) => JSON.parse(text) as Json),
  });

const idOf = (json: JsonObject | null): string => (typeof json?.['id'] === 'string' ? json['id'] : 'without an id');

const inOrder = (a: JsonObject, b: JsonObject): number => {
  const [x, y] = [a as { id: string; at: number }, b as { id: string; at: number }];
  return x.at - y.at || (x.id < y.id ? -1 : 1);
};

/**
 * Events of one job from other devices laid by their time into what is here (`here` is null where the job is not), and read as
 * a file is: trusted in nothing. An event that does not pass is left out by itself and named; the rest come in. Fails where
 * the plan itself does not read.
 */
export function joinEvents(head: JobHead, here: readonly string[] | null, foreign: readonly string[]): Result<Joined, FileFault> {
  const known = new Set((here ?? []).map((text) => parsed(text)?.['id']));
  const refused: RefusedEvent[] = [];
  let coming: JsonObject[] = [];
  for (const text of foreign) {
    const json = parsed(text);
    if (json === null || known.has(json['id'])) continue;
    const read = readLoggedEvent({ ...json, seq: 1 }, ['events', 0]);
    if (read.as === 'known' || read.as === 'unknown') coming.push({ ...json, seq: 1 });
    else refused.push({ id: idOf(json), fault: { key: 'invalid', near: null, ...read.misfit } });
  }
  if (here !== null && coming.length === 0) return ok({ file: null, refused });
  if (parsed(head.plan) === null) return fail({ key: 'not-a-job-file', format: null });
  for (;;) {
    const merged = mergeLogs(
      here ?? [],
      [...coming].sort(inOrder).map((event) => JSON.stringify(event)),
    );
    // The ids of the two sides differ, so nothing can speak against one history.
    const events = merged.as === 'merged' ? merged.events : (here ?? []);
    const file = readJobFile(fileText(head, events));
    if (file.ok) return ok({ file: file.value, refused });
    // Each event by itself is sound; one that refers to what is not there is left out, and the rest are tried again.
    const { path } = 'path' in file.error ? file.error : { path: [] };
    const bad = path[0] === 'events' && typeof path[1] === 'number' ? parsed(events[path[1]] ?? '') : null;
    const left = coming.filter((event) => event['id'] !== bad?.['id']);
    if (bad === null || left.length === coming.length) return fail(file.error);
    refused.push({ id: idOf(bad), fault: file.error });
    coming = left;
    if (here !== null && coming.length === 0) return ok({ file: null, refused });
  }
}
