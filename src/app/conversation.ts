import {
  contextOf,
  fold,
  folded,
  line,
  opening,
  replyOf,
  sentence,
  silence,
  type AskKey,
  type Context,
  type Decision,
  type Effect,
  type EventBody,
  type EventType,
  type Intent,
  type IntentType,
  type JobEvent,
  type JobState,
  type Plan,
  type RefusalKey,
  type Reply,
  type Scene,
  type Talk,
} from '../job/index.ts';
import { SURE_FROM } from '../ear/index.ts';
import type { ParseRefusal } from '../phrasebook/index.ts';
import { momentAfter, type OpenLog, type ShelfFault } from '../shelf/index.ts';

/** What makes sense of words, fetched after the page: buttons do without it. */
export const reading = () => import('./reading.ts');

/** What decides what becomes of an intent, fetched after the page too: it is drawn without. */
export const deciding = () => import('./deciding.ts');

/** How the words or the intent came in. */
export type Source = 'voice' | 'typed' | 'button';

/** Why a turn did nothing: a refusal of the job or of the phrasebook, or the store. */
export type TurnReason = RefusalKey | AskKey | ParseRefusal | 'not-heard' | 'not-stored';

/** What became of one utterance, typed line or touch. Times are milliseconds spent in each part. */
export type Turn = {
  readonly source: Source;
  readonly heard: string;
  readonly outcome: 'done' | 'asked' | 'refused';
  readonly reason: TurnReason | null;
  readonly intent: IntentType | null;
  /** Nanometres, thousandths of a degree Celsius or a step number, as the intent has it; the likelier of two. */
  readonly value: number | null;
  readonly events: readonly EventType[];
  readonly reply: Reply;
  readonly effect: Effect | null;
  readonly fault: ShelfFault | null;
  readonly times: { readonly interpretMs: number; readonly decideMs: number; readonly storeMs: number };
};

type ConversationLog = Pick<OpenLog, 'append' | 'held'>;

/** A job as it was read; `nextSeq` is what the store expects next, and counts events that this build does not understand. */
type ReadJob = { readonly plan: Plan; readonly events: readonly JobEvent[]; readonly nextSeq: number };

const lastOf = (job: ReadJob): number => job.events.reduce((latest, { at }) => Math.max(latest, at), 0);

/** What a conversation takes from the edge. `tick` is a clock for spans, in milliseconds; `now` is the time of day. */
export type ConversationDeps = {
  readonly log: ConversationLog;
  readonly now: () => number;
  readonly tick: () => number;
  readonly newId: () => string;
  /** False where a bare number must not count as a reading: in open listening it needs its verb. */
  readonly bareReadings: () => boolean;
};

const valueIn = (intent: Intent): number | null => {
  const heard = 'value' in intent ? intent.value : 'step' in intent ? intent.step : null;
  if (heard === null) return null;
  return heard.as === 'one' ? heard.value : heard.as === 'either' ? heard.values[0] : null;
};

/**
 * One job being worked through, by voice, touch or typing alike: words become an intent, the intent is decided, its events are
 * stored, and only then is there an answer. Turns are taken one after the other, in the order that they came in.
 * Invariants: `state` is the fold of every event that was stored or is held by the log; an answer that acknowledges an event is
 * given only after the store has it.
 */
export class Conversation {
  #state: JobState;
  #talk: Talk = silence;
  #nextSeq: number;
  #lastAt: number;
  #log: ConversationLog;
  #turns: Promise<unknown> = Promise.resolve();
  readonly #deps: ConversationDeps;

  constructor(job: ReadJob, deps: ConversationDeps) {
    this.#state = folded(job.plan, job.events);
    this.#nextSeq = job.nextSeq;
    this.#lastAt = lastOf(job);
    this.#log = deps.log;
    this.#deps = deps;
  }

