import type { DisplayUnit, InstrumentKind, Length } from '../measure/index.ts';

/** What kind of number a command takes, so that "five" can be a step, a depth or a size. */
export type NumberSlot =
  | 'size' // a reading of the awaited quantity, or of a named thing
  | 'depth-of-cut' // took N
  | 'dial' // dial N
  | 'indicator' // jaw, low, high
  | 'coordinate' // edge
  | 'step' // go to step N
  | 'count' // angle N, N holes, N turns
  | 'temperature';

/**
 * All that the meaning of a spoken number may depend on, made from the state before the words are read.
 * `window` is the awaited size; `last` the last reading of the same quantity in this operation; `largest` the most that the
 * stock (or mate) allows.
 */
export type Context = {
  readonly unit: DisplayUnit;
  readonly awaited: 'diameter' | 'length' | 'depth' | 'indicator' | 'bore' | 'width' | null;
  readonly window: { readonly low: Length; readonly high: Length; readonly aim: Length } | null;
  readonly from: Length | null;
  readonly last: { readonly value: Length; readonly at: number } | null;
  readonly largest: Length | null;
  readonly instrument: InstrumentKind | null;
  /** The smallest step of those instruments whose owner gave it. */
  readonly ownSteps: Readonly<Partial<Record<InstrumentKind, Length>>>;
  readonly steps: number;
  /** A question is open, so yes, no and a bare number answer it. */
  readonly asked: boolean;
  readonly now: number;
};
