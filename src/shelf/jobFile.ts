import { z } from 'zod';
import { assert, type Result } from '../measure/index.ts';
import { planSchema, type JobEvent, type Plan } from '../job/index.ts';
import { writeBase64 } from './base64.ts';
import { readKeepingUnknown, type Misfit } from './fieldProblem.ts';
import type { Json, JsonObject, Path } from './json.ts';
import { writeEvent, type UnknownEvent } from './loggedEvent.ts';
import { carriedForward, FILE_VERSION, PLAN_STEPS } from './steps.ts';

export const FILE_FORMAT = 'swarfside-job';

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
