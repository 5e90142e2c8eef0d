import type { Level } from './meter.ts';
import type { Hypothesis } from './recogniser.ts';
import type { HearingTrouble } from './trouble.ts';

/** How the ear is made to listen: while a button is held, after its name is called, or always. */
export type ListeningMode = 'hold' | 'call' | 'open';

/**
 * What an utterance took. `endOfSpeechAt` is on the clock of the page (`performance.now`), the end of the last frame that was
 * speech; `endpointMs` from there to where the ear was sure that it was the end, `recogniserMs` from there to the words.
 */
export type HearingTimes = { readonly endOfSpeechAt: number; readonly endpointMs: number; readonly recogniserMs: number };

/** The part of the ear that failed, which is what must be started again. */
export type EarPart = 'microphone' | 'model' | 'grammar' | 'decoder' | 'worker';

export type EarEvent =
  | ({ readonly type: 'level' } & Level)
  /** What keeps the ear from hearing, told once for each change; null when it is over. */
  | { readonly type: 'trouble'; readonly trouble: HearingTrouble | null }
  | { readonly type: 'speech-start' }
  | { readonly type: 'speech-end'; readonly at: number }
  /** In call listening: the name was heard, and for a while anything may be said; or that while is over. */
  | { readonly type: 'window'; readonly open: boolean }
  | { readonly type: 'hypothesis'; readonly hypothesis: Hypothesis; readonly times: HearingTimes }
  | { readonly type: 'fault'; readonly part: EarPart; readonly message: string };
