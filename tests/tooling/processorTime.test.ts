import { expect, test } from 'vitest';
import { byProcessorTime } from '../../scripts/bench/lighthouse/processor-time.ts';

const entry = (name: string, ts: number, more: object = {}) => ({ name, ph: 'X', pid: 1, tid: 1, ts, ...more });

test('a trace by processor time draws each task together to what its thread had, and leaves the rest where it was', () => {
  const trace = {
    traceEvents: [
      entry('ThreadControllerImpl::RunTask', 1_000, { dur: 400, tdur: 100 }),
      entry('FunctionCall', 1_200, { dur: 200, tdur: 40 }),
      entry('mark', 1_400, { ph: 'I' }),
      entry('ThreadControllerImpl::RunTask', 2_000, { dur: 50, tdur: 50 }),
      entry('Layout', 2_010, { dur: 20 }),
      // Another thread at the same moment, and one between tasks.
      { ...entry('Layout', 1_200, { dur: 200 }), tid: 2 },
      entry('mark', 1_700, { ph: 'I' }),
    ],
  };
  expect(byProcessorTime(trace).traceEvents.map(({ name, ts, dur }) => [name, ts, dur])).toEqual([
    ['ThreadControllerImpl::RunTask', 1_000, 100],
    ['FunctionCall', 1_050, 50],
    ['mark', 1_100, undefined],
    ['ThreadControllerImpl::RunTask', 2_000, 50],
    ['Layout', 2_010, 20],
    ['Layout', 1_200, 200],
    ['mark', 1_700, undefined],
  ]);
});
