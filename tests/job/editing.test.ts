import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { asDiameter, inches } from '../../src/measure/index.ts';
import {
  editOf,
  eventBodySchema,
  fold,
  folded,
  inOrder,
  nextSeq,
  remadeFrom,
  type EventBody,
  type JobState,
  type Plan,
} from '../../src/job/index.ts';
import { routeEditSchema, routeFor } from '../../src/route/index.ts';
import { NOON, plan as typed, when } from './scene.ts';

/** The invented demo with the route that is computed for it. */
const computed = routeFor(typed.part, typed.machines, 'high-speed-steel');
if (!computed.ok) throw new Error('the demo cannot be made');
const plan: Plan = { ...typed, route: computed.value };

const after = (state: JobState, ...bodies: readonly EventBody[]): JobState =>
  bodies.reduce(
    (before, body) => fold(before, { id: `e${nextSeq(before)}`, seq: nextSeq(before), at: NOON, v: 1, body }),
    state,
  );

function edited(state: JobState, edit: unknown): JobState {
  const body = editOf(state, routeEditSchema.parse(edit));
  if (!body.ok) throw new Error(body.error.key);
  return after(state, body.value);
}

const start = folded(plan, []);
const ids = (state: JobState): string[] => state.plan.route.operations.map(({ id }) => id);
/** All of a state but its log, which keeps what is struck. */
const stands = ({ log: _log, struck: _struck, ...rest }: JobState): unknown => rest;
const bore = (value: number): EventBody => ({
  type: 'MateMeasured',
  operation: 'measure-arm-bore',
  mate: 'arm-bore',
  value: asDiameter(inches(value)),
  instrument: 'micrometer',
  place: 'in-the-middle',
  words: 'as said',
  confirmed: false,
});
const split = { edit: 'split', operation: 'rough-arm-journal', at: '1.15in', second: 'rough-again' };
const skip = { edit: 'skip', operation: 'edges-broken-first-end' };

describe('a route that is edited while the job runs', () => {
  test('an edit is an event; the route of the job is the edited one', () => {
    const state = edited(start, split);
    expect(ids(state)).toContain('rough-again');
    expect(state.editing.base).toEqual(plan.route);
    expect(state.editing.edits.map(({ edit }) => edit)).toEqual(['split']);
    expect(start.plan.route).toEqual(plan.route);
  });

  test('undo is a strike, and comes back to exactly what was', () => {
    const noted = edited(start, { edit: 'note', operation: 'part-off', note: 'Slowly.' });
    const state = edited(noted, split);
    const undone = when(state, { type: 'scratch' }).state;
    expect(stands(undone)).toEqual(stands(noted));
    const both = when(undone, { type: 'scratch' }).state;
    expect(stands(both)).toEqual(stands(start));
    expect(inOrder(both.log).length).toBe(4);
  });

  test('an edit whose ground was struck is left over and told, and comes back when its ground does', () => {
    const state = edited(edited(start, split), { edit: 'note', operation: 'rough-again', note: 'Slowly.' });
    const without = after(state, { type: 'EventStruck', event: 'e1' });
    expect(ids(without)).toEqual(ids(start));
    expect(without.editing.leftOver.map(({ fault }) => fault.key)).toEqual(['no-such-operation']);
  });

  test('what is done does not change; what is skipped by an edit is passed over', () => {
    const state = edited(start, skip);
    expect(state.progress[skip.operation]?.status).toBe('skipped');
    const done = after(state, { type: 'OperationFinished', operation: 'rough-arm-journal', standing: 'no-size' });
    const refused = editOf(done, routeEditSchema.parse(split));
    expect(refused.ok ? null : refused.error.key).toBe('already-done');
  });

  test('skipping the open operation opens the next one', () => {
    const open = after(start, { type: 'OperationOpened', operation: 'finish-collar' });
    expect(edited(open, { edit: 'skip', operation: 'finish-collar' }).open).toBe('measure-arm-bore');
  });

  test('an operation that is added when all is done is open', () => {
    const all = plan.route.operations.map(
      ({ id }): EventBody => ({ type: 'OperationFinished', operation: id, standing: 'no-size' }),
    );
    const finished = after(start, ...all);
    expect(finished.open).toBeNull();
    const last = plan.route.operations.at(-1);
    const more = { ...last, id: 'oil-it', title: 'Oil it', say: 'Oil it' };
    expect(edited(finished, { edit: 'add', after: last?.id, operation: more }).open).toBe('oil-it');
  });

  test('a route made again from the measured mate keeps the edits and tells what changed', () => {
    const hand = { edit: 'change', operation: 'file-arm-journal', numbers: { aim: '0.9984in' } };
    const state = after(edited(edited(edited(start, split), skip), hand), bore(0.9996), bore(0.9994));
    const remade = remadeFrom(state, 'high-speed-steel');
    if (!remade.ok) throw new Error('it cannot be made');
    const { event, changes } = remade.value;
    expect(eventBodySchema.parse(JSON.parse(JSON.stringify(z.encode(eventBodySchema, event))))).toEqual(event);
    const again = after(state, event);
    expect(ids(again)).toEqual(ids(state));
    expect(again.editing.edits).toEqual(state.editing.edits);
    expect(again.editing.leftOver).toEqual([]);
    const file = again.plan.route.operations.find(({ id }) => id === 'file-arm-journal');
    // The bore is .0006 smaller than the drawing said, and so is the size that the hand set.
    expect(file?.target?.aim).toBe(inches(0.9978));
    expect(new Set(changes.map(({ operation }) => operation))).toContain('file-arm-journal');
    expect(again.progress).toEqual(state.progress);
    // And it can be taken back.
    expect(stands(when(again, { type: 'scratch' }).state)).toEqual(stands(state));
    expect(stands(folded(plan, inOrder(again.log)))).toEqual(stands(again));
  });

  test('made again with nothing measured, nothing changes', () => {
    const remade = remadeFrom(start, 'high-speed-steel');
    expect(remade.ok && remade.value.changes).toEqual([]);
  });
});
