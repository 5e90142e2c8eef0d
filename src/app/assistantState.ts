import type { InstrumentKind } from '../measure/index.ts';
import type { Intent, JobState, Reply, Talk } from '../job/index.ts';
import type { ListeningMode } from '../ear/index.ts';
import type { JobSummary } from '../shelf/index.ts';

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
  readonly part: 'ear' | 'voice' | 'shelf' | 'file' | 'update';
  readonly text: string;
  readonly remedy: { readonly label: string; readonly run: () => void } | null;
};

/**
 * All that the screens show. The functions are the only way to change anything; each is safe to call at any time and none
 * throws. Every value comes from the core; the screens do no arithmetic.
 */
export type AssistantState = {
  readonly page: 'starting' | 'jobs' | 'machine' | 'record' | 'phrases';
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
    readonly callName: string;
  };
  readonly volume: number;
  readonly instrument: InstrumentKind | null;
  readonly notices: readonly Notice[];
  /** Readings that could not be stored and are kept in memory only. */
  readonly unstored: number;

  goTo(page: 'jobs' | 'machine' | 'record' | 'phrases'): void;
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
  dismiss(notice: string): void;
  /** Deletes every job, memo and setting of this device; cannot be undone. The screens ask first. */
  wipe(): Promise<void>;
};
