import type { Length } from '../measure/index.ts';
import type { Intent, LengthIntent } from './intent.ts';
import type { Reply } from './reply.ts';

/** Why a value that was understood is asked about before it is stored. */
export type Doubt =
  | 'bigger-than-it-was'
  | 'far-from-the-last'
  | 'outside-the-stock'
  | 'far-from-the-target'
  | 'under-the-low-limit'
  | 'past-the-high-limit'
  | 'contradicts-the-cuts';

/**
 * A question that waits for yes, no or another number. It is not an event: nothing was acknowledged, so a crash may forget it.
 */
export type Question =
  /** Two values are plausible; `asked` is the one now offered. Or one, hardly heard: `other` is null and both values are it. */
  | {
      readonly about: 'which-value';
      readonly asked: LengthIntent;
      readonly other: LengthIntent | null;
      readonly values: readonly [Length, Length];
    }
  /** One value, understood but doubtful; `replaces` is the event it would put right. */
  | {
      readonly about: 'sure';
      readonly doubt: Doubt;
      readonly intent: Extract<Intent, { type: 'reading' }>;
      readonly value: Length;
      readonly replaces: string | null;
    }
  | { readonly about: 'leave'; readonly how: 'finish' | 'skip'; readonly why: 'not-measured' | 'outside-window' };

/** What a conversation remembers from one utterance to the next. */
export type Talk = { readonly question: Question | null; readonly lastReply: Reply | null };

export const silence: Talk = { question: null, lastReply: null };
