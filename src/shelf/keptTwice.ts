import type { CopiedEvent, CopiedLog } from './copyRecords.ts';
import { PagesError, type Pages } from './pages.ts';
import type { CopyEnd, CopyStanding, SecondCopy } from './secondCopy.ts';
import { linkedRows } from './storedLog.ts';

/**
 * The second copy as the shelf uses it. No call rejects: where the copy cannot be read or written the shelf goes on with one,
 * and `standing` says so until a writing works again.
 */
export type KeptTwice = {
  standing(): CopyStanding;
  jobs(): Promise<readonly string[]>;
  end(job: string): Promise<CopyEnd | null>;
  read(job: string): Promise<CopiedLog | null>;
  /** Adds an event; `false` where the copy lacks something before it and wants to be filled. */
  append(job: string, event: CopiedEvent, before: string): Promise<boolean>;
  keepClip(job: string, clip: string, wav: Uint8Array): Promise<void>;
  /** Writes into the copy of a job what the pages have and it lacks. */
  fill(job: string): Promise<void>;
};

/** So many events are written into the copy at a time: each writing is done well before the copy is given up as failed. */
const EVENTS_A_WRITING = 2_000;

export function keptTwice(pages: Pages, copy: SecondCopy | null): KeptTwice {
  let standing: CopyStanding = { as: copy === null ? 'none' : 'kept' };

  async function attempt<T>(work: (copy: SecondCopy) => Promise<T>, otherwise: T): Promise<T> {
    if (copy === null) return otherwise;
    try {
      return await work(copy);
    } catch (error) {
      if (!(error instanceof PagesError)) throw error;
      standing = { as: 'failing', reason: error.reason, detail: error.message };
      return otherwise;
    }
  }
  /** A writing that worked shows that the copy can be kept again. */
  async function written<T>(work: Promise<T>): Promise<T> {
    const value = await work;
    standing = { as: 'kept' };
    return value;
  }

  return {
    standing: () => standing,
    jobs: () => attempt((own) => own.jobs(), []),
    end: (job) => attempt((own) => own.end(job), null),
    read: (job) => attempt((own) => own.read(job), null),
    append: (job, event, before) => attempt(async (own) => (await written(own.append(job, [event], before))) === 'written', true),
    keepClip: (job, clip, wav) => attempt((own) => written(own.keepClip(job, clip, wav)), undefined),
    fill: (job) =>
      attempt(async (own) => {
        const stored = await pages.transact('read', ['jobs', 'heads', 'events'], (open) => linkedRows(open, job));
        if (stored === null) return;
        const events = stored.rows.map(({ seq, text, digest }) => ({ seq, text, digest }));
        const row = { ...stored.job, origin: stored.head?.origin ?? null };
        const digestAt = (count: number): string => events[count - 1]?.digest ?? row.digest;
        const end = (await own.end(job)) ?? (await written(own.complete(row, [])));
        if (end.events > events.length || digestAt(end.events) !== end.digest) {
          // One that went another way is replaced in one piece, so that a cut in the midst leaves it as it was.
          await written(own.complete(row, events));
        } else {
          for (let from = end.events; from < events.length; from += EVENTS_A_WRITING) {
            const part = events.slice(from, from + EVENTS_A_WRITING);
            // Behind: another window writes it at this moment, and fills what it lacks.
            if ((await written(own.append(job, part, digestAt(from)))) === 'behind') break;
          }
        }
        const clips = await pages.transact('read', ['clips'], (open) => open.under('clips', job));
        for (const { clip, wav } of clips) if (!end.clips.includes(clip)) await written(own.keepClip(job, clip, wav));
      }, undefined),
  };
}
