import type { Hypothesis } from '../ear/index.ts';
import type { Tone } from '../job/index.ts';
import type { Grammar, Spoken } from '../phrasebook/index.ts';
import type { ListeningMode } from './assistantState.ts';

/** When an utterance ended, and what it took to make words of it; times in milliseconds of the page's clock. */
export type HearingTimes = { readonly endOfSpeechAt: number; readonly endpointMs: number; readonly recogniserMs: number };

/** What the ear tells. */
export type EarEvent =
  | { readonly type: 'level'; readonly rmsDb: number; readonly floorDb: number; readonly tooLoud: boolean }
  | { readonly type: 'speech-start' }
  | { readonly type: 'speech-end' }
  | { readonly type: 'hypothesis'; readonly hypothesis: Hypothesis; readonly times: HearingTimes }
  | { readonly type: 'fault'; readonly message: string };

/** The ear as the assistant uses it: microphone, endpointing and recogniser behind one door. */
export interface EarPort {
  readonly callName: string;
  start(mode: ListeningMode): Promise<void>;
  stop(): void;
  hold(): void;
  release(): void;
  setGrammar(grammar: Grammar): void;
  /** Half duplex: what comes in while the page speaks is not heard. */
  deaf(deaf: boolean): void;
  lastSeconds(seconds: number): { readonly wav: Uint8Array; readonly seconds: number } | null;
  onEvent(listener: (event: EarEvent) => void): () => void;
  close(): void;
}

/** The voice as the assistant uses it. `louder` and `quieter` give the new volume, 0 to 1. */
export interface VoicePort {
  readonly volume: number;
  /** What the voice has to do without, in one line; null when all is well. */
  readonly trouble: string | null;
  say(spoken: readonly Spoken[], tone: Tone | null): Promise<{ readonly firstSampleAt: number | null }>;
  hush(): void;
  louder(): number;
  quieter(): number;
  slower(): void;
  unlock(): Promise<boolean>;
  onSpeaking(listener: (speaking: boolean) => void): () => void;
}
