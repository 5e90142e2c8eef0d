import type { Grammar } from '../phrasebook/index.ts';
import { afterName, calledGrammar, callGrammar } from './call-name.ts';
import type { EarEvent } from './ear-event.ts';
import type { Hypothesis } from './recogniser.ts';

/** How long the window stays open after the call name, and after each thing heard in it. */
export const WINDOW_MS = 8_000;

export type CallWindowOptions = {
  readonly callName: string;
  /** Milliseconds on the page's clock. */
  readonly now: () => number;
  readonly emit: (event: EarEvent) => void;
};

/** The while after the call name in which anything may be said. Each opening and each shutting is told once. */
export class CallWindow {
  readonly #options: CallWindowOptions;
  #callName: string;
  #until: number | null = null;
  #calling: { readonly of: Grammar; readonly called: boolean; readonly grammar: Grammar } | null = null;

  constructor(options: CallWindowOptions) {
    this.#options = options;
    this.#callName = options.callName;
  }

  rename(callName: string): void {
    this.#callName = callName;
    this.#calling = null;
  }

  get isOpen(): boolean {
    return this.#until !== null;
  }

  /** Gives the whole while again, as after an answer; nothing where the window is shut. */
  extend(): void {
    if (this.#until !== null) this.#until = this.#options.now() + WINDOW_MS;
  }

  /** Shuts the window once its time is over. */
  expire(): void {
    if (this.#until !== null && this.#options.now() > this.#until) this.close();
  }

  close(): void {
    if (this.#until !== null) this.#options.emit({ type: 'window', open: false });
    this.#until = null;
  }

  /** A grammar with the name before it, to be left out or not where it was `called`; the same object while it is the same. */
  grammarBefore(grammar: Grammar, called: boolean): Grammar {
    if (this.#calling?.of !== grammar || this.#calling.called !== called)
      this.#calling = { of: grammar, called, grammar: (called ? calledGrammar : callGrammar)(grammar, this.#callName) };
    return this.#calling.grammar;
  }

  /** What is told of an utterance that had to begin with the name: a refusal without it, the name alone, or what came after. */
  called(hypothesis: Hypothesis): Hypothesis {
    if (!hypothesis.accepted) return hypothesis;
    const after = this.#after(hypothesis);
    if (after === null) return { ...hypothesis, accepted: false, reason: 'not-in-grammar' };
    if (this.#until === null) this.#options.emit({ type: 'window', open: true });
    this.#until = this.#options.now() + WINDOW_MS;
    return withoutName(hypothesis, after);
  }

  /** What is told of an utterance that could do without the name: whoever says it again means nothing by it. */
  unnamed(hypothesis: Hypothesis): Hypothesis {
    if (!hypothesis.accepted) return hypothesis;
    this.extend();
    return withoutName(hypothesis, this.#after(hypothesis) ?? []);
  }

  #after({ words }: Hypothesis): readonly string[] | null {
    return afterName(
      words.map((each) => each.word),
      this.#callName,
    );
  }
}

/** Only what came after the name; all of it where nothing did. */
const withoutName = (hypothesis: Hypothesis, after: readonly string[]): Hypothesis =>
  after.length === 0 ? hypothesis : { ...hypothesis, words: hypothesis.words.slice(-after.length), text: after.join(' ') };
