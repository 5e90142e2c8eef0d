import { z } from 'zod';
import { assert, fail, ok, type Result } from '../measure/index.ts';
import { planSchema, type JobEvent, type Plan } from '../job/index.ts';
import { bytesOf, writeBase64 } from './base64.ts';
import { glimpse, readKeepingUnknown, type Misfit } from './fieldProblem.ts';
import type { FileFault } from './fileFault.ts';
import { isObject, valueAt, type Json, type JsonObject, type Path } from './json.ts';
import { findJsonFault, lineAndColumn } from './jsonText.ts';
import { readLoggedEvent, writeEvent, type UnknownEvent } from './loggedEvent.ts';
import { carriedForward, FILE_VERSION, PLAN_STEPS } from './steps.ts';

export const FILE_FORMAT = 'swarfside-job';
/** The longest file that is read, in characters: many times the largest job, memos included. */
export const MOST_FILE_LENGTH = 96 * 1024 * 1024;
/** The deepest nesting that is read; a job file needs 8. */
export const MOST_FILE_DEPTH = 32;

/** What was kept although this build does not know it; shown to the person after an import. */
export type FileNotice =
  | { readonly key: 'unknown-field'; readonly path: Path }
  | { readonly key: 'unknown-event'; readonly path: Path; readonly event: UnknownEvent };

/** A job as a file holds it. `job` and `startedAt` are null in a file that is a plan to start from, such as a demo job. */
export type JobFile = {
  readonly job: string | null;
  readonly startedAt: number | null;
  readonly plan: Plan;
  readonly events: readonly JobEvent[];
  readonly unknown: readonly UnknownEvent[];
  /** Sound clips of memos, WAV, by the name that `MemoKept` gives. */
  readonly clips: ReadonlyMap<string, Uint8Array>;
  /**
   * The JSON of plan, events and further top-level fields, one text each: stored and written again as it came, the plan carried
   * to the newest version.
   */
  readonly kept: { readonly plan: string; readonly events: readonly string[]; readonly rest: string };
  /** The plan's own text in a file of an older version, by which a job that was taken in from it before is known; else null. */
  readonly olderPlan: string | null;
  readonly notices: readonly FileNotice[];
};

const jobIdSchema = z.string().regex(/^[A-Za-z0-9][A-Za-z0-9-]{0,63}$/, 'a job id is up to 64 letters, digits and dashes');
const outlineSchema = z.looseObject({
  job: jobIdSchema.optional(),
  startedAt: z.number().int().nonnegative().optional(),
  plan: z.looseObject({}),
  // Each event is read by itself further on; looked into here, all would be copied once more.
  events: z.array(z.unknown()),
  clips: z.record(z.string(), z.string()).optional(),
});
const OWN_FIELDS: ReadonlySet<string> = new Set(['format', 'version', 'job', 'startedAt', 'plan', 'events', 'clips']);

/** Reads a plan of any version, unknown fields aside; `base` is put before the paths. */
export function readPlan(
  json: Json,
  version: number,
  base: Path,
): Result<{ readonly value: Plan; readonly unknownFields: readonly Path[] }, Misfit> {
  return readKeepingUnknown(planSchema, carriedForward(json, version, PLAN_STEPS), base);
}

/** The text of a plan of any version as the newest has it; the same text where it is the newest, or no JSON. */
export function planForward(text: string, version: number): string {
  if (version === FILE_VERSION) return text;
  try {
    return JSON.stringify(carriedForward(JSON.parse(text) as Json, version, PLAN_STEPS));
  } catch (error) {
    if (error instanceof SyntaxError) return text;
    throw error;
  }
}

/** The exact text under which a plan is stored. */
export function writePlan(plan: Plan): string {
  const encoded = z.safeEncode(planSchema, plan);
  assert(encoded.success, `a plan to be stored fits its schema: ${encoded.error?.message ?? ''}`);
  return JSON.stringify(encoded.data);
}

