import type { NoiseKind } from '../../../src/cli/noise/kinds.ts';
import type { NoiseWanted } from '../../../src/cli/noise/mix.ts';

/** Kinds that training and tuning may use, and kinds that only the bench meets. */
export const KNOWN: readonly NoiseKind[] = ['motor', 'gears', 'hiss', 'chatter', 'talk', 'air'];
export const HELD_OUT: readonly NoiseKind[] = ['interrupted', 'coolant'];

/** Under what noise the bench listens; the kinds take turns from utterance to utterance. */
export type Condition = { readonly name: string; readonly kinds: readonly NoiseKind[]; readonly snrDb: number };

export const CONDITIONS: readonly Condition[] = [
  { name: 'clean', kinds: [], snrDb: Infinity },
  { name: '20 dB', kinds: [...KNOWN, ...HELD_OUT], snrDb: 20 },
  { name: '10 dB, known kinds', kinds: KNOWN, snrDb: 10 },
  { name: '10 dB, held out', kinds: HELD_OUT, snrDb: 10 },
  { name: '5 dB, known kinds', kinds: KNOWN, snrDb: 5 },
  { name: '5 dB, held out', kinds: HELD_OUT, snrDb: 5 },
];

/** The noise for utterance `index`; null where it is left clean. */
export function noiseFor({ kinds, snrDb }: Condition, index: number): NoiseWanted | null {
  const kind = kinds[index % Math.max(1, kinds.length)];
  return kind === undefined ? null : { kind, snrDb, seed: 9_000 + Math.round(snrDb) };
}
