import { fail, ok, type Result } from '../measure/index.ts';
import type { Plan } from '../job/index.ts';
import { chainStart, link } from './chain.ts';
import { describeFieldProblem } from './fieldProblem.ts';
import { planForward, readPlan, type JobFile } from './jobFile.ts';
import { writePath, type Json } from './json.ts';
import { follows, logCheck, type CheckedLog, type Damage } from './log.ts';
import { EVENTS_A_PART, type EventRow, type HeadRow, type JobRow, type OpenPages, type PageName } from './pages.ts';
import type { ShelfFault, StoredJob } from './shelf.ts';
import { FILE_VERSION } from './steps.ts';

export const LOG_PAGES: readonly PageName[] = ['jobs', 'heads', 'events', 'setAside'];

export type ReadLog = { readonly job: JobRow; readonly head: HeadRow | undefined; readonly checked: CheckedLog };

export async function readLog(open: OpenPages, id: string): Promise<ReadLog | null> {
  const job = await open.get('jobs', id);
  if (job === undefined) return null;
  const head = await open.get('heads', id);
  const check = logCheck(job, head);
  await open.eachPart(id, check.take);
  return { job, head, checked: check.found() };
}

/** The last good entry of a log decides the line in the list. */
export function headOf(job: JobRow, plan: Plan, log: CheckedLog, origin: string | null): HeadRow {
  const last = log.good.at(-1);
  const { title, invented } = plan;
  return {
    job: job.id,
    title,
    invented,
    startedAt: job.startedAt,
    changedAt: last?.read.event.at ?? job.startedAt,
    events: log.good.length,
    digest: last?.row.digest ?? job.digest,
    origin,
  };
}

/**
 * A log as its second copy is filled from it: the rows that the chain holds together, not looked into. Reading the events would
 * take several times as long.
 */
export async function linkedRows(
  open: OpenPages,
  id: string,
): Promise<{ readonly job: JobRow; readonly head: HeadRow | undefined; readonly rows: readonly EventRow[] } | null> {
  const job = await open.get('jobs', id);
  if (job === undefined) return null;
  const head = await open.get('heads', id);
  const rows: EventRow[] = [];
  let whole = true;
  await open.eachPart(id, (part) => {
    for (const row of part) {
      whole &&= follows(rows.at(-1)?.digest ?? job.digest, rows.length + 1, row);
      if (whole) rows.push(row);
    }
  });
  return { job, head, rows };
}

export function planOf(job: JobRow): Result<{ readonly plan: Plan; readonly sound: boolean }, ShelfFault> {
  let json: Json;
  try {
    json = JSON.parse(job.plan) as Json;
  } catch {
    return fail({ key: 'unreadable', job: job.id, path: 'plan', detail: 'it is not JSON' });
  }
  const read = readPlan(json, job.version, ['plan']);
  if (!read.ok)
    return fail({
      key: 'unreadable',
      job: job.id,
      path: writePath(read.error.path),
      detail: describeFieldProblem(read.error.problem),
    });
  return ok({ plan: read.value.value, sound: chainStart(job.id, job.startedAt, job.plan) === job.digest });
}

export function storedJob(job: JobRow, plan: Plan, log: CheckedLog, damage: readonly Damage[], setAside: number): StoredJob {
  const events = log.good.flatMap(({ read }) => (read.as === 'known' ? [read.event] : []));
  const unknown = log.good.flatMap(({ read }) => (read.as === 'known' ? [] : [read.event]));
  const kept = { plan: planForward(job.plan, job.version), events: log.good.map(({ row }) => row.text), rest: job.rest };
  return { id: job.id, plan, startedAt: job.startedAt, events, unknown, nextSeq: log.good.length + 1, damage, setAside, kept };
}

/** Moves the tail that cannot be trusted out of the log and makes the list's line fit what is left. */
export async function setTailAside(open: OpenPages, read: ReadLog, plan: Plan, foundAt: number): Promise<void> {
  const { job, head, checked } = read;
  let no = (await open.under('setAside', job.id)).length;
  for (const { row, sound } of checked.tail) {
    no += 1;
    await open.add('setAside', { job: job.id, no, foundAt, seq: row.seq, sound, found: row });
  }
  if (checked.tail.length > 0) await open.cutAfter(job.id, checked.good.length);
  await open.put('heads', headOf(job, plan, checked, head?.origin ?? null));
}

/**
 * Adds events from number `from` on, linked to `before`; gives the last digest. `added` hears now and then how many of the log
 * are there; the transaction is not done before its end.
 */
export async function addEvents(
  open: OpenPages,
  job: string,
  texts: readonly string[],
  from: number,
  before: string,
  added: (events: number) => void = () => undefined,
): Promise<string> {
  let digest = before;
  for (let at = from - 1; at < texts.length; at += EVENTS_A_PART) {
    const part = texts.slice(at, at + EVENTS_A_PART).map((text, index): EventRow => {
      digest = link(digest, text);
      const { id } = JSON.parse(text) as { id: string };
      return { job, seq: at + index + 1, id, text, digest };
    });
    await open.addEvents(part);
    added(at + part.length);
  }
  return digest;
}

export async function addClips(open: OpenPages, job: string, file: JobFile): Promise<void> {
  for (const [clip, wav] of file.clips)
    if ((await open.get('clips', [job, clip])) === undefined) await open.add('clips', { job, clip, wav });
}

export async function addJob(
  open: OpenPages,
  id: string,
  startedAt: number,
  file: JobFile,
  origin: string | null,
  added?: (events: number) => void,
): Promise<void> {
  const { plan, rest } = file.kept;
  const job: JobRow = { id, startedAt, version: FILE_VERSION, plan, rest, digest: chainStart(id, startedAt, plan) };
  const digest = await addEvents(open, id, file.kept.events, 1, job.digest, added);
  const lastAt = Math.max(...[file.events.at(-1)?.at, file.unknown.at(-1)?.at].map((at) => at ?? startedAt));
  const { title, invented } = file.plan;
  await open.add('jobs', job);
  await open.put('heads', {
    job: id,
    title,
    invented,
    startedAt,
    changedAt: lastAt,
    events: file.kept.events.length,
    digest,
    origin,
  });
  await addClips(open, id, file);
}
