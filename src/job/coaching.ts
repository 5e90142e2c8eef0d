import { expectedReading, surpriseOf, type Surprise } from '../coach/index.ts';
import { asLength } from '../trade/index.ts';
import type { InstrumentKind, Length } from '../measure/index.ts';
import type { Operation } from '../route/index.ts';
import { beforeReading, freshBench, readingAt, worked, type Bench } from './bench.ts';
import { progressOf } from './fold.ts';
import { inOrder, type History } from './history.ts';
import type { Place } from './intent.ts';
import { shopOf, type Shop } from './shop.ts';
import type { JobState, Work } from './state.ts';

/**
 * Benches that were worked out, by the newest piece of their work, with all else that they hang on as text. Only saves going
 * through the same work again: histories share their beginnings, so the next reading goes on from here.
 */
const workedOut = new WeakMap<NonNullable<History<Work>>, { readonly by: string; readonly bench: Bench }>();

/** The bench after some work, from the newest of its beginnings that was worked out already. */
function benchAfter(work: History<Work>, shop: Shop, from: number): Bench {
  const by = JSON.stringify([shop, from]);
  const since: Work[] = [];
  let bench: Bench | null = null;
  for (let at = work; at !== null && bench === null; at = at.below) {
    const known = workedOut.get(at);
    if (known?.by === by) bench = known.bench;
    else since.push(at.top);
  }
  const after = since.reduceRight(worked, bench ?? freshBench(shop, from));
  if (work !== null && since.length > 0) workedOut.set(work, { by, bench: after });
  return after;
}

/** What the coach makes of an operation: its whole work, gone through from the start. Null where it has nothing to say. */
export function coachedAt(state: JobState, operation: Operation): Bench | null {
  const shop = shopOf(state, operation);
  if (shop === null) return null;
  const { work } = progressOf(state, operation.id);
  const from = operation.target?.from ?? firstRead(work, shop);
  return from === null ? null : benchAfter(work, shop, from * shop.sign);
}

function firstRead(work: History<Work>, shop: Shop): Length | null {
  const first = inOrder(work).find((done) => done.did === 'read' && done.reading.quantity === shop.quantity);
  return first?.did === 'read' ? first.reading.value : null;
}

/** A reading that contradicts what the last cut, or filing, should have left, and the size that was expected. */
export type Contradiction = { readonly surprise: Surprise; readonly expected: Length; readonly filed: boolean };

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
  const expected = asLength(expectedReading(model, reading).mean * bench.shop.sign, 'half-even');
  return { surprise, expected, filed: bench.rounds > 0 };
}
