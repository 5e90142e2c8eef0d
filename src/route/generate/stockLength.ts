import { plus, times, type Length } from '../../measure/index.ts';
import type { Machine, Part } from '../../part/index.ts';
import { ALLOWANCES } from './allowances.ts';
import { acrossCorners, type Layout } from './layout.ts';

/** The length of stock that is needed at least: as a sawn blank that is held on its own second end. */
export const blankLength = ({ total }: Layout): Length => plus(total, times(ALLOWANCES.sawn, 2));

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
