import type { Ear } from '../ear/index.ts';
import type { Context, Tone } from '../job/index.ts';
import type { Spoken } from '../phrasebook/index.ts';
import type { VoiceSettings } from '../voice/index.ts';

/** The ear as the assistant uses it: told where the job stands, it makes its grammar, whose code comes with it. */
export type PageEar = Ear & { readonly listenFor: (context: Context) => void };

/** The voice as the assistant uses it. `louder` and `quieter` give the new volume, 0 to 1. */
export interface VoicePort {
  readonly volume: number;
  readonly settings: VoiceSettings;
  set(settings: VoiceSettings): void;
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
