import type { Grammar } from '../phrasebook/index.ts';
import type { Personal, Take } from './personal/index.ts';

/** A word as heard, with its times in seconds from the start of the utterance. */
export type HeardWord = { readonly word: string; readonly startS: number; readonly endS: number };

/**
 * What an engine made of one utterance. `confidence` is 0 to 1: how sure the engine is that these words, and not something
 * outside the grammar, were said. `accepted` is the engine's own verdict at its threshold; `reason` says why not.
 */
export type Hypothesis = {
  readonly words: readonly HeardWord[];
  readonly text: string;
  readonly confidence: number;
  readonly accepted: boolean;
  readonly reason: HearingRefusal | null;
  /** Log score of the filler model less that of the words, a frame; above zero the filler explains the sound better. */
  readonly fillerScore: number;
  readonly alternatives: readonly { readonly text: string; readonly confidence: number }[];
};

/**
 * The confidence from which a number is stored without a question; below it, and above the engine's own threshold, it is said
 * back
 * first. docs/ear.md has what it was chosen on.
 */
export const SURE_FROM = 0.95;

/** Why sound was not taken for words; `studied` is a phrase of the set-up, which is no command. */
export type HearingRefusal = 'studied' | 'silence' | 'too-short' | 'too-long' | 'not-speech' | 'not-in-grammar' | 'unsure';

/**
 * A speech recogniser for one utterance at a time: `open`, `accept` frames, `finish`. Not re-entrant. Runs where it is made
 * (a worker in the page, the main thread in Node) and keeps no audio after `finish`.
 */
export interface Recogniser {
  readonly name: string;
  /** Makes ready for one utterance of this grammar; throws `EngineFault` when the grammar cannot be compiled. */
  open(grammar: Grammar): Promise<void>;
  /** Mono samples at 16 kHz, -1 to 1, any length. */
  accept(samples: Float32Array): void;
  finish(): Promise<Hypothesis>;
  /** From now on for this person's voice, or for anybody's. An engine without it hears everybody alike. */
  adapt?(personal: Personal | null): void;
  /** What the front end, at each shift, makes of a phrase that was told beforehand; with the words heard at none. */
  study?(samples: Float32Array, said: string, grammar: Grammar): Promise<Pick<Take, 'heard' | 'views'>>;
  /** The odds (natural logarithm) from which the engine accepts; with `study`. */
  readonly acceptOdds?: number;
  close(): void;
}

/** The engine itself failed; `part` says what to restart. */
export class EngineFault extends Error {
  readonly part: 'model' | 'grammar' | 'decoder';
  constructor(part: 'model' | 'grammar' | 'decoder', message: string, options?: ErrorOptions) {
    super(message, options);
    this.name = 'EngineFault';
    this.part = part;
  }
}
