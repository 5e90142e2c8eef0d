import { activePower } from './active.ts';
import { makeNoise, type NoiseKind } from './kinds.ts';
import { mixSeed, seeded } from './random.ts';

/** Which noise, how far under the speech in decibels, and from which seed. */
export type NoiseWanted = { readonly kind: NoiseKind; readonly snrDb: number; readonly seed: number };

/**
 * A sound at 16 kHz with noise laid under it; `index` gives each sound of a set noise of its own. The ratio is that of the level
 * while speech sounds (`activePower`) to the level of the noise; what would overload is turned down as a whole.
 */
export function withNoise(samples: Float32Array, { kind, snrDb, seed }: NoiseWanted, index: number): Float32Array {
  const noise = makeNoise(kind, samples.length, seeded(mixSeed(seed, index)));
  const gain = Math.sqrt(activePower(samples) / 10 ** (snrDb / 10));
  const mixed = samples.map((sample, at) => sample + gain * noise[at]!);
  const peak = mixed.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  return peak > 0.99 ? mixed.map((sample) => (sample * 0.99) / peak) : mixed;
}
