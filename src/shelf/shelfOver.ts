import { fail, ok, type Result } from '../measure/index.ts';
import type { JobEvent, Plan } from '../job/index.ts';
import { chainStart, contentDigest, link } from './chain.ts';
import { writePath, type Json } from './json.ts';
import { jobFileOf, planForward, readPlan, type JobFile } from './jobFile.ts';
import { describeFieldProblem } from './fieldProblem.ts';
import { checkLog, type CheckedLog, type Damage } from './log.ts';
import { writeEvent } from './loggedEvent.ts';
import { mergeLogs } from './mergeLogs.ts';
import { PagesError, type EventRow, type HeadRow, type JobRow, type OpenPages, type PageName, type Pages } from './pages.ts';
import type { Shelf, ShelfFault, StoredJob, Taken } from './shelf.ts';
import { FILE_VERSION } from './steps.ts';

const LOG_PAGES: readonly PageName[] = ['jobs', 'heads', 'events', 'setAside'];

type ReadLog = { readonly job: JobRow; readonly head: HeadRow | undefined; readonly checked: CheckedLog };

async function readLog(open: OpenPages, id: string): Promise<ReadLog | null> {
  const job = await open.get('jobs', id);
  if (job === undefined) return null;
  const head = await open.get('heads', id);
  return { job, head, checked: checkLog(job, head, await open.under('events', id)) };
}

/** The last good entry of a log decides the line in the list. */
function headOf(job: JobRow, plan: Plan, log: CheckedLog, origin: string | null): HeadRow {
  const last = log.good.at(-1);
  const { title, invented } = plan;
  return {
    job: job.id, title, invented, startedAt: job.startedAt, changedAt: last?.read.event.at ?? job.startedAt,
    events: log.good.length, digest: last?.row.digest ?? job.digest, origin,
  };
}

function planOf(job: JobRow): Result<{ readonly plan: Plan; readonly sound: boolean }, ShelfFault> {
  let json: Json;
  try {
    json = JSON.parse(job.plan) as Json;
  } catch {
    return fail({ key: 'unreadable', job: job.id, path: 'plan', detail: 'it is not JSON' });
  }
  const read = readPlan(json, job.version, ['plan']);
  if (!read.ok)
    return fail({ key: 'unreadable', job: job.id, path: writePath(read.error.path), detail: describeFieldProblem(read.error.problem) });
  return ok({ plan: read.value.value, sound: chainStart(job.id, job.startedAt, job.plan) === job.digest });
}

function storedJob(job: JobRow, plan: Plan, log: CheckedLog, damage: readonly Damage[], setAside: number): StoredJob {
  const events = log.good.flatMap(({ read }) => (read.as === 'known' ? [read.event] : []));
  const unknown = log.good.flatMap(({ read }) => (read.as === 'known' ? [] : [read.event]));
  const kept = { plan: planForward(job.plan, job.version), events: log.good.map(({ row }) => row.text), rest: job.rest };
  return { id: job.id, plan, startedAt: job.startedAt, events, unknown, nextSeq: log.good.length + 1, damage, setAside, kept };
}

/** Moves the tail that cannot be trusted out of the log and makes the list's line fit what is left. */
async function setTailAside(open: OpenPages, read: ReadLog, plan: Plan, foundAt: number): Promise<void> {
  const { job, head, checked } = read;
  let no = (await open.under('setAside', job.id)).length;
  for (const { row, sound } of checked.tail) {
    no += 1;
    await open.add('setAside', { job: job.id, no, foundAt, seq: row.seq, sound, found: row });
    await open.remove('events', [job.id, row.seq]);
  }
  await open.put('heads', headOf(job, plan, checked, head?.origin ?? null));
}

/** Adds events from number `from` on, linked to `before`; gives the last digest. */
async function addEvents(open: OpenPages, job: string, texts: readonly string[], from: number, before: string): Promise<string> {
  let digest = before;
  // Asked for by the hundred and then awaited: one at a time, a long log would wait for each of its events.
  let asked: Promise<void>[] = [];
  for (const [index, text] of texts.entries()) {
    if (index + 1 < from) continue;
    digest = link(digest, text);
    const { id } = JSON.parse(text) as { id: string };
    asked.push(open.add('events', { job, seq: index + 1, id, text, digest }));
    if (asked.length < 500) continue;
    await Promise.all(asked);
    asked = [];
  }
  await Promise.all(asked);
  return digest;
}

async function addClips(open: OpenPages, job: string, file: JobFile): Promise<void> {
  for (const [clip, wav] of file.clips) if ((await open.get('clips', [job, clip])) === undefined) await open.add('clips', { job, clip, wav });
}

