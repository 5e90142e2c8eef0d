import { dividedBy, larger, minus, plus, times, type Length } from '../../measure/index.ts';
import type { Machine, Part } from '../../part/index.ts';
import { ALLOWANCES, BOUNDS } from './allowances.ts';
import { acrossCorners, lengthOf, type Layout } from './layout.ts';

/** The length of stock that is needed at least: as a sawn blank that is held on its own second end. */
export const blankLength = ({ unit }: Part, { total }: Layout): Length => plus(total, times(ALLOWANCES[unit].sawn, 2));

/** What of a blank is in the jaws while its first end is turned past the pivot, and clear of the jaws. */
export function blankGrip({ stock, unit }: Part, { first, pivot }: Layout): Length {
  const { overlap, sawn, jawRoom } = ALLOWANCES[unit];
  return minus(stock.length, plus(plus(plus(lengthOf(first), pivot.length), plus(overlap, sawn)), jawRoom));
}

/** What should be in the jaws: half of the diameter, as of finished work, and never less than what jaws take. */
export const blankGripWanted = ({ stock }: Part): Length => larger(dividedBy(stock.size, 2, 'ceiling'), BOUNDS.grip);

/** The length of stock that is needed to part the work off a bar that stays in the chuck. */
export function barLength({ unit, stock }: Part, { total }: Layout): Length {
  const { secondEnd, clean, sawn, partingWidth, jawRoom } = ALLOWANCES[unit];
  const faced = plus(plus(secondEnd, clean), sawn);
  return plus(plus(plus(total, faced), plus(partingWidth, jawRoom)), stock.size);
}

/**
 * True where the rest of a bar finds room behind the chuck: through the spindle, or no longer than the jaws and the body take.
 */
export function passesSpindle(part: Part, lathe: Machine, layout: Layout): boolean {
  const { stock } = part;
  if (lathe.spindleBore === null || acrossCorners(part) <= lathe.spindleBore) return true;
  return stock.length <= plus(barLength(part, layout), stock.size);
}

/** True where the work is parted off a bar, false where a blank is held on its own second end. */
export const comesOffBar = (part: Part, lathe: Machine, layout: Layout): boolean =>
  part.stock.length >= barLength(part, layout) && passesSpindle(part, lathe, layout);

/**
 * A piece that could be held for the first end: a blank where the second end is long enough for the jaws, else one that leaves a
 * stub in the chuck and is parted off it.
 */
export function pieceWanted(part: Part, layout: Layout): Length {
  const blank = { ...part, stock: { ...part.stock, length: blankLength(part, layout) } };
  return blankGrip(blank, layout) >= blankGripWanted(part) ? blankLength(part, layout) : barLength(part, layout);
}
