import { minus, zero, type Length } from '../measure/index.ts';
import type { MeasuredQuantity, Operation, SizeWindow } from '../route/index.ts';
import { progressOf } from './fold.ts';
import { routeProgress } from './glance.ts';
import { downward, inOrder } from './history.ts';
import type { JobState, Reading } from './state.ts';
import { takingsOf, type Taking } from './takings.ts';
import { instrumentsHere, mayBeOff, measuredMate, windowOf } from './window.ts';

/** What a feature came out as: the last step that measured a quantity of it, its window and its last reading. */
export type Result = {
  readonly feature: string;
  readonly name: string;
  readonly quantity: MeasuredQuantity;
  readonly operation: Operation;
  readonly window: SizeWindow | null;
  readonly last: Reading | null;
  readonly readings: readonly Reading[];
};

/** What was really made differs from what was planned here. `by` is how far past the limit. */
export type Deviation =
  | {
      readonly key: 'over' | 'under';
      readonly name: string;
      readonly quantity: MeasuredQuantity;
      readonly value: Length;
      readonly by: Length;
      readonly confirmed: boolean;
    }
  | { readonly key: 'not-measured'; readonly name: string; readonly quantity: MeasuredQuantity }
  | { readonly key: 'skipped'; readonly name: string };

const nameOf = (state: JobState, feature: string): string => {
  const { turned, ends, milled } = state.plan.part;
  return [...turned, ...ends, ...milled].find((each) => each.id === feature)?.name ?? feature;
};

/** Every size of the part that the route brings to its limits, in the order in which they were finished. */
export function resultsOf(state: JobState): readonly Result[] {
  const results = new Map<string, Result>();
  for (const operation of state.plan.route.operations) {
    const { feature, target } = operation;
    if (
      feature === null ||
      target === null ||
      target.quantity === 'bore' ||
      target.quantity === 'width' ||
      target.quantity === 'indicator'
    )
      continue;
    const readings = inOrder(progressOf(state, operation.id).readings).filter((reading) => reading.quantity === target.quantity);
    const key = `${feature} ${target.quantity}`;
    const before = results.get(key);
    results.delete(key);
    results.set(key, {
      feature,
      name: nameOf(state, feature),
      quantity: target.quantity,
      operation,
      window: windowOf(state, operation),
      last: readings.at(-1) ?? null,
      readings: [...(before?.readings ?? []), ...readings],
    });
  }
  return [...results.values()];
}

/** Where what was made is not what was planned. Steps that still wait are no deviation. */
export function deviationsOf(state: JobState): readonly Deviation[] {
  const deviations: Deviation[] = [];
  for (const { name, quantity, operation, window, last } of resultsOf(state)) {
    const { status } = progressOf(state, operation.id);
    if (last === null) {
      if (status === 'done') deviations.push({ key: 'not-measured', name, quantity });
    } else if (window !== null && (last.value > window.high || last.value < window.low)) {
      const over = last.value > window.high;
      const by = over ? minus(last.value, window.high) : minus(window.low, last.value);
      // A step that is still open has metal left to take.
      if (!over || status !== 'waiting')
        deviations.push({ key: over ? 'over' : 'under', name, quantity, value: last.value, by, confirmed: last.confirmed });
    }
  }
  for (const { operation, status } of routeProgress(state))
    if (status === 'skipped') deviations.push({ key: 'skipped', name: operation.title });
  return deviations;
}

/** Limits between which a size lies, or will. */
type Between = { readonly low: Length; readonly high: Length };

/**
 * A fit that was made: the mate as measured with what its instrument may be off, the window of the shaft, and the readings of the
 * shaft in order, each within what its instrument may be off. `now` is the clearance that the last reading leaves at the
 * tightest place; null before the first.
 */
export type MadeFit = {
  readonly id: string;
  readonly name: string;
  readonly mate: string;
  readonly hole: Between & { readonly uncertainty: Length };
  readonly shaft: Between;
  readonly now: Length | null;
  readonly readings: readonly { readonly id: string; readonly value: Length; readonly within: Length }[];
};

/** The fits of turned diameters whose bore was measured. */
export function madeFits(state: JobState): readonly MadeFit[] {
  const instruments = instrumentsHere(state);
  return resultsOf(state).flatMap(({ name, operation, quantity, window, readings }): MadeFit[] => {
    const id = operation.target?.fit?.mate;
    const mate = state.plan.part.mates.find((each) => each.id === id);
    const measured = mate === undefined ? null : measuredMate(state, mate.id);
    if (quantity !== 'diameter' || mate === undefined || measured === null || window === null) return [];
    let uncertainty = zero;
    for (const reading of downward(state.mates[mate.id] ?? null)) {
      const off = mayBeOff(reading, operation, instruments);
      if (off > uncertainty) uncertainty = off;
    }
    const last = readings.at(-1);
    return [
      {
        id: operation.id,
        name,
        mate: mate.name,
        hole: { low: measured.least, high: measured.most, uncertainty },
        shaft: { low: window.low, high: window.high },
        now: last === undefined ? null : minus(measured.least, last.value),
        readings: readings.map((reading) => ({
          id: reading.event,
          value: reading.value,
          within: mayBeOff(reading, operation, instruments),
        })),
      },
    ];
  });
}

/** How a size came about: what each cut took, and what the filing did. */
export type SizeHistory = {
  readonly id: string;
  readonly name: string;
  readonly quantity: MeasuredQuantity;
  readonly cuts: readonly TakenRow[];
  readonly filing: readonly TakenRow[];
};
/** What came off between two readings and what had been dialled for it, both on the part; null where nothing was said. */
export type TakenRow = {
  readonly id: string;
  readonly size: Length;
  readonly off: Length;
  readonly dialled: Length | null;
  readonly filed: Taking['filed'];
};

/** The sizes of which anything came off between two readings. A second reading of the same place is no row of its own. */
export function historiesOf(state: JobState): readonly SizeHistory[] {
  return resultsOf(state).flatMap(({ feature, name, quantity }): SizeHistory[] => {
    const rows = takingsOf(state, feature, quantity).flatMap(({ reading, off, dialled, filed }): TakenRow[] => {
      const done = dialled !== null || filed.length > 0;
      return off === null || (off <= 0 && !done) ? [] : [{ id: reading.event, size: reading.value, off, dialled, filed }];
    });
    if (rows.length === 0) return [];
    const filing = rows.filter(({ filed }) => filed.length > 0);
    return [{ id: `${feature} ${quantity}`, name, quantity, cuts: rows.filter(({ filed }) => filed.length === 0), filing }];
  });
}
