import {
  dividedBy,
  formatInch,
  formatMillimetre,
  magnitude,
  minus,
  plus,
  zero,
  fail,
  ok,
  type Length,
  type Result,
} from '../../measure/index.ts';
import type { Operation, Target } from '../operation.ts';
import type { EditNumber, RouteEdit } from './edit.ts';
import type { EditFault } from './editFault.ts';

type Of<Kind extends RouteEdit['edit']> = Extract<RouteEdit, { edit: Kind }>;

const between = (target: Target): boolean => target.quantity === 'length' || target.quantity === 'depth';

/** The size of the mate that a target now reckons with, or null without a fit. Exact. */
export function mateSizeOf(target: Target | null): Length | null {
  if (target?.fit == null) return null;
  return between(target) ? minus(target.low, target.fit.leastClearance) : plus(target.low, target.fit.mostClearance);
}

/**
 * The size of the mate that the sizes of an operation depend on: that of its own fit, or, for a cut on the way to a fitted size,
 * that of the feature. Null where they depend on none.
 */
export function mateSizeAt(operations: readonly Operation[], { feature, target }: Operation): Length | null {
  if (target === null || target.fit !== null || feature === null) return mateSizeOf(target);
  const fitted = operations.find(
    (other) => other.feature === feature && other.target?.fit != null && other.target.quantity === target.quantity,
  );
  return mateSizeOf(fitted?.target ?? null);
}

/** How far the mate has moved from one size to another; nowhere where one of them is not known. */
const moved = (then: Length | null, now: Length | null): Length => (now === null || then === null ? zero : minus(now, then));

/** The same window with a fit that leads to it, so that it still moves with the measured mate. */
function refitted(target: Target, mate: Length | null): Target {
  const { fit, low, high } = target;
  if (fit === null || mate === null) return target;
  const [leastClearance, mostClearance] = between(target)
    ? [minus(low, mate), minus(high, mate)]
    : [minus(mate, high), minus(mate, low)];
  return { ...target, fit: { ...fit, leastClearance, mostClearance } };
}

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** A line with a size in it, in either unit, put right; a line without that size stays. */
export function withSize(line: string, from: Length, to: Length): string {
  for (const format of [(size: Length) => formatInch(size, 4), (size: Length) => formatMillimetre(size, 3)]) {
    const old = new RegExp(`(?<![\\d.])${escaped(format(from))}(?!\\d)`);
    if (old.test(line)) return line.replace(old, format(to));
  }
  return line;
}

/**
 * An operation with some of its numbers changed by hand, moved with its mate to the size that it has now; what the operation has
 * no number for is a fault.
 */
export function changed(
  operation: Operation,
  { numbers, mateSize }: Of<'change'>,
  mateNow: Length | null,
): Result<Operation, EditFault> {
  const lacks = (number: EditNumber): Result<never, EditFault> =>
    fail({ key: 'no-such-number', operation: operation.id, number });
  let { target, cut, stop } = operation;
  for (const number of ['low', 'aim', 'high', 'from'] as const) {
    const set = numbers[number];
    if (set === undefined) continue;
    if (target === null || (number === 'from' && target.from === null)) return lacks(number);
    target = { ...target, [number]: plus(set, moved(mateSize, mateNow)) };
  }
  if (target !== null) {
    const { low, aim, high } = target;
    if (low > aim || aim > high) return fail({ key: 'aim-outside', operation: operation.id, low, aim, high });
    target = refitted(target, mateSizeOf(operation.target));
  }
  for (const number of ['speedRpm', 'feedPerTurn', 'depthOnRadius'] as const) {
    const set = numbers[number];
    if (set === undefined) continue;
    if (cut === null || cut[number] === null) return lacks(number);
    cut = { ...cut, [number]: set };
  }
  if (numbers.stop !== undefined) {
    if (stop === null) return lacks('stop');
    stop = { ...stop, distance: numbers.stop };
  }
  const title =
    target === null || operation.target === null ? operation.title : withSize(operation.title, operation.target.aim, target.aim);
  return ok({ ...operation, title, target, cut, stop, minutes: numbers.minutes ?? operation.minutes });
}

/** The same cut in passes no deeper than before over another depth, without what was said about the passes of the whole. */
function cutOver(operation: Operation, radial: Length): Operation['cut'] {
  const { cut } = operation;
  if (cut?.depthOnRadius == null || radial <= 0) return cut;
  const passes = Math.ceil(radial / cut.depthOnRadius);
  return { ...cut, depthOnRadius: dividedBy(radial, passes, 'ceiling'), note: null };
}

/**
 * The two halves of an operation that is split at a size between where it starts and what it aims at. The first keeps the id and
 * has a window as wide as before around `at`; the second keeps the window and goes on from `at`. The time is shared.
 */
export function halves(
  operation: Operation,
  edit: Of<'split'>,
  mateNow: Length | null,
): Result<readonly [Operation, Operation], EditFault> {
  const { target } = operation;
  const takes = target !== null && ['diameter', 'length', 'depth'].includes(target.quantity);
  if (!takes || target.from === null) return fail({ key: 'nothing-to-split', operation: operation.id });
  const { from, aim, low, high } = target;
  const at = plus(edit.at, moved(edit.mateSize, mateNow));
  if (at <= Math.min(from, aim) || at >= Math.max(from, aim))
    return fail({ key: 'split-outside', operation: operation.id, at, from, aim });
  const [first, rest] = [magnitude(minus(from, at)), magnitude(minus(at, aim))];
  const radial = (amount: Length): Length => (target.quantity === 'diameter' ? dividedBy(amount, 2, 'ceiling') : amount);
  const share = first / (first + rest);
  const title = withSize(operation.title, aim, at);
  return ok([
    {
      ...operation,
      title: title === operation.title ? `${operation.title}: first part` : title,
      target: { ...target, low: plus(at, minus(low, aim)), aim: at, high: plus(at, minus(high, aim)), fit: null },
      cut: cutOver(operation, radial(first)),
      minutes: Math.max(1, Math.round(operation.minutes * share)),
    },
    {
      ...operation,
      id: edit.second,
      target: { ...target, from: at },
      cut: cutOver(operation, radial(rest)),
      minutes: Math.max(1, Math.round(operation.minutes * (1 - share))),
    },
  ]);
}
