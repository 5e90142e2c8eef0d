import { describe, expect, test } from 'vitest';
import { folded, type JobEvent } from '../../src/job/index.ts';
import { describeFileFault, jobFileOf, readJobFile, writeJobFile } from '../../src/shelf/index.ts';
import { plan } from './sample.ts';

const at = (seq: number, body: JobEvent['body']): JobEvent => ({ id: `e${seq}`, seq, at: 1_750_000_000_000 + seq, v: 1, body });
const [first] = plan.route.operations;
if (first === undefined) throw new Error('the sample has no operation');

describe('a job whose route was edited', () => {
  const own = { ...first, id: 'wipe', title: 'Wipe it down', say: 'Wipe it down', target: null };
  const added = at(1, { type: 'RouteEdited', edit: { edit: 'add', after: first.id, operation: own } });
  const worked = at(2, { type: 'OperationOpened', operation: 'wipe' });

  test('is written and read again, with events at the operation that the edit brought', () => {
    const text = writeJobFile(jobFileOf({ id: 'edited', startedAt: 1_750_000_000_000, plan, events: [added, worked] }));
    const read = readJobFile(text);
    if (!read.ok) throw new Error(describeFileFault(read.error, 'edited.json'));
    expect(read.value.events).toEqual([added, worked]);
    expect(read.value.plan).toEqual(plan);
    expect(folded(read.value.plan, read.value.events).open).toBe('wipe');
  });

  test('an event at an operation that no edit before it brought is still refused', () => {
    const text = writeJobFile(jobFileOf({ id: 'edited', startedAt: 1_750_000_000_000, plan, events: [{ ...worked, seq: 1 }] }));
    const read = readJobFile(text);
    expect(read.ok ? '' : describeFileFault(read.error, 'edited.json')).toContain('no operation of the plan has this id');
  });
});