  get state(): JobState {
    return this.#state;
  }
  get talk(): Talk {
    return this.#talk;
  }
  get unstored(): readonly JobEvent[] {
    return this.#log.held();
  }
  get context(): Context {
    return contextOf(this.#state, this.#talk, this.#deps.now());
  }

  /** Words from the recogniser with its confidence, or said in a rehearsal: then there is no doubt of them. */
  hear(words: string, confidence = 1): Promise<Turn> {
    return this.#inTurn(() => this.#read('voice', words, confidence < SURE_FROM));
  }

  /** A number or a phrase from the keyboard, the number pad, or a caliper that types. */
  type(text: string): Promise<Turn> {
    return this.#inTurn(() => this.#read('typed', text, false));
  }

  /** What a button, key or pedal stands for. */
  press(intent: Intent): Promise<Turn> {
    return this.#inTurn(() => this.#settle('button', '', intent, 0, false));
  }

  /** Sound that was meant for the page but not made out; `words` is the best guess, said back so that the person knows. */
  notHeard(words: string): Promise<Turn> {
    return this.#inTurn(() => Promise.resolve(this.#notUnderstood('voice', words, 'not-heard', 0)));
  }

  /** Says what is open; the first turn of a session. */
  begin(): Promise<Turn> {
    return this.#inTurn(() => this.#carryOut('button', '', null, (scene) => opening(scene), 0));
  }

  /** Stores a fact that no words stand for, such as a memo whose sound has been kept. */
  record(body: EventBody, phrase: 'memo-kept'): Promise<Turn> {
    return this.#inTurn(() =>
      this.#carryOut(
        'button',
        '',
        null,
        (scene) => {
          const reply = replyOf(scene, 'stored', sentence(phrase));
          return {
            outcome: 'done',
            reason: null,
            events: [body],
            reply,
            talk: { ...scene.talk, lastReply: reply },
            effect: null,
          };
        },
        0,
      ),
    );
  }

  /**
   * Takes the job up as another window or device left it, in a turn of its own, so that no answer is lost to it. What was asked
   * stays asked while the same operation is open. While events are held that the disk would not take, the job stays up as it is,
   * for they would be forgotten. False where `read` gave null, which says that it cannot be read.
   */
  reread(read: () => Promise<{ readonly job: ReadJob; readonly log: ConversationLog } | null>): Promise<boolean> {
    return this.#inTurn(async () => {
      if (this.#log.held().length > 0) return true;
      const again = await read();
      if (again === null) return false;
      const { open } = this.#state;
      this.#state = folded(again.job.plan, again.job.events);
      this.#nextSeq = again.job.nextSeq;
      this.#lastAt = lastOf(again.job);
      this.#log = again.log;
      if (this.#state.open !== open) this.#talk = { ...this.#talk, question: null };
      return true;
    });
  }

  #inTurn<T>(turn: () => Promise<T>): Promise<T> {
    const mine = this.#turns.then(turn);
    this.#turns = mine.catch(() => undefined);
    return mine;
  }

  async #read(source: 'voice' | 'typed', words: string, unsure: boolean): Promise<Turn> {
    const { interpret, interpretTyped } = await reading();
    const from = this.#deps.tick();
    const read = source === 'voice' ? interpret(words, this.context) : interpretTyped(words, this.context);
    const interpretMs = this.#deps.tick() - from;
    if (!read.ok) return this.#notUnderstood(source, words, read.error.key, interpretMs);
    const intent = read.value;
    const needsVerb = source === 'voice' && intent.type === 'reading' && intent.spoken === 'bare';
    if (needsVerb && !this.#deps.bareReadings() && this.#talk.question === null)
      return this.#refuse(source, words, 'needs-a-verb', 'say-it-with-a-verb', intent.type, interpretMs);
    // Each of these would store a value, or move the job, with no question to put first.
    const mustBeSure = intent.type === 'correct' || intent.type === 'temperature' || intent.type === 'go-to';
    if (unsure && (mustBeSure || (intent.type === 'yes' && this.#talk.question !== null)))
      return this.#notUnderstood(source, words, 'not-heard', interpretMs);
    return this.#settle(source, words, intent, interpretMs, unsure);
  }

  async #settle(source: Source, words: string, intent: Intent, interpretMs: number, unsure: boolean): Promise<Turn> {
    const { decide } = await deciding();
    return this.#carryOut(source, words, intent, (scene) => decide({ ...scene, unsure }, intent), interpretMs);
  }

  #notUnderstood(source: Source, words: string, key: ParseRefusal | 'not-heard', interpretMs: number): Turn {
    const scene = { state: this.#state, talk: this.#talk, words, now: this.#deps.now() };
    const heard = words.trim() === '' ? [] : [sentence('heard', line(words))];
    const reply = replyOf(scene, 'please-repeat', sentence('say-again'), ...heard);
    return this.#turn(source, words, { outcome: 'refused', reason: key, reply, intent: null, value: null, interpretMs });
  }

  #refuse(
    source: Source,
    words: string,
    reason: RefusalKey,
    phrase: 'say-it-with-a-verb',
    intent: IntentType,
    interpretMs: number,
  ): Turn {
    const scene = { state: this.#state, talk: this.#talk, words, now: this.#deps.now() };
    const reply = replyOf(scene, 'please-repeat', sentence(phrase));
    return this.#turn(source, words, { outcome: 'refused', reason, reply, intent, value: null, interpretMs });
  }

  #turn(
    source: Source,
    heard: string,
    told: Pick<Turn, 'outcome' | 'reason' | 'reply' | 'intent' | 'value'> & { interpretMs: number },
  ): Turn {
    const { interpretMs, ...rest } = told;
    return { source, heard, ...rest, events: [], effect: null, fault: null, times: { interpretMs, decideMs: 0, storeMs: 0 } };
  }

  async #carryOut(
    source: Source,
    words: string,
    intent: Intent | null,
    decideIt: (scene: Scene) => Decision,
    interpretMs: number,
  ): Promise<Turn> {
    const { now, tick } = this.#deps;
    const scene = { state: this.#state, talk: this.#talk, words, now: now() };
    const before = tick();
    const decision = decideIt(scene);
    const decided = tick();
    const fault = await this.#store(decision.events);
    const storeMs = tick() - decided;
    this.#talk = decision.talk;
    return {
      source,
      heard: words,
      outcome: fault === null ? decision.outcome : 'refused',
      reason: fault === null ? decision.reason : 'not-stored',
      intent: intent?.type ?? null,
      value: intent === null ? null : valueIn(intent),
      events: decision.events.map((body) => body.type),
      reply: fault === null ? decision.reply : replyOf(scene, 'please-repeat', sentence('not-stored')),
      effect: decision.effect,
      fault,
      times: { interpretMs, decideMs: decided - before, storeMs },
    };
  }

  /** Numbers the events, folds them, and stores them in order. Null when all are on the disk, else why the first was not. */
  async #store(bodies: readonly EventBody[]): Promise<ShelfFault | null> {
    let fault: ShelfFault | null = null;
    for (const body of bodies) {
      this.#lastAt = momentAfter(this.#lastAt, this.#deps.now());
      const event: JobEvent = { id: this.#deps.newId(), seq: this.#nextSeq++, at: this.#lastAt, v: 1, body };
      this.#state = fold(this.#state, event);
      const stored = await this.#log.append(event);
      if (!stored.ok) fault ??= stored.error;
    }
    return fault;
  }
}
