import { minus, plus, times, zero, type Length } from '../measure/index.ts';
import type { MeasuredQuantity, Operation } from '../route/index.ts';
import { coldPart } from './cold.ts';
import { progressOf } from './fold.ts';
import { inOrder } from './history.ts';
import type { Filed, JobState, Reading } from './state.ts';
import { directionOf, machineOf } from './window.ts';

/**
 * A reading, and what was done since the one before it. `off` is what came off the size at 20 °C, less than nothing where it
 * reads the larger, null at the first reading; `dialled` what was said to be put on or taken, on the part, null where nothing was
 * said; `filed` the filing that was said, in order.
 */
export type Taking = {
  readonly reading: Reading;
  readonly off: Length | null;
  readonly dialled: Length | null;
  readonly filed: readonly Filed[];
};

/** An amount on the hand-wheel as it is on the part: twice it, where the dial reads the radius of what is measured across. */
function onPart(state: JobState, operation: Operation, onDial: Length): Length {
  const across = operation.target?.quantity === 'diameter' || operation.target?.quantity === 'hole';
  return across && machineOf(state, operation)?.crossSlide.reads === 'radius' ? times(onDial, 2) : onDial;
}

/** How one size of a feature came about, through all steps that measured it: reading by reading, and what was done between. */
export function takingsOf(state: JobState, feature: string, quantity: MeasuredQuantity): readonly Taking[] {
  const takings: Taking[] = [];
  let cuts: readonly { readonly by: Length; readonly said: 'dial' | 'took' }[] = [];
  let filed: readonly Filed[] = [];
  let last: Length | null = null;
  for (const operation of state.plan.route.operations) {
    if (operation.feature !== feature || operation.target?.quantity !== quantity) continue;
    for (const work of inOrder(progressOf(state, operation.id).work)) {
      if (work.did === 'dialled') cuts = [...cuts, { by: onPart(state, operation, work.onDial), said: 'dial' }];
      else if (work.did === 'cut') {
        // "Dial ten" and then "took ten" are one cut.
        const before = cuts.at(-1)?.said === 'dial' ? cuts.slice(0, -1) : cuts;
        cuts = [...before, { by: onPart(state, operation, work.onDial), said: 'took' }];
      } else if (work.did === 'touched-off') cuts = [];
      else if (work.did === 'filed') filed = [...filed, work.amount];
      else if (work.did === 'read' && work.reading.quantity === quantity) {
        const value = coldPart(state, quantity, work.reading.value, work.celsius);
        const off = last === null ? null : directionOf(quantity) === 'shrinks' ? minus(last, value) : minus(value, last);
        const dialled = cuts.length === 0 ? null : cuts.reduce((sum, { by }) => plus(sum, by), zero);
        takings.push({ reading: work.reading, off, dialled, filed });
        cuts = [];
        filed = [];
        last = value;
      }
    }
  }
  return takings;
}
