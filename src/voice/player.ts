import type { Sound } from './sound.ts';

/** How a sound came to its end: by itself, by `stop`, or because the device would not play it. */
export type PlayEnd = 'ended' | 'stopped' | 'failed';

/** One sound being played. Both promises settle always; `began` gives null when nothing was ever heard. */
export type Playing = {
  /** When the first sample left for the loudspeaker, in milliseconds of the page's clock, output latency included. */
  readonly began: Promise<number | null>;
  readonly done: Promise<PlayEnd>;
  stop(): void;
};

/** A thing that plays sounds; the browser's stands behind it, and a silent one in Node. */
export interface Player {
  /** Whether a sound would be heard now: a browser allows none before the first touch. */
  readonly unlocked: boolean;
  /** From a sample leaving the page to the air, in milliseconds, as far as the browser tells. */
  readonly latencyMs: number;
  /** `loudness` is 0 to 1 of full scale. */
  play(sound: Sound, loudness: number): Playing;
  /** To be called within a touch or a key press; resolves with whether sound is allowed now. */
  unlock(): Promise<boolean>;
  close(): void;
}

/** The device's own offline voice. `stretch` is how many times as long as usual it should take. */
export interface DeviceVoice {
  speak(text: string, loudness: number, stretch: number): Playing;
}
