import type { Intent, JobState, Plan, Reply, Talk } from '../job/index.ts';
import type { DisplayUnit, InstrumentKind } from '../measure/index.ts';
import type { Draft } from '../part/index.ts';
import type { EarSettings, ListeningMode, Personal, Take } from '../ear/index.ts';
import type { VoiceSettings } from '../voice/index.ts';
import type { JobSummary } from '../shelf/index.ts';
import type { StoreApi } from 'zustand/vanilla';
import type { HandOver } from './handOver.ts';
import type { Safekeeping } from './safekeepingState.ts';

/** What the ear is doing. `off` until the person allows the microphone. */
export type ListeningState = 'off' | 'starting' | 'waiting' | 'hearing' | 'thinking' | 'speaking' | 'broken';

/** The last thing that was heard or typed, and what became of it. */
export type HeardLine = {
  readonly words: string;
  readonly from: 'voice' | 'typed' | 'button';
  readonly outcome: 'done' | 'asked' | 'refused' | 'not-understood';
};

/** Something that does not work, in one line, with what can be done about it; stepping and typing go on. */
export type Notice = {
  readonly id: string;
  readonly part: 'ear' | 'voice' | 'shelf' | 'file' | 'update' | 'page';
  readonly text: string;
  readonly remedy: { readonly label: string; readonly run: () => void } | null;
};

/** One line of the list of parts that are being laid out. `changedAt` is milliseconds since 1970. */
export type DraftSummary = { readonly id: string; readonly name: string; readonly changedAt: number };

/** The ear's settings and its set-up, src/ear/README.md says how they are used. Nothing is kept but by `change`. */
export type Hearing = {
  readonly settings: EarSettings;
  readonly change: (change: Partial<EarSettings>) => void;
  readonly study: (said: string) => Promise<Take | null>;
  readonly fit: (takes: readonly Take[]) => Promise<Personal | null>;
};

/** A page of the screens that can be gone to. `voice` is the set-up of hearing and speaking, `compare` two pieces of one part. */
export type PageName = 'jobs' | 'machine' | 'record' | 'phrases' | 'layout' | 'voice' | 'keys' | 'compare';

/**
 * All that the screens show. The functions are the only way to change anything; each is safe to call at any time and none
 * throws. Every value comes from the core; the screens do no arithmetic.
 */
export type AssistantState = {
  readonly page: 'starting' | PageName;
  readonly jobs: readonly JobSummary[];
  /** The open job: its id, its folded state, and the conversation with its open question. */
  readonly job: { readonly id: string; readonly state: JobState; readonly talk: Talk } | null;
  readonly heard: HeardLine | null;
  readonly reply: { readonly text: string; readonly reply: Reply; readonly outcome: 'done' | 'asked' | 'refused' } | null;
  readonly listening: {
    readonly mode: ListeningMode;
    readonly state: ListeningState;
    /** Loudness now and the noise floor, in dB under full scale (0 loudest, -80 silence); null while there is no microphone. */
    readonly levelDb: number | null;
    readonly floorDb: number | null;
    readonly tooLoud: boolean;
    /** Its name was said a moment ago: anything may be said now. */
    readonly called: boolean;
    readonly callName: string;
    /** Why the ear cannot hear, in a sentence with what to do; null or absent while it can. */
    readonly trouble?: string | null;
  };
  /** How the ear is set, and the set-up of the person's own voice; absent until the ear was opened once. */
  readonly hearing?: Hearing;
  readonly volume: number;
  /** How the voice is set; null until it is open. */
  readonly speech: VoiceSettings | null;
  readonly instrument: InstrumentKind | null;
  readonly notices: readonly Notice[];
  /** Readings that could not be stored and are kept in memory only. */
  readonly unstored: number;
  /** What keeps the record safe, and working together with another device; absent where there is no browser behind the store. */
  readonly safekeeping?: StoreApi<Safekeeping>;
  readonly handOver?: StoreApi<HandOver>;

  /** Parts that are being laid out, newest change first; the one on the desk; and whether its last change is stored. */
  readonly drafts: readonly DraftSummary[];
  readonly draft: Draft | null;
  readonly draftKept: boolean;

  goTo(page: PageName): void;
  openJob(id: string): Promise<void>;
  startDemo(demo: 'inch' | 'metric'): Promise<void>;
  importJob(fileName: string, text: string): Promise<void>;
  /** The job as one readable file: its name and text. */
  exportJob(): Promise<{ readonly fileName: string; readonly text: string } | null>;
  /** Does what a button stands for, exactly as if it had been said. */
  command(intent: Intent): Promise<void>;
  /** Reads a typed number or phrase, as if it had been said. */
  typed(text: string): Promise<void>;
  /** Yes or no to the open question, or the first or second of two offered values. */
  answer(choice: 'yes' | 'no' | 'first' | 'second'): Promise<void>;
  /** Allows the microphone and starts listening in a mode; also the moment at which sound may play. */
  listen(mode: ListeningMode): Promise<void>;
  stopListening(): void;
  /** The hold button or pedal went down, came up. */
  hold(): void;
  release(): void;
  hush(): void;
  restart(part: 'ear' | 'voice'): Promise<void>;
  /** Sets the voice, keeps it so, and sounds a tone at it. */
  setSpeech(settings: VoiceSettings): void;
  dismiss(notice: string): void;
  /** Begins to lay out a part, with the machines of the last draft. */
  newDraft(unit: DisplayUnit): Promise<void>;
  openDraft(id: string): Promise<void>;
  /** Takes a change of the draft on the desk; it is stored as soon as the one before is. */
  keepDraft(draft: Draft): void;
  dropDraft(id: string): Promise<void>;
  /** Lays out the part of the open job anew, to be changed or made again. */
  draftFromJob(): Promise<void>;
  /** Begins a job and opens it. */
  startJob(plan: Plan): Promise<void>;
  /** The sound of a memo of the open job as a WAV file; null where it is not there. */
  memo(clip: string): Promise<Uint8Array | null>;
  /** Where another job stands, to be compared with the open one; null where it cannot be opened. */
  pieceOf(job: string): Promise<JobState | null>;
  /** Deletes every job, memo and setting of this device; cannot be undone. The screens ask first. */
  wipe(): Promise<void>;
};