async function addJob(open: OpenPages, id: string, startedAt: number, file: JobFile, origin: string | null): Promise<void> {
  const { plan, rest } = file.kept;
  const job: JobRow = { id, startedAt, version: FILE_VERSION, plan, rest, digest: chainStart(id, startedAt, plan) };
  const digest = await addEvents(open, id, file.kept.events, 1, job.digest);
  const lastAt = Math.max(...[file.events.at(-1)?.at, file.unknown.at(-1)?.at].map((at) => at ?? startedAt));
  const { title, invented } = file.plan;
  await open.add('jobs', job);
  await open.put('heads', { job: id, title, invented, startedAt, changedAt: lastAt, events: file.kept.events.length, digest, origin });
  await addClips(open, id, file);
}

/** Joins a file to the stored job of the same id; null where they are no one history, and nothing was written. */
async function joinFile(open: OpenPages, stored: ReadLog, file: JobFile): Promise<Taken | null> {
  const { job, head, checked } = stored;
  const sameStart = file.startedAt === null || file.startedAt === job.startedAt;
  const samePlan = sameStart && planForward(job.plan, job.version) === file.kept.plan;
  if (!samePlan || head === undefined || checked.damage.length > 0) return null;
  const here = checked.good.map(({ row }) => row.text);
  const merged = mergeLogs(here, file.kept.events);
  if (merged.as === 'no-one-history') return null;
  await addClips(open, job.id, file);
  if (merged.added === 0) return { as: 'already-here', id: job.id, newer: merged.onlyHere };
  let same = 0;
  while (same < here.length && here[same] === merged.events[same]) same += 1;
  for (let seq = same + 1; seq <= here.length; seq += 1) await open.remove('events', [job.id, seq]);
  const before = checked.good[same - 1]?.row.digest ?? job.digest;
  const digest = await addEvents(open, job.id, merged.events, same + 1, before);
  const changedAt = Math.max(head.changedAt, file.events.at(-1)?.at ?? 0, file.unknown.at(-1)?.at ?? 0);
  await open.put('heads', { ...head, events: merged.events.length, changedAt, digest });
  return same === here.length
    ? { as: 'continued', id: job.id, added: merged.added }
    : { as: 'merged', id: job.id, added: merged.added, both: merged.both };
}

/**
 * The shelf over pages: all its rules are here, the same for the browser's store and for memory. `now` is the clock for
 * marking when damage was found.
 */
