/** Frames of ten milliseconds at 16 kHz; those within this of the loudest are counted as speech. */
const FRAME = 160;
const WITHIN_DB = 25;

/**
 * The mean power of a sound while it sounds: of the frames within 25 dB of the loudest, so that the silence around a word does
 * not count. Of a steady sound it is the plain mean power.
 */
export function activePower(samples: Float32Array): number {
  const powers: number[] = [];
  for (let at = 0; at + FRAME <= samples.length; at += FRAME) {
    let sum = 0;
    for (let k = at; k < at + FRAME; k += 1) sum += samples[k]! * samples[k]!;
    powers.push(sum / FRAME);
  }
  const loudest = powers.reduce((most, power) => Math.max(most, power), 0);
  const active = powers.filter((power) => power > loudest / 10 ** (WITHIN_DB / 10));
  return active.length === 0 ? 1e-10 : active.reduce((sum, power) => sum + power, 0) / active.length;
}
