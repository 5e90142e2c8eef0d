import { minus, plus, type Length } from '../measure/index.ts';
import type { Target } from './operation.ts';

export type SizeWindow = { readonly low: Length; readonly high: Length; readonly aim: Length };

/**
 * The window of a target once its mate is measured at `mate`.
 *
 * - A diameter goes into its mate: mate less most clearance up to mate less least clearance.
 * - A length between faces holds its mate with end play, and a hole takes its mate in: mate plus least clearance up to mate plus
 *   most clearance.
 *
 * The size to aim at keeps its distance from the low limit. Without a fit, or before the mate is measured (`null`), the
 * target's own limits stand. Exact.
 */
export function windowOf(target: Target, mate: Length | null): SizeWindow {
  const { low, high, aim, fit } = target;
  if (fit === null || mate === null) return { low, high, aim };
  const between = target.quantity === 'length' || target.quantity === 'depth' || target.quantity === 'hole';
  const movedLow = between ? plus(mate, fit.leastClearance) : minus(mate, fit.mostClearance);
  const movedHigh = between ? plus(mate, fit.mostClearance) : minus(mate, fit.leastClearance);
  return { low: movedLow, high: movedHigh, aim: plus(movedLow, minus(aim, low)) };
}
