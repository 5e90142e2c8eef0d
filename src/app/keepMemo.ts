import type { EventBody } from '../job/index.ts';
import type { ShelfFault } from '../shelf/index.ts';
import type { AssistantDeps } from './assistantDeps.ts';
import type { PageEar } from './ports.ts';

/** How long a memo reaches back, in seconds: what was just said about the step. */
const MEMO_SECONDS = 10;

/** Where a memo belongs, what heard it, and what hears of it. */
export type MemoEdges = {
  readonly job: string | null;
  readonly operation: string | null;
  readonly ear: PageEar | null;
  readonly record: (memo: Extract<EventBody, { type: 'MemoKept' }>) => void;
  readonly trouble: (fault: ShelfFault) => void;
};

/** Keeps the last seconds of sound with the step; it is recorded once the sound itself is stored. */
export async function keepMemo(
  { shelf, newId }: Pick<AssistantDeps, 'shelf' | 'newId'>,
  { job, operation, ear, record, trouble }: MemoEdges,
): Promise<void> {
  const heard = (await ear?.lastSeconds(MEMO_SECONDS)) ?? null;
  if (job === null || operation === null || heard === null || heard.seconds <= 0) return;
  const clip = newId();
  const kept = await shelf.keepClip(job, clip, heard.wav);
  if (kept.ok) record({ type: 'MemoKept', operation, clip, seconds: heard.seconds });
  else trouble(kept.error);
}
