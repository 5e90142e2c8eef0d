import { formatInch, formatMillimetre, type DisplayUnit, type Instruments, type Length } from '../../measure/index.ts';
import type { Part } from '../../part/index.ts';
import type { Operation, Target } from '../operation.ts';
import type { Setup } from '../route.ts';
import type { Holding as Bending } from '../../trade/index.ts';
import type { Cutting } from './cuts.ts';

export { inSentence } from './layout.ts';

/** What every part of the generator works from. */
export type Work = {
  readonly part: Part;
  readonly lathe: Cutting;
  readonly mill: Cutting | null;
  readonly instruments: Instruments;
};

/** An operation with everything that is usually absent left out. */
export type Step = Pick<Operation, 'id' | 'kind' | 'title' | 'say'> & Partial<Omit<Operation, 'setup'>>;

/** The step as an operation of a set-up. */
export const operationIn = (setup: string, { before, why, alternatives, coordinates, ...step }: Step): Operation => ({
  feature: null,
  target: null,
  instrument: null,
  cut: null,
  stop: null,
  caution: null,
  note: null,
  angle: null,
  minutes: 3,
  ...step,
  before: before ?? [],
  why: why ?? [],
  alternatives: alternatives ?? [],
  coordinates: coordinates ?? [],
  setup,
});

/** A size without its unit, as titles give it: `1.030`, `31.00`. */
export const bare = (length: Length, unit: DisplayUnit): string =>
  unit === 'inch' ? formatInch(length, 4) : formatMillimetre(length, 3);

/** A target that takes metal from a size, without a fit unless one is given. */
export const target = (
  quantity: Target['quantity'],
  sizes: { readonly low: Length; readonly aim: Length; readonly high: Length },
  from: Length | null,
  fit: Target['fit'],
): Target => ({ quantity, low: sizes.low, high: sizes.high, aim: sizes.aim, from, datum: null, fit });

/** A set-up with what is done in it. */
export type Holding = { readonly setup: Setup; readonly steps: readonly Step[] };

/** How far the work stands out in a set-up and what keeps it from bending. */
export type Held = {
  readonly bending: Bending;
  /** From the jaws to the free end, or from centre to centre. */
  readonly out: Length;
  readonly supported: boolean;
  /** Long for its diameter even so: cut slower, with a rest where there is one. */
  readonly slender: boolean;
  /** The end whose holes are drilled already, while the other is turned; null where none is. */
  readonly drilled: 'left' | 'right' | null;
};
