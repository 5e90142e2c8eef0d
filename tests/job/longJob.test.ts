import { describe, expect, it } from 'vitest';
import {
  contextOf,
  decide,
  fold,
  folded,
  glance,
  silence,
  type Intent,
  type JobEvent,
  type JobState,
} from '../../src/job/index.ts';
import type { History } from '../../src/job/history.ts';
import { nanometres } from '../../src/measure/index.ts';
import { plan } from './scene.ts';

const ids = plan.route.operations.map(({ id }) => id);

/** Three readings at each of the first steps, and so many more at the last one, which is not come to here. */
function eventsOf(atTheLast: number): JobEvent[] {
  const where = [...ids.slice(0, 4).flatMap((id) => [id, id, id]), ...Array.from({ length: atTheLast }, () => ids.at(-1) ?? '')];
  return where.map(
    (operation, index): JobEvent => ({
      id: `e-${index}`,
      seq: index + 1,
      at: index + 1,
      v: 1,
      body: {
        type: 'ReadingLogged',
        operation,
        quantity: 'diameter',
        value: nanometres(16_000_000 - 2_540 * (index % 1000)),
        instrument: 'micrometer',
        place: null,
        words: 'as said',
        confirmed: false,
      },
    }),
  );
}

/** The same state, whose log and whose lists at every step count each cell that is walked. */
function watched(state: JobState, walk: () => void): JobState {
  const cells = <T>(history: History<T>): History<T> =>
    history === null
      ? null
      : {
          size: history.size,
          top: history.top,
          get below() {
            walk();
            return cells(history.below);
          },
        };
  const progress = Object.entries(state.progress).map(([id, each]) => [
    id,
    { ...each, readings: cells(each.readings), work: cells(each.work) },
  ]);
  return { ...state, log: cells(state.log), progress: Object.fromEntries(progress) as JobState['progress'] };
}

/** How many cells are walked when this is pressed: deciding, folding, what the page shows and what it listens for. */
function walked(atTheLast: number, intent: Intent): number {
  let cells = 0;
  const before = watched(folded(plan, eventsOf(atTheLast)), () => (cells += 1));
  const now = 1_000_000;
  const { events } = decide({ state: before, talk: silence, words: '', now }, intent);
  expect(events.length).toBeGreaterThan(0);
  const after = events.reduce((state, body, at) => fold(state, { id: `n-${at}`, seq: 10_000 + at, at: now, v: 1, body }), before);
  expect(glance(after)?.step).toBeGreaterThan(0);
  contextOf(after, silence, now);
  return cells;
}

describe('a press in a long job', () => {
  it.each<[string, Intent]>([
    ['Next', { type: 'next' }],
    ['"Go to step 3"', { type: 'go-to', step: { as: 'one', value: 3 } }],
  ])('%s walks through what was done at the steps at hand, and through nothing more of the log', (_name, intent) => {
    const few = walked(100, intent);
    expect(few).toBeGreaterThan(0);
    expect([walked(1_000, intent), walked(5_000, intent)]).toEqual([few, few]);
  });

  it('"Take that back" walks through as much of a long log as of a short one', () => {
    const takenBack = (atTheLast: number): number => {
      let cells = 0;
      const before = watched(folded(plan, eventsOf(atTheLast)), () => (cells += 1));
      const { body } = eventsOf(0)[0] as JobEvent;
      const said = fold(before, { id: 'slip', seq: 10_000, at: 1_000_000, v: 1, body });
      const back = fold(said, { id: 'strike', seq: 10_001, at: 1_000_001, v: 1, body: { type: 'EventStruck', event: 'slip' } });
      expect(back.progress).toBe(before.progress);
      return cells;
    };
    expect([takenBack(1_000), takenBack(5_000)]).toEqual([takenBack(100), takenBack(100)]);
  });
});
