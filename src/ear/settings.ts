import { z } from 'zod';
import { CALL_NAMES } from '../phrasebook/index.ts';
import { personalSchema } from './personal/index.ts';

/** How the ear is set on this device; kept between visits. Nothing of it leaves the device. */
export const earSettingsSchema = z.strictObject({
  callName: z.enum(CALL_NAMES),
  /** The answer is heard in a headset only, so the ear may listen while the page speaks. */
  headset: z.boolean(),
  /** The microphone that was chosen, by the browser's id of it; null for whichever the device prefers. */
  microphone: z.string().max(400).nullable().default(null),
  /** What was fitted to the person's own voice; null before the set-up. */
  personal: personalSchema.nullable(),
});
export type EarSettings = z.output<typeof earSettingsSchema>;

export const FIRST_EAR_SETTINGS: EarSettings = { callName: CALL_NAMES[0], headset: false, microphone: null, personal: null };

const KEY = 'swarfside.ear';

/** Where the settings are kept. `read` gives the first settings when nothing, or nothing usable, is there. */
export interface KeptEarSettings {
  read(): EarSettings;
  write(settings: EarSettings): void;
}

/** Kept in the browser's own storage for this page; a full or forbidden store loses the setting, never a word. */
export function earSettingsIn(storage: Pick<Storage, 'getItem' | 'setItem'>): KeptEarSettings {
  return {
    read() {
      try {
        const read = earSettingsSchema.safeParse(JSON.parse(storage.getItem(KEY) ?? 'null'));
        return read.success ? read.data : FIRST_EAR_SETTINGS;
      } catch {
        return FIRST_EAR_SETTINGS;
      }
    },
    write(settings) {
      try {
        storage.setItem(KEY, JSON.stringify(settings));
      } catch {
        // Private windows refuse to store; the settings then last as long as the page.
      }
    },
  };
}
