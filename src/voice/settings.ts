import { z } from 'zod';

/** Steps of loudness, of full scale; about 4 dB apart, so that one word makes a difference. */
export const LOUDNESS: readonly number[] = [0.1, 0.16, 0.25, 0.4, 0.63, 1];
/** Steps of pace: how many times as long an answer takes. */
export const STRETCH: readonly number[] = [1, 1.15, 1.35];

/** How the voice is set, by step; kept between visits. */
export const voiceSettingsSchema = z.strictObject({
  loudness: z.number().int().min(0).max(LOUDNESS.length - 1),
  pace: z.number().int().min(0).max(STRETCH.length - 1),
  /** How much of the answer to a reading is spoken: all, or the size and what is left. All where it was never set. */
  answers: z.enum(['whole', 'short']).optional(),
});
export type VoiceSettings = z.output<typeof voiceSettingsSchema>;

export const FIRST_SETTINGS: VoiceSettings = { loudness: 4, pace: 0 };

/** Where the settings are kept. `read` gives null when nothing, or nothing usable, is there. */
export interface KeptSettings {
  read(): VoiceSettings | null;
  write(settings: VoiceSettings): void;
}

/** `louder` and `quieter` stop at the ends: never past full scale, never to silence. */
export function withLoudness(settings: VoiceSettings, steps: number): VoiceSettings {
  return { ...settings, loudness: Math.max(0, Math.min(LOUDNESS.length - 1, settings.loudness + steps)) };
}

/** Slower by one step; after the slowest comes the usual pace again, for there is no "faster" to ask for. */
export function withSlowerPace(settings: VoiceSettings): VoiceSettings {
  return { ...settings, pace: (settings.pace + 1) % STRETCH.length };
}

const KEY = 'swarfside.voice';

/** Kept in the browser's own storage for this page; a full or forbidden store loses the setting, never the answer. */
export function settingsIn(storage: Pick<Storage, 'getItem' | 'setItem'>): KeptSettings {
  return {
    read() {
      try {
        const read = voiceSettingsSchema.safeParse(JSON.parse(storage.getItem(KEY) ?? 'null'));
        return read.success ? read.data : null;
      } catch {
        return null;
      }
    },
    write(settings) {
      try {
        storage.setItem(KEY, JSON.stringify(settings));
      } catch {
        // Private windows refuse to store; the setting then lasts as long as the page.
      }
    },
  };
}
