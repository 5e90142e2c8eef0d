import { samplesIn } from '../../src/voice/index.ts';
import type { Rendering } from './flite.ts';

/**
 * How a rendering becomes a clip. Any change here is a change of every clip, and is part of their fingerprints.
 * `stretch` is the synthesiser's pace and `preEmphasis` lifts the consonants over machine noise, which lies low; both were
 * measured (docs/voice.md). `loudnessDb` is the level of the speech itself (the mean power of the frames within `gateDb` of the
 * loudest), of full scale; `peak` is where the limiter holds.
 */
export const TREATMENT = {
  stretch: 0.85, preEmphasis: 0.8, leadMs: 8, trailMs: 25, rampMs: 4, loudnessDb: -18, gateDb: -20, peak: 0.75, frameMs: 20,
} as const;

const frames = (sound: Float32Array): readonly number[] => {
  const length = samplesIn(TREATMENT.frameMs);
  const powers: number[] = [];
  for (let from = 0; from < sound.length; from += length) {
    const frame = sound.subarray(from, from + length);
    powers.push(frame.reduce((sum, value) => sum + value * value, 0) / frame.length);
  }
  return powers;
};

/** Level of the speech in decibels of full scale; quiet frames are left out, so that a long "s" does not make a word quiet. */
export function speechLevelDb(sound: Float32Array): number {
  const powers = frames(sound);
  const floor = Math.max(...powers) * 10 ** (TREATMENT.gateDb / 10);
  const loud = powers.filter((power) => power >= floor);
  return 10 * Math.log10(loud.reduce((sum, power) => sum + power, 0) / loud.length + 1e-12);
}

/** Bends what would pass `peak` down to it, smoothly from half of it on, so that no clip is clipped. */
function limited(value: number): number {
  const knee = TREATMENT.peak / 2;
  const size = Math.abs(value);
  if (size <= knee) return value;
  return Math.sign(value) * (knee + knee * Math.tanh((size - knee) / knee));
}

/** The speech alone, at one loudness, with short ramps so that any two clips may meet. */
export function treated({ sound, startS, endS }: Rendering, preEmphasis: number = TREATMENT.preEmphasis): Float32Array {
  const from = Math.max(0, samplesIn(startS * 1000 - TREATMENT.leadMs));
  const to = Math.min(sound.length, samplesIn(endS * 1000 + TREATMENT.trailMs));
  const cut = sound.slice(from, to).map((value, at) => value - preEmphasis * (sound[from + at - 1] ?? 0));
  const gain = 10 ** ((TREATMENT.loudnessDb - speechLevelDb(cut)) / 20);
  const ramp = samplesIn(TREATMENT.rampMs);
  return cut.map((value, at) => limited(value * gain) * Math.min(1, at / ramp, (cut.length - 1 - at) / ramp));
}
