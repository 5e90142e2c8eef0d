import type { CopiedEvent, CopiedJob } from './copyRecords.ts';

/** What a shelf asks of the worker that keeps the second copy, and what it answers to the question of that number. */
export type CopyQuestion =
  | { readonly ask: 'jobs' }
  | { readonly ask: 'end' | 'read'; readonly job: string }
  | { readonly ask: 'append'; readonly job: string; readonly events: readonly CopiedEvent[]; readonly before: string }
  | { readonly ask: 'complete'; readonly job: CopiedJob; readonly events: readonly CopiedEvent[] }
  | { readonly ask: 'keepClip'; readonly job: string; readonly clip: string; readonly wav: Uint8Array }
  | { readonly ask: 'wipe' };

export type ToCopy = { readonly no: number; readonly question: CopyQuestion };
export type FromCopy =
  /** It is busy with something long, and getting on. */
  | { readonly busy: true }
  | { readonly no: number; readonly ok: true; readonly value: unknown }
  | { readonly no: number; readonly ok: false; readonly reason: 'disk-full' | 'denied'; readonly detail: string };
