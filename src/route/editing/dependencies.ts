import type { Operation } from '../operation.ts';

/** What holds the work or brings it true: everything else of its set-up comes after. */
const HOLDS: ReadonlySet<Operation['kind']> = new Set(['grip', 'dial-in', 'offset']);

/** What is done beside the machine, and so in no set-up in particular. */
const BESIDE: ReadonlySet<Operation['kind']> = new Set(['measure-mate', 'deburr']);

/** What finds a place on the work for the milling that comes next. */
const FINDS: ReadonlySet<Operation['kind']> = new Set(['find-edge', 'find-high-spot']);

/** On one feature, what each kind comes after. */
const AFTER: Readonly<Partial<Record<Operation['kind'], readonly Operation['kind'][]>>> = {
  finish: ['rough'],
  file: ['rough', 'finish'],
  thread: ['rough', 'finish', 'file', 'length'],
  'try-fit': ['rough', 'finish', 'file', 'thread'],
  assemble: ['rough', 'finish', 'file', 'thread', 'mill', 'drill'],
  'find-high-spot': ['rough', 'finish', 'file'],
  tap: ['drill'],
};

export const holdsTheWork = (operation: Operation): boolean => HOLDS.has(operation.kind);
export const isBesideTheMachine = (operation: Operation): boolean => BESIDE.has(operation.kind);

/** Two cuts of one size of one feature, such as the halves of a split: the second goes on where the first stops. */
const goesOn = (first: Operation, second: Operation): boolean =>
  first.feature !== null &&
  first.feature === second.feature &&
  first.target !== null &&
  second.target?.from != null &&
  first.target.quantity === second.target.quantity &&
  second.target.from >= first.target.low &&
  second.target.from <= first.target.high;

/**
 * Whether an operation cannot be done before another that now stands earlier: it is held by it, goes on with its cut, is fitted
 * to the mate that it measures, or takes the work out of the machine. `between` is what stands between the two.
 */
export function needs(later: Operation, earlier: Operation, between: readonly Operation[]): boolean {
  const sameSetup = later.setup === earlier.setup;
  if (later.target?.fit != null && earlier.kind === 'measure-mate' && earlier.feature === later.target.fit.mate) return true;
  if (isBesideTheMachine(earlier) || isBesideTheMachine(later)) return false;
  if (sameSetup && (holdsTheWork(earlier) || later.kind === 'part-off')) return true;
  if (sameSetup && later.kind === 'mill' && FINDS.has(earlier.kind)) return !between.some(({ kind }) => kind === 'mill');
  if (goesOn(earlier, later)) return true;
  return later.feature !== null && later.feature === earlier.feature && (AFTER[later.kind]?.includes(earlier.kind) ?? false);
}
