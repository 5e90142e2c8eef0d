import { fail, minus, ok, plus, zero, type Length, type Result } from '../measure/index.ts';
import type { Clearances } from './handFits.ts';
import type { SizeLimits } from './isoFits.ts';

/** A length in a chain from face to face: how it is known to lie, and whether it fills the room or makes it. */
export type Link = { readonly limits: SizeLimits; readonly direction: 'makes-room' | 'fills-room' };

/** The gap of a chain at its least and most, every link at its worst together. Exact; negative means that it jams. */
export function worstCase(links: readonly Link[]): Clearances {
  let least = zero;
  let most = zero;
  for (const { limits, direction } of links) {
    least = direction === 'makes-room' ? plus(least, limits.low) : minus(least, limits.high);
    most = direction === 'makes-room' ? plus(most, limits.high) : minus(most, limits.low);
  }
  return { least, most };
}

/**
 * The window of the one length still to be made, so that the end play comes out right whatever the others are within their
 * limits: it makes the room that they leave wanting. Fails where the others vary more than the play may.
 */
export function lengthForPlay(
  others: readonly Link[],
  play: Clearances,
): Result<SizeLimits, { readonly key: 'chain-too-wide'; readonly varies: Length; readonly allowed: Length }> {
  const { least, most } = worstCase(others);
  const window = { low: minus(play.least, least), high: minus(play.most, most) };
  return window.low <= window.high ? ok(window) : fail({ key: 'chain-too-wide', varies: minus(most, least), allowed: minus(play.most, play.least) });
}
