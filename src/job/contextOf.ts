import type { Context } from './context.ts';
import type { Length, OwnInstrument } from '../measure/index.ts';
import { mateHere } from './mates.ts';
import type { JobState } from './state.ts';
import type { Talk } from './talk.ts';
import { lastReading, openOperation, windowOf } from './window.ts';

const ownStepsOf = (own: readonly OwnInstrument[]): Context['ownSteps'] =>
  Object.fromEntries(own.flatMap(({ kind, resolution }) => (resolution === null ? [] : [[kind, resolution]])));

/** What the meaning of the next words may depend on, from where the job and the conversation stand. */
export function contextOf(state: JobState, talk: Talk, now: number): Context {
  const operation = openOperation(state);
  const target = operation?.target ?? null;
  const last = operation === null ? null : lastReading(state, operation);
  const stock = state.plan.part.stock;
  let largest: Length | null = null;
  if (target?.quantity === 'diameter' || target?.quantity === 'hole') largest = stock.size;
  if (target?.quantity === 'length' || target?.quantity === 'depth') largest = stock.length;
  const window = operation === null ? null : windowOf(state, operation);
  const mate = operation === null ? null : mateHere(state, operation);
  const expected = window ?? (mate === null ? null : { low: mate.nominal, high: mate.nominal, aim: mate.nominal });
  return {
    unit: state.plan.part.unit,
    // A bore is said like any diameter.
    awaited:
      target === null
        ? operation?.kind === 'find-high-spot'
          ? 'indicator'
          : null
        : target.quantity === 'hole'
          ? 'diameter'
          : target.quantity,
    window: target === null ? null : expected,
    from: target?.from ?? null,
    last: last === null ? null : { value: last.value, at: last.at },
    largest,
    instrument: operation?.instrument ?? null,
    ownSteps: ownStepsOf(state.plan.instruments ?? []),
    steps: state.plan.route.operations.length,
    asked: talk.question !== null,
    now,
  };
}