export function shelfOver(pages: Pages, now: () => number): Shelf {
  async function attempt<T>(
    job: string,
    mode: 'read' | 'write',
    names: readonly PageName[],
    work: (open: OpenPages) => Promise<Result<T, ShelfFault>>,
  ): Promise<Result<T, ShelfFault>> {
    try {
      return await pages.transact(mode, names, work);
    } catch (error) {
      if (!(error instanceof PagesError)) throw error;
      return fail(error.reason === 'disk-full' ? { key: 'disk-full', job } : { key: 'store-denied', detail: error.message });
    }
  }
  const noSuchJob = (job: string): Result<never, ShelfFault> => fail({ key: 'no-such-job', job });

  const shelf: Shelf = {
    jobs: () =>
      attempt('', 'read', ['heads'], async (open) => {
        const heads = await open.all('heads');
        return ok(
          heads.map(({ job, title, invented, startedAt, changedAt, events }) => ({
            id: job, title, invented, startedAt, changedAt, events,
          })),
        );
      }),

    start: (id, plan, at) => {
      const file = jobFileOf({ id, startedAt: at, plan, events: [] });
      return attempt(id, 'write', ['jobs', 'heads', 'events', 'clips'], async (open) => {
        if ((await open.get('jobs', id)) !== undefined) return fail({ key: 'job-exists', job: id });
        await addJob(open, id, at, file, null);
        return ok({ id, plan, startedAt: at, events: [], unknown: [], nextSeq: 1, damage: [], setAside: 0, kept: file.kept });
      });
    },

    async open(id) {
      // Reading first: another window may be writing this job, and a sound log must not wait for it.
      const seen = await attempt<StoredJob>(id, 'read', LOG_PAGES, async (open) => {
        const read = await readLog(open, id);
        if (read === null) return noSuchJob(id);
        const plan = planOf(read.job);
        if (!plan.ok) return plan;
        const altered: readonly Damage[] = plan.value.sound ? [] : [{ key: 'plan-altered' }];
        const aside = (await open.under('setAside', id)).length;
        return ok(storedJob(read.job, plan.value.plan, read.checked, [...altered, ...read.checked.damage], aside));
      });
      if (!seen.ok || seen.value.damage.every((damage) => damage.key === 'plan-altered')) return seen;
      return attempt<StoredJob>(id, 'write', LOG_PAGES, async (open) => {
        const read = await readLog(open, id);
        if (read === null) return noSuchJob(id);
        const { plan } = seen.value;
        if (read.checked.damage.length > 0) await setTailAside(open, read, plan, now());
        const altered = seen.value.damage.filter((damage) => damage.key === 'plan-altered');
        const aside = (await open.under('setAside', id)).length;
        return ok(storedJob(read.job, plan, read.checked, [...altered, ...read.checked.damage], aside));
      });
    },

    append: (job, event: JobEvent) => {
      const text = writeEvent(event);
      return attempt(job, 'write', ['heads', 'events'], async (open) => {
        const head = await open.get('heads', job);
        if (head === undefined) return noSuchJob(job);
        if (event.seq !== head.events + 1) {
          const there = await open.get('events', [job, event.seq]);
          if (there?.text === text) return ok(undefined);
          return fail({ key: 'out-of-order', job, expected: head.events + 1, got: event.seq });
        }
        const row: EventRow = { job, seq: event.seq, id: event.id, text, digest: link(head.digest, text) };
        await open.add('events', row);
        await open.put('heads', { ...head, events: event.seq, changedAt: event.at, digest: row.digest });
        return ok(undefined);
      });
    },

    keepClip: (job, clip, wav) =>
      attempt(job, 'write', ['jobs', 'clips'], async (open) => {
        if ((await open.get('jobs', job)) === undefined) return noSuchJob(job);
        await open.put('clips', { job, clip, wav });
        return ok(undefined);
      }),

    clip: (job, clip) => attempt(job, 'read', ['clips'], async (open) => ok((await open.get('clips', [job, clip]))?.wav ?? null)),

    setting: (name) => attempt('', 'read', ['settings'], async (open) => ok((await open.get('settings', name))?.value ?? null)),

    keepSetting: (name, value) =>
      attempt('', 'write', ['settings'], async (open) => {
        await open.put('settings', { name, value });
        return ok(undefined);
      }),

    copy: (id) =>
      attempt<JobFile>(id, 'read', ['jobs', 'heads', 'events', 'clips'], async (open) => {
        const read = await readLog(open, id);
        if (read === null) return noSuchJob(id);
        const plan = planOf(read.job);
        if (!plan.ok) return plan;
        const { job, checked } = read;
        const stored = storedJob(job, plan.value.plan, checked, [], 0);
        const clips = new Map((await open.under('clips', id)).map(({ clip, wav }) => [clip, wav]));
        const { startedAt, events, unknown, kept } = stored;
        return ok({ job: id, startedAt, plan: plan.value.plan, events, unknown, clips, kept, olderPlan: null, notices: [] });
      }),

    take: (file, { newId, at }) =>
      attempt<Taken>(newId, 'write', ['jobs', 'heads', 'events', 'clips'], async (open) => {
        const origin = contentDigest(file.kept.plan, file.kept.events);
        // A build that wrote the older version noted the file under its own text.
        const older = file.olderPlan === null ? null : contentDigest(file.olderPlan, file.kept.events);
        const sameSource = (await open.all('heads')).find((head) => head.origin !== null && [origin, older].includes(head.origin));
        const stored = file.job === null ? null : await readLog(open, file.job);
        const joined = stored === null ? null : await joinFile(open, stored, file);
        if (joined !== null) return ok(joined);
        if (sameSource !== undefined) return ok({ as: 'already-here', id: sameSource.job, newer: sameSource.events - file.kept.events.length });
        const id = stored === null && file.job !== null ? file.job : newId;
        if ((await open.get('jobs', id)) !== undefined) return fail({ key: 'job-exists', job: id });
        await addJob(open, id, file.startedAt ?? at, file, origin);
        return ok(stored === null ? { as: 'new', id } : { as: 'copy', id, of: stored.job.id });
      }),

    setAside: (job) =>
      attempt(job, 'read', ['setAside'], async (open) =>
        ok((await open.under('setAside', job)).map(({ seq, foundAt, sound, found }) => ({ seq, foundAt, sound, text: JSON.stringify(found) }))),
      ),

    async wipe() {
      try {
        await pages.wipe();
        return ok(undefined);
      } catch (error) {
        if (!(error instanceof PagesError)) throw error;
        return fail({ key: 'store-denied', detail: error.message });
      }
    },
  };
  return shelf;
}

