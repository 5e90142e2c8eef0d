import type { Grammar } from '../phrasebook/index.ts';
import { afterName, callGrammar } from './call-name.ts';
import type { EarEvent, ListeningMode } from './ear-event.ts';
import { Endpointer, type Endpoint } from './endpointer.ts';
import { LEAD_FRAMES, TAIL_FRAMES } from './hear-file.ts';
import { FRAME_SAMPLES, Meter } from './meter.ts';
import { EngineFault, type Hypothesis, type Recogniser } from './recogniser.ts';
import { EAR_RATE_HZ } from './resample.ts';
import { Ring } from './ring.ts';

export type ListenerOptions = {
  readonly recogniser: Recogniser;
  readonly callName: string;
  /** Milliseconds on the page's clock. */
  readonly now: () => number;
  readonly emit: (event: EarEvent) => void;
};

/** How long the window stays open after the call name, and after each thing heard in it. */
export const WINDOW_MS = 8_000;
/** A press shorter than this is a tap: the ear then finds the end by itself. */
const TAP_MS = 350;
/** After a tap or at the press of a button, speech must come within this. */
const PATIENCE_MS = 6_000;
/** Kept for clips, and room for the longest utterance. */
const KEPT_S = 30;
const LEVEL_EVERY_FRAMES = 10;

/** Of an utterance that was let go. */
const NOTHING: Hypothesis = { words: [], text: '', confidence: 0, accepted: false, reason: 'silence', fillerScore: 0, alternatives: [] };

/** An utterance that a button opened. Numbers of frames. */
type Held = { readonly from: number; readonly pressedAt: number; tapped: boolean };

/**
 * From 16 kHz sound to hypotheses: level, endpoints, the three ways of listening, half duplex. It knows no microphone and no
 * thread. Invariants: utterances are decoded one after another, in order; nothing that came in while deaf is ever decoded; in
 * call listening nothing is accepted but what follows the name or comes inside the window; each `speech-start` is followed by a
 * `speech-end` and a `hypothesis`.
 */
export class Listener {
  readonly #options: ListenerOptions;
  readonly #meter = new Meter();
  readonly #ring = new Ring(KEPT_S * EAR_RATE_HZ);
  #endpointer = new Endpointer();
  #mode: ListeningMode = 'hold';
  #grammar: Grammar | null = null;
  #deaf = false;
  #held: Held | null = null;
  #windowUntil: number | null = null;
  #frame = 0;
  /** Frames that came while deaf. */
  #unheard = 0;
  #partial = new Float32Array(0);
  #work: Promise<void> = Promise.resolve();

  constructor(options: ListenerOptions) {
    this.#options = options;
  }

  setMode(mode: ListeningMode): void {
    this.#mode = mode;
    this.#closeWindow();
    this.#compile();
  }

  setGrammar(grammar: Grammar): void {
    this.#grammar = grammar;
    this.#compile();
  }

