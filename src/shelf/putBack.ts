import { bytesOf } from './base64.ts';
import { chainStart } from './chain.ts';
import type { CopiedEvent, CopiedJob, CopiedLog } from './copyRecords.ts';
import { entryAfter, logCheck, type LogEntry } from './log.ts';
import { mergeLogs } from './mergeLogs.ts';
import type { EventRow, JobRow, OpenPages } from './pages.ts';
import { addEvents, headOf, planOf, readLog, type ReadLog } from './storedLog.ts';

/**
 * What the second copy gave back to the browser's database: how many events, whether the plan too, whether the whole job. `cut`
 * says that events are missing all the same: how many, and from which number on.
 */
export type PutBack = {
  readonly events: number;
  readonly plan: boolean;
  readonly whole: boolean;
  readonly setAside: number;
  readonly cut: { readonly from: number; readonly lost: number } | null;
};

const rowOf = (job: string, { seq, text, digest }: CopiedEvent): EventRow => {
  const { id } = JSON.parse(text) as { id: string };
  return { job, seq, id, text, digest };
};
const jobRowOf = ({ id, startedAt, version, plan, rest, digest }: CopiedJob): JobRow => ({
  id,
  startedAt,
  version,
  plan,
  rest,
  digest,
});
const planHolds = ({ id, startedAt, plan, digest }: JobRow): boolean => chainStart(id, startedAt, plan) === digest;

/** The longest log that the chain holds together, each event from where it is sound; the database's where both are. */
function longest(job: JobRow, stored: readonly EventRow[], copied: readonly EventRow[]): readonly LogEntry[] {
  const [here, there] = [stored, copied].map((rows) => new Map(rows.map((row) => [row.seq, row])));
  const log: LogEntry[] = [];
  for (let before = job.digest; ; ) {
    const seq = log.length + 1;
    const next = [here?.get(seq), there?.get(seq)].flatMap((row) =>
      row === undefined ? [] : (entryAfter(before, seq, row) ?? []),
    )[0];
    if (next === undefined) return log;
    log.push(next);
    before = next.row.digest;
  }
}

/**
 * Puts back into the pages what they lack and the copy has: a plan, events that are missing or damaged, or the whole job.
 * Events are joined by id; the checksum chain decides which are sound. What was found damaged is set aside. Null where the copy
 * has nothing to give, and nothing was written.
 */
export async function putBack(
  open: OpenPages,
  read: ReadLog | null,
  copied: CopiedLog,
  foundAt: number,
): Promise<PutBack | null> {
  const spare = jobRowOf(copied.job);
  if (read !== null && read.job.digest !== spare.digest) return null;
  const plan = read === null || (!planHolds(read.job) && planHolds(spare));
  const job = plan ? spare : read.job;
  const readable = planOf(job);
  if (!readable.ok) return null;

  const check = logCheck(job, undefined);
  check.take(copied.events.map((event) => rowOf(job.id, event)));
  const copy = check.found().good.map(({ row }) => row);
  const good = read?.checked.good.map(({ row }) => row) ?? [];
  const tail = read?.checked.tail.map(({ row }) => row) ?? [];
  const log = longest(job, [...good, ...tail], copy).map(({ row }) => row);
  // A copy that went another way from some event on, as when the power went before a merge had reached it, is laid in by id.
  const merged = mergeLogs(
    log.map(({ text }) => text),
    copy.map(({ text }) => text),
  );
  const texts = merged.as === 'merged' ? merged.events : log.map(({ text }) => text);
  const here = new Set([...good, ...tail]);
  const events = texts.length - log.filter((row) => here.has(row)).length;
  if (events === 0 && !plan) return null;

  let same = 0;
  while (same < good.length && good[same]?.text === texts[same]) same += 1;
  const kept = new Set(texts);
  const aside = (read?.checked.tail ?? []).filter(({ row }) => !kept.has(row.text));
  let no = (await open.under('setAside', job.id)).length;
  for (const { row, sound } of aside) {
    no += 1;
    await open.add('setAside', { job: job.id, no, foundAt, seq: row.seq, sound, found: row });
  }
  if (same < good.length || tail.length > 0) await open.cutAfter(job.id, same);
  if (plan) await open.put('jobs', job);
  await addEvents(open, job.id, texts, same + 1, good[same - 1]?.digest ?? job.digest);
  if (read === null) await addClips(open, job.id, copied);
  const now = await readLog(open, job.id);
  if (now !== null)
    await open.put('heads', headOf(job, readable.value.plan, now.checked, read?.head?.origin ?? copied.job.origin));
  const lost = (read?.head?.events ?? 0) - texts.length;
  return { events, plan, whole: read === null, setAside: aside.length, cut: lost > 0 ? { from: texts.length + 1, lost } : null };
}

async function addClips(open: OpenPages, job: string, { clips }: CopiedLog): Promise<void> {
  for (const [clip, base64] of clips) {
    const wav = bytesOf(base64);
    if (wav !== null) await open.put('clips', { job, clip, wav });
  }
}
