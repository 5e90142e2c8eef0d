import { dividedBy, larger, minus, plus, times, type Length } from '../../measure/index.ts';
import type { Machine, Part } from '../../part/index.ts';
import { ALLOWANCES } from './allowances.ts';
import { acrossCorners, lengthOf, type Layout } from './layout.ts';

/** The length of stock that is needed at least: as a sawn blank that is held on its own second end. */
export const blankLength = ({ total }: Layout): Length => plus(total, times(ALLOWANCES.sawn, 2));

/** What of a blank is in the jaws while its first end is turned past the pivot, and clear of the jaws. */
export const blankGrip = ({ stock }: Part, { first, pivot }: Layout): Length =>
  minus(
    stock.length,
    plus(plus(plus(lengthOf(first), pivot.length), plus(ALLOWANCES.overlap, ALLOWANCES.sawn)), ALLOWANCES.jawRoom),
  );

/** What should be in the jaws: half of the diameter, as of finished work, and never less than what jaws take. */
export const blankGripWanted = ({ stock }: Part): Length => larger(dividedBy(stock.size, 2, 'ceiling'), ALLOWANCES.grip);

/** The length of stock that is needed to part the work off a bar that stays in the chuck. */
export function barLength({ total }: Layout, stock: Length): Length {
  const faced = plus(plus(ALLOWANCES.secondEnd, ALLOWANCES.clean), ALLOWANCES.sawn);
  const out = plus(plus(total, faced), plus(ALLOWANCES.partingWidth, ALLOWANCES.jawRoom));
  return plus(out, stock);
}

/**
 * True where the rest of a bar finds room behind the chuck: through the spindle, or no longer than the jaws and the body take.
 */
export function passesSpindle(part: Part, lathe: Machine, layout: Layout): boolean {
  const { stock } = part;
  if (lathe.spindleBore === null || acrossCorners(part) <= lathe.spindleBore) return true;
  return stock.length <= plus(barLength(layout, stock.size), stock.size);
}

/** True where the work is parted off a bar, false where a blank is held on its own second end. */
export const comesOffBar = (part: Part, lathe: Machine, layout: Layout): boolean =>
  part.stock.length >= barLength(layout, part.stock.size) && passesSpindle(part, lathe, layout);

/**
 * A piece that could be held for the first end: a blank where the second end is long enough for the jaws, else one that leaves a
 * stub in the chuck and is parted off it.
 */
export function pieceWanted(part: Part, layout: Layout): Length {
  const blank = { ...part, stock: { ...part.stock, length: blankLength(layout) } };
  return blankGrip(blank, layout) >= blankGripWanted(part) ? blankLength(layout) : barLength(layout, part.stock.size);
}
