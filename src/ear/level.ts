/** Levels are decibels of full scale: 0 is the loudest square wave, -100 stands for nothing at all. */
export const NOTHING_DB = -100;

/** Ten milliseconds, the step in which loudness is followed. */
export const FRAME_MS = 10;

/** The level of a piece of sound. */
export function levelDb(samples: Float32Array, from = 0, to: number = samples.length): number {
  let sum = 0;
  for (let at = from; at < to; at += 1) sum += samples[at]! * samples[at]!;
  return to > from ? Math.max(NOTHING_DB, 10 * Math.log10(sum / (to - from) + 1e-12)) : NOTHING_DB;
}

/** The level of each whole frame of ten milliseconds. */
export function frameLevels(samples: Float32Array, rateHz: number): Float32Array {
  const length = Math.round((rateHz * FRAME_MS) / 1000);
  const levels = new Float32Array(Math.floor(samples.length / length));
  for (let index = 0; index < levels.length; index += 1) levels[index] = levelDb(samples, index * length, (index + 1) * length);
  return levels;
}

/** The value below which this share of the values lies. */
export function quantile(values: ArrayLike<number>, share: number): number {
  const sorted = Float32Array.from(values).sort();
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? NOTHING_DB;
}

/** The mean power of the frames within 25 dB of the loudest, so that the silence around a word does not count. */
export function activePower(samples: Float32Array, rateHz: number): number {
  const powers = Array.from(frameLevels(samples, rateHz), (db) => 10 ** (db / 10));
  const loudest = powers.reduce((most, power) => Math.max(most, power), 0);
  const active = powers.filter((power) => power > loudest / 10 ** 2.5);
  return active.length === 0 ? 1e-10 : active.reduce((sum, power) => sum + power, 0) / active.length;
}
