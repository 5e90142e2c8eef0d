import { dividedBy, minus, NM_PER_THOU, nanometres, roundedTo, smaller, times, type Length } from '../measure/index.ts';
import type { MeasuredQuantity, Operation, SizeWindow } from '../route/index.ts';
import { dialOf } from './advising.ts';
import { coachedAt } from './coaching.ts';
import { amount, sentence, type Piece } from './reply.ts';
import type { JobState } from './state.ts';
import { directionOf, lastSize, machineOf, onDial, standingOf, windowOf, type Standing } from './window.ts';

/** What is left to take at an operation, from its last reading at 20 °C, or from the size it starts at where none was taken. */
export type Left = {
  readonly measured: boolean;
  /** To the aim, on the part (on the diameter where it is one); negative when past it. */
  readonly onPart: Length;
  /** The same on the hand-wheel. */
  readonly onDial: Length;
  readonly standing: Standing;
  readonly window: SizeWindow;
};

/**
 * The next cut: how many equal passes are left at the plan's depth, and one of them on the hand-wheel. Where no division of the
 * dial takes it, `tooThin` says what does.
 */
export type NextCut = { readonly passes: number; readonly onDial: Length; readonly tooThin: 'file' | 'compound' | null };

/** What is under a division is filed or stoned off a diameter, and faced off with the compound along the part. */
const underADivision = (quantity: MeasuredQuantity | undefined): 'file' | 'compound' =>
  quantity === 'length' || quantity === 'depth' ? 'compound' : 'file';

/** Near enough to size that the answer says so with its tone: 3 thou on the diameter (common practice, no source). */
export const CLOSE_TO_SIZE: Length = nanometres(3 * NM_PER_THOU);

/** What is left; null where nothing is measured, or nothing is taken, or there is no size to start from. */
export function leftAt(state: JobState, operation: Operation): Left | null {
  const target = operation.target;
  const window = windowOf(state, operation);
  if (target === null || window === null) return null;
  const direction = directionOf(target.quantity);
  if (direction === 'set') return null;
  const last = lastSize(state, operation);
  const size = last ?? target.from;
  if (size === null) return null;
  const onPart = direction === 'shrinks' ? minus(size, window.aim) : minus(window.aim, size);
  return {
    measured: last !== null,
    onPart,
    onDial: onDial(onPart, target.quantity, machineOf(state, operation)),
    standing: standingOf(size, window, direction),
    window,
  };
}

/**
 * The next cut: what the coach advises once a reading was taken, else equal passes of the plan. Null where the next thing is a
 * reading, or nothing is left.
 */
export function nextCut(state: JobState, operation: Operation): NextCut | null {
  const bench = coachedAt(state, operation);
  if (bench === null || bench.readings === 0) return plannedCut(state, operation);
  const { advice } = bench;
  if (advice.kind === 'cut') return { passes: advice.passesLeft, onDial: dialOf(bench, advice.onPart), tooThin: null };
  const left = leftAt(state, operation);
  if (advice.kind !== 'file' || left === null) return null;
  return { passes: 1, onDial: left.onDial, tooThin: underADivision(operation.target?.quantity) };
}

/**
 * Splits what is left into equal passes, none deeper than the plan's depth, and gives one on the dial, rounded toward zero to
 * a whole division. Equal passes make the last cut behave like the one before it. A cut under one division is too thin to dial.
 */
function plannedCut(state: JobState, operation: Operation): NextCut | null {
  const left = leftAt(state, operation);
  const machine = machineOf(state, operation);
  if (left === null || machine === null || operation.target === null || left.onPart <= 0) return null;
  const quantity = operation.target.quantity;
  const depth = operation.cut?.depthOnRadius ?? null;
  const perPass = depth === null ? left.onPart : quantity === 'diameter' || quantity === 'hole' ? times(depth, 2) : depth;
  const passes = Math.max(1, Math.ceil(left.onPart / perPass));
  const one = onDial(dividedBy(left.onPart, passes, 'toward-zero'), quantity, machine);
  const dial = quantity === 'diameter' || quantity === 'hole' ? machine.crossSlide : machine.carriage;
  const dialled = dial === null ? one : roundedTo(smaller(one, left.onDial), dial.division, 'toward-zero');
  return { passes, onDial: dialled, tooThin: dialled <= 0 ? underADivision(quantity) : null };
}

/** The next cut as it is said. */
export function nextCutPieces(cut: NextCut): readonly Piece[] {
  switch (cut.tooThin) {
    case null:
      return sentence('take', amount(cut.onDial), 'on-the-dial');
    case 'compound':
      return sentence('less-than-a-division-along');
    case 'file':
      return sentence('less-than-a-division');
  }
}
