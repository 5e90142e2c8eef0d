import { describe, expect, test } from 'vitest';
import {
  contextOf,
  glance,
  fold,
  folded,
  silence,
  windowOf,
  type EventBody,
  type Intent,
  type JobState,
  type Plan,
} from '../../src/job/index.ts';
import { INSTRUMENTS, inches, micrometres, millimetres, thou, type OwnInstrument } from '../../src/measure/index.ts';
import { seat, seated, target } from './bearingSeat.ts';
import { NOON, pieces, plan, when } from './scene.ts';

const withOwn = (from: Plan, ...instruments: readonly OwnInstrument[]): Plan => ({ ...from, instruments: [...instruments] });
const openedAt = (from: Plan, operation: string): JobState => {
  const body: EventBody = { type: 'OperationOpened', operation };
  return fold(folded(from, []), { id: 'e1', seq: 1, at: NOON, v: 1, body });
};

describe('a seat for a bearing, whose bore is read with an own caliper', () => {
  const bore: Intent = {
    type: 'reading',
    spoken: 'with-verb',
    instrument: 'caliper',
    thing: 'bore',
    place: null,
    value: { as: 'one', value: millimetres(19.991) },
  };
  const lowAfter = (from: Plan): number | undefined => {
    const { state } = when(openedAt(from, seat), bore);
    const operation = state.plan.route.operations.find(({ id }) => id === seat);
    return operation === undefined ? undefined : windowOf(state, operation)?.low;
  };

  test('a usual caliper says less than the maker, one that is as good as a micrometer moves the window', () => {
    expect(lowAfter(seated)).toBe(target.low);
    const good = INSTRUMENTS.micrometer.permissibleError(inches(1));
    expect(lowAfter(withOwn(seated, { kind: 'caliper', resolution: null, permissibleError: good }))).toBe(millimetres(19.998));
  });
});

test('what can be said of a size rests on the step of an own instrument, where one is given', () => {
  const own = withOwn(
    plan,
    { kind: 'caliper', resolution: micrometres(1), permissibleError: null },
    { kind: 'micrometer', resolution: null, permissibleError: thou(0.2) },
  );
  expect(contextOf(folded(own, []), silence, NOON).ownSteps).toEqual({ caliper: micrometres(1) });
  expect(contextOf(folded(plan, []), silence, NOON).ownSteps).toEqual({});
});

describe('the answer to a reading in the window, where the coach has no say', () => {
  const length = plan.route.operations.find(({ target }) => target?.quantity === 'length' && target.fit === null);

  test('an own caliper that tells it needs no micrometer; a coarse one does', () => {
    if (length?.target == null) throw new Error('the demo has a length');
    const { id, target } = length;
    const reading: Intent = {
      type: 'reading',
      spoken: 'with-verb',
      instrument: 'caliper',
      thing: null,
      place: null,
      value: { as: 'one', value: target.aim },
    };
    const answer = (off: number): string =>
      pieces(
        when(openedAt(withOwn(plan, { kind: 'caliper', resolution: null, permissibleError: thou(off) }), id), reading).decision,
      );
    expect(answer(0)).not.toContain('check-with-the-micrometer');
    expect(answer(19)).toContain('check-with-the-micrometer');
  });
});

describe('the coach of a job', () => {
  test('knows a size no better where the own micrometer is coarser', () => {
    const finish = plan.route.operations.find(({ kind, target }) => kind === 'finish' && target?.quantity === 'diameter');
    if (finish?.target?.from == null) throw new Error('the demo finishes a diameter');
    const { id, target } = finish;
    const reading: Intent = {
      type: 'reading',
      spoken: 'with-verb',
      instrument: 'micrometer',
      thing: null,
      place: null,
      value: { as: 'one', value: target.high },
    };
    const spreadWith = (off: number): number => {
      const own: OwnInstrument = { kind: 'micrometer', resolution: null, permissibleError: thou(off) };
      const seen = glance(when(openedAt(withOwn(plan, own), id), reading).state);
      return Number(seen?.coach?.size.spread);
    };
    const [fine, usual, coarse] = [0, 0.1, 2].map(spreadWith);
    expect(Number(usual)).toBeGreaterThanOrEqual(Number(fine));
    expect(Number(coarse)).toBeGreaterThan(2 * Number(usual));
  });
});
