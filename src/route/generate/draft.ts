import { formatInch, formatMillimetre, type DisplayUnit, type Length } from '../../measure/index.ts';
import type { Part, TurnedFeature } from '../../part/index.ts';
import type { Operation, Target } from '../operation.ts';
import type { Setup } from '../route.ts';
import type { Cutting } from './cuts.ts';

/** What every part of the generator works from. */
export type Work = { readonly part: Part; readonly lathe: Cutting; readonly mill: Cutting | null };

/** An operation with everything that is usually absent left out. */
export type Step = Pick<Operation, 'id' | 'kind' | 'title' | 'say'> & Partial<Omit<Operation, 'setup'>>;

/** The step as an operation of a set-up. */
export const operationIn = (setup: string, step: Step): Operation => ({
  feature: null,
  target: null,
  instrument: null,
  cut: null,
  stop: null,
  caution: null,
  note: null,
  minutes: 3,
  ...step,
  setup,
});

/** A size without its unit, as titles give it: `1.030`, `31.00`. */
export const bare = (length: Length, unit: DisplayUnit): string =>
  unit === 'inch' ? formatInch(length, 4) : formatMillimetre(length, 3);

/** The name of a feature within a sentence: `Arm journal` as `arm journal`; `M20 thread` keeps its capital. */
export function inSentence({ name }: Pick<TurnedFeature, 'name'>): string {
  const [first = '', second = ''] = name;
  return /\p{Lu}/u.test(first) && /\p{Ll}/u.test(second) ? first.toLowerCase() + name.slice(1) : name;
}

/** A target that takes metal from a size, without a fit unless one is given. */
export const target = (
  quantity: Target['quantity'],
  sizes: { readonly low: Length; readonly aim: Length; readonly high: Length },
  from: Length | null,
  fit: Target['fit'],
): Target => ({ quantity, low: sizes.low, high: sizes.high, aim: sizes.aim, from, fit });

/** A set-up with what is done in it. */
export type Holding = { readonly setup: Setup; readonly steps: readonly Step[] };