  /** While deaf, what is open by ear is dropped and nothing new begins; a button that is pressed ends it, and holds against it. */
  setDeaf(deaf: boolean): void {
    if (this.#deaf === deaf || (deaf && this.#held !== null)) return;
    this.#deaf = deaf;
    if (deaf) this.#drop();
    // The answer took its time; the person gets the whole window after it.
    else if (this.#windowUntil !== null) this.#openWindow();
  }

  hold(): void {
    if (this.#held !== null) return;
    this.#deaf = false;
    this.#drop();
    this.#held = { from: this.#frame, pressedAt: this.#options.now(), tapped: false };
    this.#options.emit({ type: 'speech-start' });
  }

  release(): void {
    const held = this.#held;
    if (held === null) return;
    if (this.#options.now() - held.pressedAt < TAP_MS) {
      held.tapped = true;
      return;
    }
    this.#held = null;
    this.#endpointer.drop();
    this.#take(held.from, this.#frame - 1, this.#frame);
  }

  /** Sound of the last seconds, for a clip that the person asked for. */
  lastSeconds(seconds: number): Float32Array {
    return this.#ring.slice(this.#ring.written - Math.round(seconds * EAR_RATE_HZ), this.#ring.written);
  }

  /** Resolves once all that was heard so far has been decoded. */
  settled(): Promise<void> {
    return this.#work;
  }

  push(samples: Float32Array): void {
    this.#ring.push(samples);
    const joint = new Float32Array(this.#partial.length + samples.length);
    joint.set(this.#partial);
    joint.set(samples, this.#partial.length);
    let at = 0;
    for (; at + FRAME_SAMPLES <= joint.length; at += FRAME_SAMPLES) this.#takeFrame(joint.subarray(at, at + FRAME_SAMPLES));
    this.#partial = joint.slice(at);
  }

  #takeFrame(samples: Float32Array): void {
    const level = this.#meter.frame(samples);
    this.#frame += 1;
    if (this.#frame % LEVEL_EVERY_FRAMES === 0) this.#options.emit({ type: 'level', ...this.#meter.read() });
    if (this.#windowUntil !== null && !this.#deaf && this.#options.now() > this.#windowUntil && !this.#endpointer.speaking) this.#closeWindow();
    // While deaf the room is not learnt either: the page's own voice would be taken for its noise.
    if (this.#deaf) {
      this.#unheard += 1;
      return;
    }
    const end = this.#placed(this.#endpointer.frame(level));
    if (this.#held !== null) this.#whileHeld(this.#held, end?.type === 'end' ? end : null);
    else if (this.#mode !== 'hold') this.#byEar(end);
  }

  /** The endpointer counts only what it is given. */
  #placed(end: Endpoint | null): Endpoint | null {
    if (end === null) return null;
    const first = end.first + this.#unheard;
    return end.type === 'start' ? { type: 'start', first } : { type: 'end', first, last: end.last + this.#unheard };
  }

  /** Lets go of an utterance that is open by ear, and says so: whoever was told of its start waits for its end. */
  #drop(): void {
    const told = this.#endpointer.speaking && this.#held === null && this.#mode !== 'hold';
    this.#endpointer.drop();
    if (!told) return;
    const at = this.#options.now();
    this.#options.emit({ type: 'speech-end', at });
    this.#options.emit({ type: 'hypothesis', hypothesis: NOTHING, times: { endOfSpeechAt: at, endpointMs: 0, recogniserMs: 0 } });
  }

  #byEar(end: Endpoint | null): void {
    if (end === null) return;
    if (end.type === 'start') this.#options.emit({ type: 'speech-start' });
    else this.#take(end.first - LEAD_FRAMES, end.last, Math.min(this.#frame, end.last + 1 + TAIL_FRAMES));
  }

  /** A button that was tapped ends with the speech; one that nobody speaks to ends by itself. */
  #whileHeld(held: Held, end: { readonly first: number; readonly last: number } | null): void {
    if (!held.tapped) return;
    if (end !== null) {
      this.#held = null;
      this.#take(Math.max(held.from, end.first - LEAD_FRAMES), end.last, Math.min(this.#frame, end.last + 1 + TAIL_FRAMES));
    } else if (!this.#endpointer.speaking && this.#options.now() - held.pressedAt > PATIENCE_MS) {
      this.#held = null;
      this.#take(held.from, this.#frame - 1, this.#frame);
    }
  }

  /** Frames `from` up to, not including, `to` are an utterance whose last spoken frame is `last`. */
  #take(from: number, last: number, to: number): void {
    const { now, emit } = this.#options;
    const surelyAt = now();
    const endOfSpeechAt = surelyAt - (this.#frame - last - 1) * 10;
    emit({ type: 'speech-end', at: endOfSpeechAt });
    const samples = this.#ring.slice(from * FRAME_SAMPLES, to * FRAME_SAMPLES);
    const byName = this.#mode === 'call' && this.#windowUntil === null && this.#held === null;
    const grammar = this.#grammar;
    if (grammar === null) {
      emit({ type: 'hypothesis', hypothesis: NOTHING, times: { endOfSpeechAt, endpointMs: surelyAt - endOfSpeechAt, recogniserMs: 0 } });
      return;
    }
    this.#work = this.#work.then(async () => {
      try {
        const hypothesis = await this.#decode(samples, byName ? callGrammar(grammar, this.#options.callName) : grammar);
        const told = byName ? this.#called(hypothesis) : hypothesis;
        if (!byName && hypothesis.accepted && this.#windowUntil !== null) this.#openWindow();
        const times = { endOfSpeechAt, endpointMs: surelyAt - endOfSpeechAt, recogniserMs: now() - surelyAt };
        emit({ type: 'hypothesis', hypothesis: told, times });
      } catch (error) {
        this.#fault(error);
      }
    });
  }

  async #decode(samples: Float32Array, grammar: Grammar): Promise<Hypothesis> {
    const { recogniser } = this.#options;
    await recogniser.open(grammar);
    recogniser.accept(samples);
    return recogniser.finish();
  }

  /** What is told of an utterance that had to begin with the name: a refusal without it, the name alone, or what came after. */
  #called(hypothesis: Hypothesis): Hypothesis {
    if (!hypothesis.accepted) return hypothesis;
    const after = afterName(hypothesis.words.map((each) => each.word), this.#options.callName);
    if (after === null) return { ...hypothesis, accepted: false, reason: 'not-in-grammar' };
    this.#openWindow();
    if (after.length === 0) return hypothesis;
    return { ...hypothesis, words: hypothesis.words.slice(-after.length), text: after.join(' ') };
  }

  #openWindow(): void {
    if (this.#windowUntil === null) this.#options.emit({ type: 'window', open: true });
    this.#windowUntil = this.#options.now() + WINDOW_MS;
  }

  #closeWindow(): void {
    if (this.#windowUntil !== null) this.#options.emit({ type: 'window', open: false });
    this.#windowUntil = null;
  }

  /** Compiles ahead what the next utterance will need, so that nobody waits for it. */
  #compile(): void {
    const grammar = this.#grammar;
    if (grammar === null) return;
    this.#work = this.#work.then(async () => {
      // A newer grammar has come while this one waited.
      if (grammar !== this.#grammar) return;
      try {
        const byName = this.#mode === 'call' && this.#windowUntil === null;
        await this.#options.recogniser.open(byName ? callGrammar(grammar, this.#options.callName) : grammar);
      } catch (error) {
        this.#fault(error);
      }
    });
  }

  #fault(error: unknown): void {
    const part = error instanceof EngineFault ? error.part : 'decoder';
    this.#options.emit({ type: 'fault', part, message: error instanceof Error ? error.message : String(error) });
  }
}
