import { expectedReading, surpriseOf, type Surprise } from '../coach/index.ts';
import { asLength } from '../trade/index.ts';
import type { InstrumentKind, Length } from '../measure/index.ts';
import type { Operation } from '../route/index.ts';
import { beforeReading, freshBench, readingAt, worked, type Bench } from './bench.ts';
import { progressOf } from './fold.ts';
import { inOrder } from './history.ts';
import type { Place } from './intent.ts';
import { shopOf } from './shop.ts';
import type { JobState } from './state.ts';

/** What the coach makes of an operation: its whole work, gone through from the start. Null where it has nothing to say. */
export function coachedAt(state: JobState, operation: Operation): Bench | null {
  const shop = shopOf(state, operation);
  if (shop === null) return null;
  const work = inOrder(progressOf(state, operation.id).work);
  const first = work.find((done) => done.did === 'read' && done.reading.quantity === shop.quantity);
  const from = operation.target?.from ?? (first?.did === 'read' ? first.reading.value : null);
  return from === null ? null : work.reduce(worked, freshBench(shop, from * shop.sign));
}

/** A reading that contradicts what the last cut should have left, and the size that was expected. */
export type Contradiction = { readonly surprise: Surprise; readonly expected: Length };

/** Whether a reading that is about to be stored contradicts the cuts or rounds that were said; null where it does not. */
export function contradictionOf(
  state: JobState,
  operation: Operation,
  value: Length,
  instrument: InstrumentKind | null,
  place: Place | null,
): Contradiction | null {
  const bench = coachedAt(state, operation);
  // Where nobody said what was done, anything may have been: only said cuts and rounds can be contradicted.
  if (bench === null || bench.readings === 0 || (bench.pending.length === 0 && bench.rounds === 0)) return null;
  const reading = readingAt(bench, { value, instrument, place }, state.celsius);
  const model = beforeReading(bench, reading);
  const surprise = surpriseOf(model, reading);
  if (surprise === null) return null;
  return { surprise, expected: asLength(expectedReading(model, reading).mean * bench.shop.sign, 'half-even') };
}
