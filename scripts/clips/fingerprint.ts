import { createHash } from 'node:crypto';
import { ADDED_PRONUNCIATIONS } from './pronunciations.ts';
import { TREATMENT } from './treat.ts';
import type { WantedClip } from './wanted.ts';

/** The voice that all clips are spoken in; chosen by measurement (docs/voice.md). */
export const VOICE = 'rms';

/** What a clip is made from: its text, the voice, the added pronunciations of its words, the treatment. Twelve hex digits. */
export function clipFingerprint({ key, text }: WantedClip): string {
  const words = new Set(key.split(' '));
  const pronunciations = ADDED_PRONUNCIATIONS.filter((line) => words.has(line.split(' ')[0] ?? ''));
  return createHash('sha256').update(JSON.stringify([text, VOICE, pronunciations, TREATMENT])).digest('hex').slice(0, 12);
}
