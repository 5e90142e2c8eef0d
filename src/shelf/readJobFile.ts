import { z } from 'zod';
import { fail, ok, type Result } from '../measure/index.ts';
import type { JobEvent } from '../job/index.ts';
import { bytesOf } from './base64.ts';
import { glimpse, readKeepingUnknown, type Misfit } from './fieldProblem.ts';
import type { FileFault } from './fileFault.ts';
import { isObject, valueAt, type Json, type Path } from './json.ts';
import { elementText, findJsonFault, lineAndColumn, listNamed } from './jsonText.ts';
import { FILE_FORMAT, planForward, readPlan, type FileNotice, type JobFile } from './jobFile.ts';
import { readLoggedEvent, type UnknownEvent } from './loggedEvent.ts';
import { atOnce, type Sliced } from './slices.ts';
import { FILE_VERSION } from './steps.ts';

/** The longest file that is read, in characters: many times the largest job, memos included. */
export const MOST_FILE_LENGTH = 96 * 1024 * 1024;
/** The deepest nesting that is read; a job file needs 8. */
export const MOST_FILE_DEPTH = 32;

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

/** So many events are read in a few milliseconds. */
const EVENTS_A_SLICE = 50;

/** Reads a job file in one go. */
export const readJobFile = (text: string): Result<JobFile, FileFault> => atOnce(readingJobFile(text));

/**
 * Reads a job file of this version or an older one. Never throws and trusts nothing: length, nesting, every field, the
 * numbering of the events and what they refer to are checked before anything is built. Fields and events that this build
 * does not know are kept and named in `notices`. The events are parsed one by one, and only what stands around them in one go.
 */
export function* readingJobFile(text: string): Sliced<Result<JobFile, FileFault>> {
  if (text.length > MOST_FILE_LENGTH) return fail({ key: 'too-large', length: text.length, most: MOST_FILE_LENGTH });
  const body = text.startsWith('\uFEFF') ? text.slice(1) : text;
  const list = listNamed('events');
  const broken = yield* findJsonFault(body, MOST_FILE_DEPTH, list);
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
  yield;
  const json = JSON.parse(list.from < 0 ? body : body.slice(0, list.from + 1) + body.slice(list.end)) as Json;
  if (!isObject(json) || json['format'] !== FILE_FORMAT)
    return fail({ key: 'not-a-job-file', format: isObject(json) && typeof json['format'] === 'string' ? json['format'] : null });
  const invalid = ({ path, problem }: Misfit, within: Json = json): Result<never, FileFault> =>
    fail({ key: 'invalid', path, near: nearOf(within, path), problem });
  const says = (path: Path, sentence: string, within: Json = json): Result<never, FileFault> =>
    invalid({ path, problem: { key: 'as-the-schema-says', says: sentence, got: glimpse(valueAt(within, path)) } }, within);

  const version = readKeepingUnknown(z.number().int().min(1), json['version'] ?? null, ['version']);
  if (!version.ok)
    return invalid(json['version'] === undefined ? { path: ['version'], problem: { key: 'missing' } } : version.error);
  if (version.value.value > FILE_VERSION)
    return fail({ key: 'newer-version', version: version.value.value, newest: FILE_VERSION });
  const outline = readKeepingUnknown(outlineSchema, json, []);
  if (!outline.ok) return invalid(outline.error);
  yield;
  const plan = readPlan(json['plan'] ?? null, version.value.value, ['plan']);
  if (!plan.ok) return invalid(plan.error);

  yield;

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
  const texts: string[] = [];
  for (let index = 0; index < list.starts.length; index += 1) {
    if (index % EVENTS_A_SLICE === EVENTS_A_SLICE - 1) yield;
    const path: Path = ['events', index];
    const jsonEvent = JSON.parse(elementText(body, list, index)) as Json;
    /** The file with this event alone in its place, for telling what is wrong in it. */
    const alone = (): Json => ({ ...json, events: Object.assign([], { [index]: jsonEvent }) });
    const read = readLoggedEvent(jsonEvent, path);
    if (read.as === 'not-an-event' || read.as === 'misfit') return invalid(read.misfit, alone());
    if (read.event.seq !== index + 1)
      return fail({ key: 'broken-sequence', path: [...path, 'seq'], expected: index + 1, got: read.event.seq });
    if (ids.has(read.event.id)) return says([...path, 'id'], 'an earlier event has the same id', alone());
    if (read.as === 'known') {
      const { body: happened } = read.event;
      if ('operation' in happened && !operations.has(happened.operation))
        return says([...path, 'body', 'operation'], 'no operation of the plan has this id', alone());
      if ('mate' in happened && !mates.has(happened.mate))
        return says([...path, 'body', 'mate'], 'no mate of the plan has this id', alone());
      // Edits of the route bring operations that the plan did not have when the job was started.
      if (happened.type === 'RouteEdited' && happened.edit.edit === 'add') operations.add(happened.edit.operation.id);
      if (happened.type === 'RouteEdited' && happened.edit.edit === 'split') operations.add(happened.edit.second);
      if (happened.type === 'RouteRemade') happened.route.operations.forEach((operation) => operations.add(operation.id));
      if (happened.type === 'EventStruck' && !ids.has(happened.event))
        return says([...path, 'body', 'event'], 'no earlier event has this id', alone());
      events.push(read.event);
      read.unknownFields.forEach(notice);
    } else {
      unknown.push(read.event);
      notices.push({ key: 'unknown-event', path, event: read.event });
    }
    ids.add(read.event.id);
    texts.push(JSON.stringify(jsonEvent));
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
      events: texts,
      rest: JSON.stringify(Object.fromEntries(rest.map((name) => [name, json[name]]))),
    },
    olderPlan: version.value.value < FILE_VERSION ? planText : null,
    notices,
  });
}
