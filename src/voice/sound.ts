/** Samples a second of every clip, tone and assembled answer: all that the synthesiser's voices have (docs/voice.md). */
export const VOICE_RATE_HZ = 16_000;

/** Mono sound, -1 to 1, at `VOICE_RATE_HZ`. */
export type Sound = Float32Array;

/** Whole samples in that many milliseconds, rounded to nearest. */
export const samplesIn = (ms: number): number => Math.round((ms * VOICE_RATE_HZ) / 1000);

/** How long a sound lasts, in milliseconds. */
export const lengthMs = (sound: Sound): number => (sound.length * 1000) / VOICE_RATE_HZ;
