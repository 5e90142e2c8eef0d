import { fullGrammar, type Grammar } from '../phrasebook/index.ts';
import { CallWindow } from './call-window.ts';
import type { EarEvent, ListeningMode } from './ear-event.ts';
import { Endpointer, type Endpoint } from './endpointer.ts';
import { following, PATIENCE_MS } from './following.ts';
import { cachedWordGraph } from './graph-cache.ts';
import { LEAD_FRAMES, TAIL_FRAMES } from './hear-file.ts';
import { activePower, FRAME_MS } from './level.ts';
import { LOOK_AFTER_MS, opened, STANDS_OUT_DB, waitAfterLook, WORDS_ONLY_MS, type Look, type Open } from './look.ts';
import { FRAME_SAMPLES, Meter } from './meter.ts';
import { fitPersonal, type Personal, type Take } from './personal/index.ts';
import { EngineFault, type Hypothesis, type Recogniser } from './recogniser.ts';
import { EAR_RATE_HZ } from './resample.ts';
import { Ring } from './ring.ts';
import { SoundClock } from './sound-clock.ts';
import { TroubleWatch } from './trouble.ts';

export type ListenerOptions = {
  readonly recogniser: Recogniser;
  readonly callName: string;
  /** Milliseconds on the page's clock. */
  readonly now: () => number;
  readonly emit: (event: EarEvent) => void;
};

/** A press shorter than this is a tap: the ear then finds the end by itself. */
const TAP_MS = 350;
/** After a tap, speech must come within this. */
const SPEAK_WITHIN_MS = 6_000;
/** Kept for clips, and room for the longest utterance. */
const KEPT_S = 30;
const LEVEL_EVERY_FRAMES = 10;

/** With fewer phrases the set-up tells nothing. */
const FEWEST_TAKES = 8;

/** A button that is down, or was tapped. */
type Held = { readonly pressedAt: number; tapped: boolean };

/** A phrase of the set-up that is awaited, and who wants to know what was made of it. */
type Study = { readonly said: string; readonly told: (take: Take | null) => void };

/** Of an utterance that was let go. */
const NOTHING: Hypothesis = {
  words: [],
  text: '',
  confidence: 0,
  accepted: false,
  reason: 'silence',
  fillerScore: 0,
  alternatives: [],
};

/**
 * From 16 kHz sound to hypotheses: level, endpoints, the three ways of listening, half duplex. It knows no microphone and no
 * thread. While an utterance may still go on, it looks at what was said so far: the words and what can follow them tell how long
 * a silence is its end, and in a loud shop they tell it alone.
 *
 * Invariants: utterances are decoded one after another, in order; nothing that came in while deaf is ever decoded; in call
 * listening nothing is accepted but what follows the name, comes inside the window or by a button; each `speech-start` is
 * followed by a `speech-end` and a `hypothesis`.
 */
export class Listener {
  readonly #options: ListenerOptions;
  readonly #meter = new Meter();
  readonly #ring = new Ring(KEPT_S * EAR_RATE_HZ);
  readonly #endpointer = new Endpointer();
  readonly #clock = new SoundClock();
  readonly #window: CallWindow;
  #mode: ListeningMode = 'hold';
  #grammar: Grammar | null = null;
  #deaf = false;
  #held: Held | null = null;
  #open: Open | null = null;
  #frame = 0;
  /** Frames that the endpointer was not given: those that came while deaf. */
  #unheard = 0;
  #partial = new Float32Array(0);
  #study: Study | null = null;
  readonly #watch: TroubleWatch;
  #trouble: string | null = null;
  #work: Promise<void> = Promise.resolve();

  constructor(options: ListenerOptions) {
    this.#options = options;
    this.#window = new CallWindow(options);
    this.#watch = new TroubleWatch(options.now);
  }

  /** Another name wakes from now on. */
  setCallName(name: string): void {
    this.#window.rename(name);
    this.#compile();
  }

