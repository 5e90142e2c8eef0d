import { fail, ok, type Result } from '../measure/index.ts';
import type { JobEvent } from '../job/index.ts';
import { bytesOf } from './base64.ts';
import { contentDigest, link } from './chain.ts';
import { jobFileOf, type JobFile } from './jobFile.ts';
import { joinFile } from './joinFile.ts';
import { keptTwice } from './keptTwice.ts';
import type { Damage } from './log.ts';
import { writeEvent } from './loggedEvent.ts';
import { PagesError, type EventRow, type HeadRow, type OpenPages, type PageName, type Pages } from './pages.ts';
import { putBack, type PutBack } from './putBack.ts';
import type { CopyEnd, SecondCopy } from './secondCopy.ts';
import type { JobSummary, Shelf, ShelfFault, StoredJob, Taken } from './shelf.ts';
import { inSlices } from './slices.ts';
import { addJob, LOG_PAGES, planOf, readLog, setTailAside, storedJob } from './storedLog.ts';

/**
 * The shelf over pages: all its rules are here, the same for the browser's store and for memory. `now` is the clock for
 * marking when damage was found; `copy` is a second copy of each log, or null.
 */
export function shelfOver(pages: Pages, now: () => number, copy: SecondCopy | null = null): Shelf {
  const twice = keptTwice(pages, copy);
  /** What was put back and has not been told yet. */
  const untold = new Map<string, PutBack>();
  let looked = false;
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

  /** Puts back what the second copy of a job has and the pages lack; told at the next opening. */
  async function recover(id: string): Promise<Result<PutBack | null, ShelfFault>> {
    const copied = await twice.read(id);
    if (copied === null) return ok(null);
    const done = await attempt<PutBack | null>(id, 'write', [...LOG_PAGES, 'clips'], async (open) =>
      ok(await putBack(open, await readLog(open, id), copied, now())),
    );
    if (done.ok && done.value !== null) untold.set(id, done.value);
    return done;
  }
  const heads = (): Promise<Result<readonly HeadRow[], ShelfFault>> =>
    attempt('', 'read', ['heads'], async (open) => ok(await open.all('heads')));
  /** The lines of the list; the first time, jobs that are only in the second copy are put back before. */
  async function listed(): Promise<Result<readonly HeadRow[], ShelfFault>> {
    const known = await heads();
    if (looked || !known.ok) return known;
    looked = true;
    const ids = new Set(known.value.map(({ job }) => job));
    const missing = (await twice.jobs()).filter((id) => !ids.has(id));
    for (const id of missing) await recover(id);
    return missing.length === 0 ? known : await heads();
  }
  /**
   * Reads a job, and says whether its log and its plan are sound and what its copy has. A copy that lacks the last events is
   * filled. Reading only: another window may be writing this job, and a sound log must not wait for it.
   */
  async function looksSound(
    id: string,
    end: CopyEnd | null,
  ): Promise<Result<{ readonly job: StoredJob; readonly sound: boolean }, ShelfFault>> {
    const seen = await attempt<{ readonly job: StoredJob; readonly sound: boolean; readonly digests: readonly string[] }>(
      id,
      'read',
      LOG_PAGES,
      async (open) => {
        const read = await readLog(open, id);
        if (read === null) return noSuchJob(id);
        const plan = planOf(read.job);
        if (!plan.ok) return plan;
        const { good, damage } = read.checked;
        const aside = (await open.under('setAside', id)).length;
        const job = storedJob(read.job, plan.value.plan, read.checked, [], aside);
        return ok({
          job,
          sound: plan.value.sound && damage.length === 0,
          digests: [read.job.digest, ...good.map(({ row }) => row.digest)],
        });
      },
    );
    if (!seen.ok || !seen.value.sound || twice.standing().as === 'none') return seen;
    const { job, digests } = seen.value;
    const agrees = (copied: CopyEnd): boolean => digests[copied.events] === copied.digest;
    if (end !== null && !agrees(end)) return ok({ job, sound: false });
    if (end?.events === digests.length - 1) return seen;
    // Another window may have gone on since; only a copy that is still behind is behind.
    const again = await twice.end(id);
    if (again === null || again.events < digests.length - 1) await twice.fill(id);
    return seen;
  }
  /** Reads a job whatever is wrong with it, and sets aside what cannot be trusted. */
  const openedMending = (id: string): Promise<Result<StoredJob, ShelfFault>> =>
    attempt<StoredJob>(id, 'write', LOG_PAGES, async (open) => {
      const read = await readLog(open, id);
      if (read === null) return noSuchJob(id);
      const plan = planOf(read.job);
      if (!plan.ok) return plan;
      const altered: readonly Damage[] = plan.value.sound ? [] : [{ key: 'plan-altered' }];
      if (read.checked.damage.length > 0) await setTailAside(open, read, plan.value.plan, now());
      const aside = (await open.under('setAside', id)).length;
      return ok(storedJob(read.job, plan.value.plan, read.checked, [...altered, ...read.checked.damage], aside));
    });
  const told = (id: string): readonly Damage[] => {
    const back = untold.get(id);
    untold.delete(id);
    if (back === undefined) return [];
    const { cut, ...what } = back;
    return [{ key: 'put-back', ...what }, ...(cut === null ? [] : [{ key: 'cut-short', ...cut } as const])];
  };

  const shelf: Shelf = {
    async jobs() {
      const known = await listed();
      if (!known.ok) return known;
      const line = ({ job, title, invented, startedAt, changedAt, events }: HeadRow): JobSummary => ({
        id: job,
        title,
        invented,
        startedAt,
        changedAt,
        events,
      });
      return ok(known.value.map(line));
    },

    async start(id, plan, at) {
      const file = jobFileOf({ id, startedAt: at, plan, events: [] });
      if (!looked) await listed();
      const started = await attempt<StoredJob>(id, 'write', ['jobs', 'heads', 'events', 'clips'], async (open) => {
        if ((await open.get('jobs', id)) !== undefined) return fail({ key: 'job-exists', job: id });
        await addJob(open, id, at, file, null);
        return ok({ id, plan, startedAt: at, events: [], unknown: [], nextSeq: 1, damage: [], setAside: 0, kept: file.kept });
      });
      if (started.ok) await twice.fill(id);
      return started;
    },

    async open(id) {
      // The copy first: what is in it then was on its way into the database before, and is there when that is read.
      const end = await twice.end(id);
      const first = await looksSound(id, end);
      if (first.ok && first.value.sound) return ok({ ...first.value.job, damage: told(id) });
      if (!first.ok && end === null) return first;
      const back = await recover(id);
      if (!back.ok) return back;
      const opened = await openedMending(id);
      if (opened.ok && twice.standing().as === 'kept') await twice.fill(id);
      return opened.ok ? ok({ ...opened.value, damage: [...told(id), ...opened.value.damage] }) : opened;
    },

    append: (job, event: JobEvent) => {
      const text = writeEvent(event);
      let copied: Promise<boolean> = Promise.resolve(true);
      const stored: Promise<Result<void, ShelfFault>> = attempt(job, 'write', ['heads', 'events'], async (open) => {
        const head = await open.get('heads', job);
        if (head === undefined) return noSuchJob(job);
        if (event.seq !== head.events + 1) {
          const there = await open.get('events', [job, event.seq]);
          if (there?.text === text) return ok(undefined);
          return fail({ key: 'out-of-order', job, expected: head.events + 1, got: event.seq, lastAt: head.changedAt });
        }
        const row: EventRow = { job, seq: event.seq, id: event.id, text, digest: link(head.digest, text) };
        await open.add('events', row);
        await open.put('heads', { ...head, events: event.seq, changedAt: event.at, digest: row.digest });
        // Not awaited here, where the transaction would end: both copies are written at the same time.
        copied = twice.append(job, { seq: row.seq, text, digest: row.digest }, head.digest);
        return ok(undefined);
      });
      return stored.then(async (done) => {
        if (!(await copied) && done.ok) await twice.fill(job);
        return done;
      });
    },

    async keepClip(job, clip, wav) {
      const kept: Result<void, ShelfFault> = await attempt(job, 'write', ['jobs', 'clips'], async (open) => {
        if ((await open.get('jobs', job)) === undefined) return noSuchJob(job);
        await open.put('clips', { job, clip, wav });
        return ok(undefined);
      });
      if (kept.ok) await twice.keepClip(job, clip, wav);
      return kept;
    },

    async clip(job, clip) {
      const found = await attempt(job, 'read', ['clips'], async (open) =>
        ok((await open.get('clips', [job, clip]))?.wav ?? null),
      );
      if (!found.ok || found.value !== null) return found;
      const base64 = (await twice.read(job))?.clips.get(clip);
      return ok(base64 === undefined ? null : bytesOf(base64));
    },

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

    async take(file, { newId, at, pace }) {
      if (!looked) await listed();
      const pause = pace?.pause ?? (() => Promise.resolve());
      const origin = await inSlices(contentDigest(file.kept.plan, file.kept.events), pause);
      // A build that wrote the older version noted the file under its own text.
      const older = file.olderPlan === null ? null : await inSlices(contentDigest(file.olderPlan, file.kept.events), pause);
      const taken = await attempt<Taken>(newId, 'write', ['jobs', 'heads', 'events', 'clips'], async (open) => {
        const sameSource = (await open.all('heads')).find(
          (head) => head.origin !== null && [origin, older].includes(head.origin),
        );
        const stored = file.job === null ? null : await readLog(open, file.job);
        const joined = stored === null ? null : await joinFile(open, stored, file, pace?.added);
        if (joined !== null) return ok(joined);
        if (sameSource !== undefined)
          return ok({ as: 'already-here', id: sameSource.job, newer: sameSource.events - file.kept.events.length });
        const id = stored === null && file.job !== null ? file.job : newId;
        if ((await open.get('jobs', id)) !== undefined) return fail({ key: 'job-exists', job: id });
        await addJob(open, id, file.startedAt ?? at, file, origin, pace?.added);
        return ok(stored === null ? { as: 'new', id } : { as: 'copy', id, of: stored.job.id });
      });
      if (taken.ok && (taken.value.as !== 'already-here' || file.clips.size > 0)) await twice.fill(taken.value.id);
      return taken;
    },

    setAside: (job) =>
      attempt(job, 'read', ['setAside'], async (open) =>
        ok(
          (await open.under('setAside', job)).map(({ seq, foundAt, sound, found }) => ({
            seq,
            foundAt,
            sound,
            text: JSON.stringify(found),
          })),
        ),
      ),

    secondCopy: () => twice.standing(),

    async wipe() {
      try {
        // The copy first: were it left over, all would be put back from it.
        await copy?.wipe();
        untold.clear();
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
