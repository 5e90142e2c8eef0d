import { minus, nanometres, plus, times, zero, type Length } from '../../measure/index.ts';
import { SLENDER } from './allowances.ts';
import type { Held, Work } from './draft.ts';
import { inSentenceOf, isFine, limitsOf, shouldersOf, thinnestOf, type Bar, type Side } from './layout.ts';
import { springOf } from './sideSteps.ts';

/** Over so many diameters between supports the work is cut slower. Common practice, no source. */
const SLOWER = 8;

/** Fine diameters may bend by a quarter of their window under the finishing cut before the tailstock is brought up. */
const bendsTooMuch = (work: Work, bar: Bar, held: Pick<Held, 'bending' | 'out' | 'drilled'>, outboard: Length): boolean => {
  const { low, high } = limitsOf(bar.feature);
  return isFine(bar) && springOf(work, bar, held, outboard) * 4 > minus(high, low);
};

/**
 * The diameter of a plain bar that bends about as much as stepped work of one length: from the mean of l/d⁴. What stands out of
 * the jaws beside the bars is as thick as `beside`. Rounded down to the nanometre.
 */
export function evenThickness(bars: readonly Bar[], out: Length, beside: Length): Length {
  const steps = bars.map((bar) => [bar.length, thinnestOf(bar)] as const);
  const rest = out - steps.reduce((sum, [length]) => sum + length, 0);
  const gives = steps.reduce((sum, [length, across]) => sum + length / across ** 4, Math.max(0, rest) / beside ** 4);
  const length = Math.max(
    out,
    steps.reduce((sum, [each]) => sum + each, 0),
  );
  return nanometres(Math.floor((length / gives) ** 0.25));
}

/**
 * How the work of a side is kept from bending when it stands out of a chuck so far: alone, or with the tailstock where it is long
 * for its diameter or would bend by more than its windows can bear. `also` stands out too but is thick, such as the bar itself.
 */
export function heldFor(
  work: Work,
  side: Side,
  out: Length,
  also: readonly Length[],
  drilled: 'left' | 'right' | null = null,
): { readonly held: Held; readonly why: string | null } {
  const thinnest = [...also, ...side.map(thinnestOf)].reduce((least, one) => (one < least ? one : least));
  const shoulders = shouldersOf(side);
  const alone = { bending: 'chuck', out, drilled } as const;
  const long = out > times(thinnest, SLENDER.tailstock);
  const bends = side.find(
    (bar, index) => bar.offset === 0 && bendsTooMuch(work, bar, alone, minus(shoulders[index] ?? zero, bar.length)),
  );
  const supported = long || bends !== undefined;
  const times3 = (Math.round((out / thinnest) * 10) / 10).toFixed(1);
  const why = long
    ? `Tailstock: it stands out ${times3} diameters of its thinnest place; over ${SLENDER.tailstock} it wants support.`
    : bends !== undefined
      ? `Tailstock: out of the chuck alone the finishing cut would bend the ${inSentenceOf(bends)} by more than a quarter of its window.`
      : null;
  return {
    held: {
      bending: supported ? 'chuck-and-tailstock' : 'chuck',
      out,
      supported,
      slender: supported && out > times(evenThickness(side, out, also[0] ?? thinnest), SLOWER),
      drilled,
    },
    why,
  };
}

/** The whole part between centres. */
export function heldBetweenCentres(bars: readonly Bar[], total: Length): Held {
  const even = evenThickness(bars, total, total);
  return {
    bending: 'between-centres',
    out: plus(total, zero),
    supported: true,
    slender: total > times(even, SLOWER),
    drilled: null,
  };
}
