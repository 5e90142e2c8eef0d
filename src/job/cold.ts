import { celsius, type Length } from '../measure/index.ts';
import type { MeasuredQuantity } from '../route/index.ts';
import { EXPANSIONS, sizeAtReference, type Expansion, type ThermalMaterial } from '../trade/index.ts';
import { progressOf } from './fold.ts';
import { downward } from './history.ts';
import type { JobState, Reading } from './state.ts';

/** Words of a material that tell how it expands; anything else is steel. */
const MATERIAL_WORDS: readonly (readonly [RegExp, ThermalMaterial])[] = [
  [/stainless/i, 'stainless-steel'],
  [/alumin/i, 'aluminium'],
  [/brass|bronze/i, 'brass'],
  [/cast iron/i, 'cast-iron'],
];

/** How the part expands, by the words of its stock. */
export const partExpansion = ({ plan }: JobState): Expansion =>
  EXPANSIONS[MATERIAL_WORDS.find(([words]) => words.test(plan.part.stock.material))?.[1] ?? 'steel'];

/**
 * A size of the part at 20 °C (ISO 1), read at so many degrees Celsius; as it was read where nobody said how warm it was. An
 * indicator shows a difference, which warmth does not change.
 */
export const coldPart = (state: JobState, quantity: MeasuredQuantity, value: Length, warm: number | null): Length =>
  warm === null || quantity === 'indicator'
    ? value
    : sizeAtReference(value, partExpansion(state), celsius(warm, 'half-even'), 'half-even');

/** A standing reading of the part at 20 °C, by what was said of its temperature for it. */
export function coldReading(state: JobState, reading: Reading): Length {
  for (const work of downward(progressOf(state, reading.operation).work))
    if (work.did === 'read' && work.reading.event === reading.event)
      return coldPart(state, reading.quantity, reading.value, work.celsius);
  return reading.value;
}
