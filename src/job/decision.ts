import type { EventBody } from './event.ts';
import type { NumberRefusal } from './intent.ts';
import { sentence, type PhraseId, type Piece, type Reply, type Tone } from './reply.ts';
import type { JobState } from './state.ts';
import type { Doubt, Question, Talk } from './talk.ts';

/**
 * What a decision may look at beside the intent. `words` is what was said or typed, kept with a reading. `unsure` where the ear
 * is
 * not sure enough of the words to store a number by them without asking.
 */
export type Scene = {
  readonly state: JobState;
  readonly talk: Talk;
  readonly words: string;
  readonly now: number;
  readonly unsure?: boolean;
};

/** What only the page can do: about listening and speaking, never about the job. */
export type Effect = 'wake' | 'stop-listening' | 'louder' | 'quieter' | 'slower' | 'hush' | 'show-phrases' | 'record-memo';

/** Why nothing was done; each has its own answer. */
export type RefusalKey =
  | NumberRefusal
  | 'all-done'
  | 'already-first'
  | 'no-such-step'
  | 'nothing-awaited'
  | 'which-mate'
  | 'nothing-to-scratch'
  | 'nothing-to-correct'
  | 'nothing-was-asked'
  | 'needs-a-verb';

/** Why something is asked back before it is done. */
export type AskKey = Doubt | 'which-value' | 'hardly-heard' | 'no-reading-taken' | 'no-reading-in-the-window';

/**
 * What comes of an intent. The events are to be stored one after the other before the reply is given; a refusal and a question
 * store nothing.
 */
export type Decision =
  | {
      readonly outcome: 'done';
      readonly reason: null;
      readonly events: readonly EventBody[];
      readonly reply: Reply;
      readonly talk: Talk;
      readonly effect: Effect | null;
    }
  | {
      readonly outcome: 'asked';
      readonly reason: AskKey;
      readonly events: readonly [];
      readonly reply: Reply;
      readonly talk: Talk;
      readonly effect: null;
    }
  | {
      readonly outcome: 'refused';
      readonly reason: RefusalKey;
      readonly events: readonly [];
      readonly reply: Reply;
      readonly talk: Talk;
      readonly effect: null;
    };

export const replyOf = (scene: Scene, tone: Tone | null, ...sentences: readonly (readonly Piece[])[]): Reply => ({
  tone,
  pieces: sentences.flat(),
  unit: scene.state.plan.part.unit,
});

/** Done: the events, and the answer once they are stored. An open question is settled by it. */
export const done = (events: readonly EventBody[], reply: Reply, effect: Effect | null = null): Decision => ({
  outcome: 'done',
  reason: null,
  events,
  reply,
  talk: { question: null, lastReply: reply },
  effect,
});

/** Told: an answer that changes nothing; an open question stays open. */
export const told = (scene: Scene, ...sentences: readonly (readonly Piece[])[]): Decision => {
  const reply = replyOf(scene, null, ...sentences);
  return { outcome: 'done', reason: null, events: [], reply, talk: { ...scene.talk, lastReply: reply }, effect: null };
};

export const asked = (scene: Scene, reason: AskKey, open: Question, ...sentences: readonly (readonly Piece[])[]): Decision => {
  const reply = replyOf(scene, 'heard', ...sentences);
  return { outcome: 'asked', reason, events: [], reply, talk: { question: open, lastReply: reply }, effect: null };
};

const REFUSALS: Readonly<Record<RefusalKey, PhraseId>> = {
  'no-number': 'what-number',
  'not-a-number-here': 'makes-no-sense-here',
  centimetres: 'no-centimetres',
  vague: 'how-much-is-that',
  'finer-than-instrument': 'finer-than-it-reads',
  'no-last-reading': 'no-last-to-count-from',
  'no-target': 'no-target-to-count-from',
  'outside-everything': 'makes-no-sense-here',
  'all-done': 'all-done',
  'already-first': 'already-first',
  'no-such-step': 'no-such-step',
  'nothing-awaited': 'nothing-awaited',
  'which-mate': 'which-mate',
  'nothing-to-scratch': 'nothing-to-scratch',
  'nothing-to-correct': 'nothing-to-correct',
  'nothing-was-asked': 'nothing-was-asked',
  'needs-a-verb': 'say-it-with-a-verb',
};

/** Refused: nothing is stored, and the answer says why. An open question stays open. */
export const refused = (scene: Scene, reason: RefusalKey, ...more: readonly (readonly Piece[])[]): Decision =>
  refusedSaying(scene, reason, sentence(REFUSALS[reason]), ...more);

/** The same, in words that name what was asked for. */
export const refusedSaying = (scene: Scene, reason: RefusalKey, ...sentences: readonly (readonly Piece[])[]): Decision => {
  const reply = replyOf(scene, 'please-repeat', ...sentences);
  return { outcome: 'refused', reason, events: [], reply, talk: { ...scene.talk, lastReply: reply }, effect: null };
};
