import type { Length } from '../measure/index.ts';
import type { Intent } from './intent.ts';
import type { Reply } from './reply.ts';

/** Why a value that was understood is asked about before it is stored. */
export type Doubt = 'bigger-than-it-was' | 'far-from-the-last' | 'outside-the-stock' | 'far-from-the-target' | 'under-the-low-limit' | 'past-the-high-limit';

/**
 * A question that waits for yes, no or another number. It is not an event: nothing was acknowledged, so a crash may forget it.
 */
export type Question =
  /** Two values are plausible; `asked` is the one now offered. */
  | { readonly about: 'which-value'; readonly asked: Intent; readonly other: Intent | null; readonly values: readonly [Length, Length] }
  | { readonly about: 'sure'; readonly doubt: Doubt; readonly intent: Intent; readonly value: Length }
  | { readonly about: 'leave'; readonly how: 'finish' | 'skip'; readonly why: 'not-measured' | 'outside-window' };

/** What a conversation remembers from one utterance to the next. */
export type Talk = { readonly question: Question | null; readonly lastReply: Reply | null };

export const silence: Talk = { question: null, lastReply: null };
