import { planForward, type JobFile } from './jobFile.ts';
import { mergeLogs } from './mergeLogs.ts';
import type { OpenPages } from './pages.ts';
import type { Taken } from './shelf.ts';
import { addClips, addEvents, type ReadLog } from './storedLog.ts';

/** Joins a file to the stored job of the same id; null where they are no one history, and nothing was written. */
export async function joinFile(
  open: OpenPages,
  stored: ReadLog,
  file: JobFile,
  added?: (events: number) => void,
): Promise<Taken | null> {
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
  if (same < here.length) await open.cutAfter(job.id, same);
  const before = checked.good[same - 1]?.row.digest ?? job.digest;
  const digest = await addEvents(open, job.id, merged.events, same + 1, before, added);
  const changedAt = Math.max(head.changedAt, file.events.at(-1)?.at ?? 0, file.unknown.at(-1)?.at ?? 0);
  await open.put('heads', { ...head, events: merged.events.length, changedAt, digest });
  return same === here.length
    ? { as: 'continued', id: job.id, added: merged.added }
    : { as: 'merged', id: job.id, added: merged.added, both: merged.both };
}
