import type { DisplayUnit } from '../../../src/measure/index.ts';

/** A length as text that is read, how many places at most, and how inches are written on a shop drawing (common practice). */
export const INCHES: readonly (readonly [length: string, maxPlaces: number, shown: string])[] = [
  ['.627in', 4, '.627'],
  ['.6275in', 4, '.6275'],
  ['.62in', 4, '.620'],
  ['1.3125in', 4, '1.3125'],
  ['1.25in', 4, '1.250'],
  ['1in', 4, '1.000'],
  ['0in', 4, '.000'],
  ['-.002in', 4, '-.002'],
  ['1/64in', 4, '.0156'],
  ['1/64in', 6, '.015625'],
  ['13/64in', 4, '.2031'],
  // The fifth place decides, away from zero on a tie.
  ['.62755in', 4, '.6276'],
  ['-.62755in', 4, '-.6276'],
  ['.62754in', 4, '.6275'],
  ['.99996in', 4, '1.000'],
  ['-.00004in', 4, '.000'],
  ['.627in', 3, '.627'],
  ['.6275in', 2, '.63'],
  ['.6275in', 0, '1'],
  ['.4in', 0, '0'],
];

export const MILLIMETRES: readonly (readonly [length: string, maxPlaces: number, shown: string])[] = [
  ['19.05mm', 3, '19.05'],
  ['24.985mm', 3, '24.985'],
  ['19mm', 3, '19.00'],
  ['19.1mm', 3, '19.10'],
  ['0.02mm', 3, '0.02'],
  ['-0.05mm', 3, '-0.05'],
  ['0mm', 3, '0.00'],
  ['19.0505mm', 3, '19.051'],
  ['19.9996mm', 3, '20.00'],
  ['-0.0004mm', 3, '0.00'],
  ['19.06mm', 1, '19.1'],
  ['19.6mm', 0, '20'],
];

/** Small amounts as they are said. */
export const AMOUNTS: readonly (readonly [length: string, unit: DisplayUnit, shown: string])[] = [
  ['.002in', 'inch', '2 thou'],
  ['.0005in', 'inch', '0.5 thou'],
  ['.0125in', 'inch', '12.5 thou'],
  ['.0001in', 'inch', '0.1 thou'],
  ['-.002in', 'inch', '-2 thou'],
  ['0in', 'inch', '0 thou'],
  ['-.00001in', 'inch', '0 thou'],
  ['.0999in', 'inch', '99.9 thou'],
  ['.1in', 'inch', '.100 in'],
  ['-.25in', 'inch', '-.250 in'],
  ['0.05mm', 'millimetre', '0.05 mm'],
  ['-0.05mm', 'millimetre', '-0.05 mm'],
];

export const SIZES: readonly (readonly [length: string, unit: DisplayUnit, shown: string])[] = [
  ['.6275in', 'inch', '.6275 in'],
  ['15.94mm', 'millimetre', '15.94 mm'],
  ['.6275in', 'millimetre', '15.939 mm'],
  ['15.94mm', 'inch', '.6276 in'],
];

/** How a length stands in a file: every digit, in the unit that needs fewer. */
export const WRITTEN: readonly (readonly [nanometres: number, text: string])[] = [
  [0, '0mm'],
  [25_400_000, '1in'],
  [1_000_000, '1mm'],
  [15_925_800, '0.627in'],
  [15_938_500, '0.6275in'],
  [15_940_000, '15.94mm'],
  [-50_000, '-0.05mm'],
  [-50_800, '-0.002in'],
  [396_875, '0.396875mm'],
  [127, '0.000127mm'],
  [1, '0.000001mm'],
  [254, '0.00001in'],
  [25_400, '0.001in'],
  [9_007_199_254_740_991, '9007199254.740991mm'],
];