/** A job in memory as a file: for handing out readings that could not be stored. */
export function jobFileOf(job: {
  readonly id: string;
  readonly startedAt: number;
  readonly plan: Plan;
  readonly events: readonly JobEvent[];
}): JobFile {
  const { id, startedAt, plan, events } = job;
  const kept = { plan: writePlan(plan), events: events.map(writeEvent), rest: '{}' };
  return { job: id, startedAt, plan, events, unknown: [], clips: new Map(), kept, olderPlan: null, notices: [] };
}

/** Where in the job a path points, in words that the person knows: the operation's title, the event's kind. */
function nearOf(json: Json, path: Path): string | null {
  for (let length = path.length; length > 0; length -= 1) {
    const holder = valueAt(json, path.slice(0, length));
    if (!isObject(holder)) continue;
    for (const name of ['title', 'name', 'id']) {
      const text = holder[name];
      if (typeof text === 'string' && text.trim() !== '' && length >= 2) return text;
    }
  }
  return null;
}

/**
 * Reads a job file of this version or an older one. Never throws and trusts nothing: length, nesting, every field, the
 * numbering of the events and what they refer to are checked before anything is built. Fields and events that this build
 * does not know are kept and named in `notices`.
 */
export function readJobFile(text: string): Result<JobFile, FileFault> {
  if (text.length > MOST_FILE_LENGTH) return fail({ key: 'too-large', length: text.length, most: MOST_FILE_LENGTH });
  const body = text.startsWith('\uFEFF') ? text.slice(1) : text;
  const broken = findJsonFault(body, MOST_FILE_DEPTH);
  if (broken !== null) {
    const place = { ...lineAndColumn(body, broken.offset), path: broken.path };
    switch (broken.key) {
      case 'syntax':
        return fail({ key: 'not-json', ...place, expected: broken.expected, got: broken.got });
      case 'too-deep':
        return fail({ key: 'too-deep', ...place, most: broken.most });
      case 'number-too-large':
        return fail({ key: 'number-too-large', ...place, got: broken.got });
    }
  }
  const json = JSON.parse(body) as Json;
  if (!isObject(json) || json['format'] !== FILE_FORMAT)
    return fail({ key: 'not-a-job-file', format: isObject(json) && typeof json['format'] === 'string' ? json['format'] : null });
  const invalid = ({ path, problem }: Misfit): Result<never, FileFault> => fail({ key: 'invalid', path, near: nearOf(json, path), problem });
  const says = (path: Path, sentence: string): Result<never, FileFault> =>
    invalid({ path, problem: { key: 'as-the-schema-says', says: sentence, got: glimpse(valueAt(json, path)) } });

  const version = readKeepingUnknown(z.number().int().min(1), json['version'] ?? null, ['version']);
  if (!version.ok) return invalid(json['version'] === undefined ? { path: ['version'], problem: { key: 'missing' } } : version.error);
  if (version.value.value > FILE_VERSION) return fail({ key: 'newer-version', version: version.value.value, newest: FILE_VERSION });
  const outline = readKeepingUnknown(outlineSchema, json, []);
  if (!outline.ok) return invalid(outline.error);
  const plan = readPlan(json['plan'] ?? null, version.value.value, ['plan']);
  if (!plan.ok) return invalid(plan.error);

  const events: JobEvent[] = [];
  const unknown: UnknownEvent[] = [];
  const notices: FileNotice[] = [];
  const notice = (path: Path): void => void notices.push({ key: 'unknown-field', path });
  const rest = Object.keys(json).filter((name) => !OWN_FIELDS.has(name));
  rest.forEach((name) => notice([name]));
  plan.value.unknownFields.forEach(notice);

  const operations = new Set(plan.value.value.route.operations.map((operation) => operation.id));
  const mates = new Set(plan.value.value.part.mates.map((mate) => mate.id));
  const ids = new Set<string>();
  const jsonEvents = json['events'] as readonly Json[];
  for (const [index, jsonEvent] of jsonEvents.entries()) {
    const path: Path = ['events', index];
    const read = readLoggedEvent(jsonEvent, path);
    if (read.as === 'not-an-event' || read.as === 'misfit') return invalid(read.misfit);
    if (read.event.seq !== index + 1) return fail({ key: 'broken-sequence', path: [...path, 'seq'], expected: index + 1, got: read.event.seq });
    if (ids.has(read.event.id)) return says([...path, 'id'], 'an earlier event has the same id');
    if (read.as === 'known') {
      const { body: happened } = read.event;
      if ('operation' in happened && !operations.has(happened.operation))
        return says([...path, 'body', 'operation'], 'no operation of the plan has this id');
      if ('mate' in happened && !mates.has(happened.mate)) return says([...path, 'body', 'mate'], 'no mate of the plan has this id');
      // Edits of the route bring operations that the plan did not have when the job was started.
      if (happened.type === 'RouteEdited' && happened.edit.edit === 'add') operations.add(happened.edit.operation.id);
      if (happened.type === 'RouteEdited' && happened.edit.edit === 'split') operations.add(happened.edit.second);
      if (happened.type === 'RouteRemade') happened.route.operations.forEach((operation) => operations.add(operation.id));
      if (happened.type === 'EventStruck' && !ids.has(happened.event)) return says([...path, 'body', 'event'], 'no earlier event has this id');
      events.push(read.event);
      read.unknownFields.forEach(notice);
    } else {
      unknown.push(read.event);
      notices.push({ key: 'unknown-event', path, event: read.event });
    }
    ids.add(read.event.id);
  }

  const clips = new Map<string, Uint8Array>();
  for (const [name, base64] of Object.entries((json['clips'] ?? {}) as Readonly<Record<string, string>>)) {
    const bytes = bytesOf(base64);
    if (bytes === null) return says(['clips', name], 'a sound clip is written in base64');
    clips.set(name, bytes);
  }
  const { job, startedAt } = outline.value.value;
  const planText = JSON.stringify(json['plan'] ?? null);
  return ok({
    job: job ?? null,
    startedAt: startedAt ?? null,
    plan: plan.value.value,
    events,
    unknown,
    clips,
    kept: {
      plan: planForward(planText, version.value.value),
      events: jsonEvents.map((event) => JSON.stringify(event)),
      rest: JSON.stringify(Object.fromEntries(rest.map((name) => [name, json[name]]))),
    },
    olderPlan: version.value.value < FILE_VERSION ? planText : null,
    notices,
  });
}