  /** From now on for this person's voice, or for anybody's. */
  adapt(personal: Personal | null): void {
    this.#options.recogniser.adapt?.(personal);
    this.#watch.speaksAt(personal?.speechDb ?? null);
  }

  /** What suits the voice of these takes; null where the engine cannot study, or there are too few. */
  fit(takes: readonly Take[]): Personal | null {
    const { acceptOdds } = this.#options.recogniser;
    return acceptOdds === undefined || takes.length < FEWEST_TAKES ? null : fitPersonal(takes, acceptOdds);
  }

  /** The next utterance is this phrase of the set-up: it is no command. Null where the engine cannot study, or it was let go. */
  study(said: string, told: (take: Take | null) => void): void {
    this.#study?.told(null);
    this.#study = { said, told };
  }

  setMode(mode: ListeningMode): void {
    this.#mode = mode;
    this.#window.close();
    this.#compile();
  }

  setGrammar(grammar: Grammar): void {
    this.#grammar = grammar;
    this.#compile();
  }

  /** While deaf, what is open by ear is dropped and nothing new begins; a button pressed ends it, and holds against it. */
  setDeaf(deaf: boolean): void {
    if (this.#deaf === deaf || (deaf && this.#held !== null)) return;
    this.#deaf = deaf;
    if (deaf) this.#drop();
    // The answer took its time; the person gets the whole window after it.
    else this.#window.extend();
  }

  hold(): void {
    if (this.#held !== null) return;
    this.#deaf = false;
    this.#drop();
    this.#held = { pressedAt: this.#options.now(), tapped: false };
    this.#open = opened(this.#frame);
    this.#options.emit({ type: 'speech-start' });
  }

  release(): void {
    const held = this.#held;
    if (held === null || held.tapped) return;
    if (this.#options.now() - held.pressedAt < TAP_MS) held.tapped = true;
    else this.#end(this.#open?.spoken ?? this.#frame - 1);
  }

  /** Sound of the last seconds, for a clip that the person asked for. */
  lastSeconds(seconds: number): Float32Array {
    return this.#ring.slice(this.#ring.written - Math.round(seconds * EAR_RATE_HZ), this.#ring.written);
  }

  /** Resolves once all that was heard so far has been decoded. */
  settled(): Promise<void> {
    return this.#work;
  }

  /** The microphone was opened anew. */
  restart(): void {
    this.#drop();
    this.#clock.restart();
  }

  push(samples: Float32Array): void {
    this.#ring.push(samples);
    this.#clock.note(Math.floor(this.#ring.written / FRAME_SAMPLES), this.#options.now());
    const joint = new Float32Array(this.#partial.length + samples.length);
    joint.set(this.#partial);
    joint.set(samples, this.#partial.length);
    let at = 0;
    for (; at + FRAME_SAMPLES <= joint.length; at += FRAME_SAMPLES) this.#takeFrame(joint.subarray(at, at + FRAME_SAMPLES));
    this.#partial = joint.slice(at);
  }

  #takeFrame(samples: Float32Array): void {
    const { emit } = this.#options;
    const level = this.#meter.frame(samples);
    this.#frame += 1;
    if (this.#frame % LEVEL_EVERY_FRAMES === 0) {
      const read = this.#meter.read();
      emit({ type: 'level', ...read });
      this.#watch.level(read);
      this.#tellTrouble();
    }
    if (!this.#deaf && this.#open === null) this.#window.expire();
    // While deaf the room is not learnt either: the page's own voice would be taken for its noise.
    if (this.#deaf) {
      this.#unheard += 1;
      return;
    }
    const point = this.#endpointer.frame(level);
    if (point?.type === 'start') this.#begin(point.first + this.#unheard - LEAD_FRAMES);
    if (this.#open !== null) this.#hear(this.#open, point?.type === 'end' ? point : null);
  }

  /** Speech begins: an utterance by ear, or what a button waited for. */
  #begin(from: number): void {
    const open = this.#open;
    // Whoever presses takes breath first; what is heard after a second of nothing is heard wrong.
    if (open !== null && open.spoken === null) open.from = Math.max(open.from, from);
    if (this.#held !== null || this.#mode === 'hold') return;
    this.#open = opened(from);
    this.#options.emit({ type: 'speech-start' });
  }

  /** The open utterance, a frame later; `end` where its loudness says that it is over. */
  #hear(open: Open, end: (Endpoint & { readonly type: 'end' }) | null): void {
    const held = this.#held;
    const pressed = held !== null && !held.tapped;
    const speech = end ?? this.#endpointer.open;
    if (speech !== null) open.spoken = speech.last + this.#unheard;
    const last = open.spoken;
    if (last === null) {
      // Tapped, and nobody speaks.
      if (held?.tapped === true && this.#options.now() - held.pressedAt > SPEAK_WITHIN_MS) this.#end(this.#frame - 1);
      return;
    }
    if (end !== null && !pressed) return this.#end(last);
    const quietMs = (this.#frame - 1 - last) * FRAME_MS;
    const { look } = open;
    if (look !== null && !pressed && this.#isOver(open, look, last, quietMs)) return this.#end(last);
    const unseen = quietMs >= LOOK_AFTER_MS && look?.last !== last && this.#frame >= open.nextSilence;
    const buried = this.#endpointer.open !== null && this.#endpointer.open.peakDb - this.#endpointer.floorDb < STANDS_OUT_DB;
    if (!open.looking && (unseen || (buried && this.#frame >= open.nextLook))) this.#look(open, last);
  }

  /** Whether the silence after the words is long enough for what may follow them. */
  #isOver(open: Open, look: Look, last: number, quietMs: number): boolean {
    if (!look.hypothesis.accepted || look.grammar !== this.#listeningFor()) return false;
    const words = look.hypothesis.words;
    const patienceMs =
      PATIENCE_MS[
        following(
          cachedWordGraph(look.grammar),
          words.map((each) => each.word),
        )
      ];
    if (look.last === last) return quietMs >= patienceMs;
    const wordsEnd = Math.max(0, open.from) + Math.ceil(((words.at(-1)?.endS ?? 0) * 1000) / FRAME_MS);
    return (look.upTo - wordsEnd) * FRAME_MS >= patienceMs + WORDS_ONLY_MS;
  }

  /** Decodes the utterance as far as it goes. */
  #look(open: Open, last: number): void {
    const grammar = this.#listeningFor();
    if (grammar === null) return;
    open.looking = true;
    const upTo = this.#frame;
    const samples = this.#sound(open.from, upTo);
    const begun = this.#options.now();
    this.#then(async () => {
      // It may have ended, or been let go, while this waited.
      if (this.#open !== open) return;
      open.look = { grammar, upTo, last, hypothesis: await this.#decode(samples, grammar) };
      open.looking = false;
      waitAfterLook(open, this.#frame, this.#options.now() - begun);
    });
  }

  /** The open utterance is over; its last spoken frame is `last`. */
  #end(last: number): void {
    const { now, emit } = this.#options;
    const open = this.#open;
    if (open === null) return;
    // What is listened for hangs on the button that is let go here.
    const grammar = this.#listeningFor();
    const byName = this.#byName();
    const byButton = this.#held !== null;
    this.#open = null;
    this.#held = null;
    this.#endpointer.drop();
    const surelyAt = now();
    const endOfSpeechAt = this.#clock.at(last + 1, surelyAt);
    emit({ type: 'speech-end', at: endOfSpeechAt });
    const study = this.#study;
    this.#study = null;
    const samples = this.#sound(open.from, Math.min(this.#frame, last + 1 + TAIL_FRAMES));
    this.#then(async () => {
      if (study !== null) return this.#studied(study, samples);
      const hypothesis = await this.#finally(open, last, samples, grammar).catch((error: unknown) => {
        this.#fault(error);
        return NOTHING;
      });
      const told = byName ? this.#window.called(hypothesis) : this.#window.unnamed(hypothesis);
      this.#watch.heard(told.reason, byButton);
      emit({
        type: 'hypothesis',
        hypothesis: told,
        times: { endOfSpeechAt, endpointMs: surelyAt - endOfSpeechAt, recogniserMs: now() - surelyAt },
      });
    });
  }

  /** An utterance of the set-up; the page is told of it as of one that was refused, so that nothing is done by it. */
  async #studied({ said, told }: Study, samples: Float32Array): Promise<void> {
    const { recogniser, emit, now } = this.#options;
    const views = await recogniser.study?.(samples, said, fullGrammar).catch((error: unknown) => {
      this.#fault(error);
      return undefined;
    });
    told(views === undefined ? null : { said, levelDb: 10 * Math.log10(activePower(samples, EAR_RATE_HZ)), ...views });
    const hypothesis: Hypothesis = { ...NOTHING, reason: 'studied' };
    emit({ type: 'hypothesis', hypothesis, times: { endOfSpeechAt: now(), endpointMs: 0, recogniserMs: 0 } });
  }

  /** Tells what keeps the ear from hearing, once for each change. */
  #tellTrouble(): void {
    const { trouble } = this.#watch;
    const name = trouble === null ? null : JSON.stringify(trouble);
    if (name === this.#trouble) return;
    this.#trouble = name;
    this.#options.emit({ type: 'trouble', trouble });
  }

  /** What the whole utterance is, from the last look where that saw all of it. */
  #finally({ look }: Open, last: number, samples: Float32Array, grammar: Grammar | null): Promise<Hypothesis> {
    if (grammar === null) return Promise.resolve(NOTHING);
    const sawAll = look !== null && look.grammar === grammar && (look.last >= last || look.upTo > last + 1 + TAIL_FRAMES);
    return sawAll ? Promise.resolve(look.hypothesis) : this.#decode(samples, grammar);
  }

  #sound(from: number, to: number): Float32Array {
    return this.#ring.slice(from * FRAME_SAMPLES, to * FRAME_SAMPLES);
  }

  /** Whether an utterance of this moment has to begin with the call name. */
  #byName(): boolean {
    return this.#mode === 'call' && !this.#window.isOpen && this.#held === null;
  }

  /** The grammar of this moment, the same object as long as it is the same. */
  #listeningFor(): Grammar | null {
    const grammar = this.#grammar;
    return grammar === null || this.#mode !== 'call' ? grammar : this.#window.grammarBefore(grammar, !this.#byName());
  }

  async #decode(samples: Float32Array, grammar: Grammar): Promise<Hypothesis> {
    const { recogniser } = this.#options;
    await recogniser.open(grammar);
    recogniser.accept(samples);
    return recogniser.finish();
  }

  /** Lets go of an utterance that is open, and says so: whoever was told of its start waits for its end. */
  #drop(): void {
    const { emit, now } = this.#options;
    const told = this.#open !== null;
    this.#open = null;
    this.#held = null;
    this.#endpointer.drop();
    if (!told) return;
    emit({ type: 'speech-end', at: now() });
    emit({ type: 'hypothesis', hypothesis: NOTHING, times: { endOfSpeechAt: now(), endpointMs: 0, recogniserMs: 0 } });
  }

  /** Compiles ahead what the next utterance will need, so that nobody waits for it. */
  #compile(): void {
    const grammar = this.#grammar;
    if (grammar === null) return;
    this.#then(async () => {
      const wanted = this.#listeningFor();
      // A newer grammar has come while this one waited.
      if (grammar === this.#grammar && wanted !== null) await this.#options.recogniser.open(wanted);
    });
  }

  /** Work on the recogniser, one after another; a fault is told and the ear goes on. */
  #then(work: () => Promise<void>): void {
    this.#work = this.#work.then(work).catch((error: unknown) => this.#fault(error));
  }

  #fault(error: unknown): void {
    const part = error instanceof EngineFault ? error.part : 'decoder';
    this.#options.emit({ type: 'fault', part, message: error instanceof Error ? error.message : String(error) });
  }
}
