import { minus, plus, times, zero, type Length } from '../../measure/index.ts';
import { SLENDER } from './allowances.ts';
import type { Held, Work } from './draft.ts';
import { isFine, limitsOf, shouldersOf, thinnestOf, type Bar, type Side } from './layout.ts';
import { springOf } from './sideSteps.ts';

/** Over so many diameters between supports the work is cut slower. Common practice, no source. */
const SLOWER = 8;

/** Fine diameters may bend by a quarter of their window under the finishing cut before the tailstock is brought up. */
const bendsTooMuch = (work: Work, bar: Bar, held: Pick<Held, 'bending' | 'out'>, outboard: Length): boolean => {
  const { low, high } = limitsOf(bar.feature);
  return isFine(bar) && springOf(work, bar, held, outboard) * 4 > minus(high, low);
};

/**
 * How the work of a side is kept from bending when it stands out of a chuck so far: alone, or with the tailstock where it is long
 * for its diameter or would bend by more than its windows can bear. `also` stands out too but is thick, such as the bar itself.
 */
export function heldFor(
  work: Work,
  side: Side,
  out: Length,
  also: readonly Length[],
): { readonly held: Held; readonly why: string | null } {
  const thinnest = [...also, ...side.map(thinnestOf)].reduce((least, one) => (one < least ? one : least));
  const shoulders = shouldersOf(side);
  const alone = { bending: 'chuck', out } as const;
  const long = out > times(thinnest, SLENDER.tailstock);
  const bends = side.find(
    (bar, index) => bar.offset === 0 && bendsTooMuch(work, bar, alone, minus(shoulders[index] ?? zero, bar.length)),
  );
  const supported = long || bends !== undefined;
  const times3 = (Math.round((out / thinnest) * 10) / 10).toFixed(1);
  const why = long
    ? `Tailstock: it stands out ${times3} diameters of its thinnest place; over ${SLENDER.tailstock} it wants support.`
    : bends !== undefined
      ? `Tailstock: out of the chuck alone the finishing cut would bend ${bends.feature.name} by more than a quarter of its window.`
      : null;
  return {
    held: {
      bending: supported ? 'chuck-and-tailstock' : 'chuck',
      out,
      supported,
      slender: supported && out > times(thinnest, SLOWER),
    },
    why,
  };
}

/** The whole part between centres. */
export function heldBetweenCentres(bars: readonly Bar[], total: Length): Held {
  const thinnest = bars.map(thinnestOf).reduce((least, one) => (one < least ? one : least));
  return { bending: 'between-centres', out: plus(total, zero), supported: true, slender: total > times(thinnest, SLOWER) };
}