/**
 * The text of a job file: the plan laid out for reading, one event a line, clips last. Reading it gives the same job, and
 * writing that gives the same text.
 */
export function writeJobFile(job: JobFile): string {
  const field = (name: string, value: string): string => `  ${JSON.stringify(name)}: ${value}`;
  const indented = (json: Json): string => JSON.stringify(json, null, 2).replaceAll('\n', '\n  ');
  const fields = [field('format', JSON.stringify(FILE_FORMAT)), field('version', String(FILE_VERSION))];
  if (job.job !== null) fields.push(field('job', JSON.stringify(job.job)));
  if (job.startedAt !== null) fields.push(field('startedAt', String(job.startedAt)));
  fields.push(field('plan', indented(JSON.parse(job.kept.plan) as Json)));
  fields.push(field('events', job.kept.events.length === 0 ? '[]' : `[\n    ${job.kept.events.join(',\n    ')}\n  ]`));
  for (const [name, value] of Object.entries(JSON.parse(job.kept.rest) as JsonObject)) fields.push(field(name, indented(value)));
  if (job.clips.size > 0) {
    const lines = [...job.clips].map(([name, wav]) => `    ${JSON.stringify(name)}: "${writeBase64(wav)}"`);
    fields.push(field('clips', `{\n${lines.join(',\n')}\n  }`));
  }
  return `{\n${fields.join(',\n')}\n}\n`;
}
