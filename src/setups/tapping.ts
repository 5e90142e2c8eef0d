import { roundReal, type Length } from '../measure/index.ts';
import { turnsFor, type Thread } from '../trade/index.ts';

/**
 * A thread to be tapped by hand, in quarter turns from where the tap begins to cut. `quarters` is for the full depth,
 * rounded down:
 * a tap that stops short can go on, one that bottoms breaks.
 */
export type TapPlan = { readonly quarters: number; readonly blind: boolean };

/** What to do after so many turns: turn on, clear the chips out of the hole first, or it is at depth; past it, stop. */
export type TapAdvice = { readonly next: 'back-off' | 'clear-chips' | 'at-depth' | 'too-deep'; readonly quartersLeft: number };

export const tapPlan = (thread: Thread, depth: Length, blind: boolean): TapPlan => ({
  quarters: roundReal(turnsFor(thread, depth) * 4, 'floor'),
  blind,
});

/** A tap is backed off every half turn or so to break the chip (common practice, no source). */
export const BACK_OFF_QUARTERS = 2;
/** A blind hole is cleared of chips each so many turns (common practice, no source). */
const CLEAR_EVERY_QUARTERS = 16;

/** Where the tap stands after so many quarter turns; `before` is where it stood when the chips were last thought of. */
export function tapAfter({ quarters, blind }: TapPlan, before: number, now: number): TapAdvice {
  const quartersLeft = quarters - now;
  if (quartersLeft < 0) return { next: 'too-deep', quartersLeft };
  if (quartersLeft === 0) return { next: 'at-depth', quartersLeft };
  const due =
    blind &&
    quartersLeft > BACK_OFF_QUARTERS &&
    Math.floor(now / CLEAR_EVERY_QUARTERS) > Math.floor(before / CLEAR_EVERY_QUARTERS);
  return { next: due ? 'clear-chips' : 'back-off', quartersLeft };
}
