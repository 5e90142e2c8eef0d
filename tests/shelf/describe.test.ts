import { describe, expect, it } from 'vitest';
import {
  describeCopyTrouble,
  describeDamage, describeNotices, describeShelfFault, describeTaken, type Damage, type ShelfFault, type Taken,
} from '../../src/shelf/index.ts';
import { plan } from './sample.ts';

const faults: readonly (readonly [ShelfFault, string])[] = [
  [{ key: 'no-such-job', job: 'axle' }, 'There is no job "axle" on this device.'],
  [{ key: 'job-exists', job: 'axle' }, 'A job "axle" is on this device already; nothing was changed.'],
  [{ key: 'out-of-order', job: 'axle', expected: 4, got: 3, lastAt: 1000 }, 'Event 3 was not stored: event 4 is due. Another window has written to this job; open it again.'],
  [{ key: 'disk-full', job: 'axle' }, 'The device is full: this is not stored. It is kept in memory; save it as a file now, then make room.'],
  [{ key: 'store-denied', detail: 'SecurityError:\nno' }, 'The browser refuses to store (SecurityError: no): this is kept in memory only; save it as a file now.'],
  [{ key: 'unreadable', job: 'axle', path: 'plan.title', detail: 'is missing' }, 'Job "axle" cannot be read: plan.title is missing. It is left as it is; import its last backup.'],
];
const damages: readonly (readonly [Damage, string])[] = [
  [{ key: 'tail-set-aside', cause: 'altered', from: 4, setAside: 3, sound: 2, lost: 0 }, 'Event 4 is not as it was stored: 3 events from there on were set aside, 2 of them sound in themselves. Check the last readings again.'],
  [{ key: 'tail-set-aside', cause: 'gap', from: 9, setAside: 1, sound: 0, lost: 2 }, 'Event 9 is missing: 1 event from there on was set aside, 0 of them sound in themselves. 2 events that had been stored could not be found. Check the last readings again.'],
  [{ key: 'cut-short', from: 6, lost: 1 }, 'The last 1 event from number 6 on could not be found. Take those readings again, or import the last backup.'],
  [{ key: 'plan-altered' }, 'The plan of this job is not as it was stored. Compare it with the drawing before you cut.'],
  [{ key: 'list-line-mended' }, 'The entry of this job in the list was wrong and was made anew from its log; nothing is missing.'],
  [{ key: 'put-back', events: 12, plan: true, whole: true, setAside: 0 }, 'The browser had lost this job. It was put back from the second copy, with 12 events.'],
  [{ key: 'put-back', events: 1, plan: false, whole: false, setAside: 1 }, "1 event of this job was lost or damaged in the browser's store and was put back from the second copy."],
  [{ key: 'put-back', events: 2, plan: true, whole: false, setAside: 0 }, "The plan and 2 events of this job were lost or damaged in the browser's store and were put back from the second copy."],
  [{ key: 'put-back', events: 0, plan: true, whole: false, setAside: 0 }, "The plan of this job was lost or damaged in the browser's store and was put back from the second copy."],
];
const takens: readonly (readonly [Taken, string])[] = [
  [{ as: 'new', id: 'a' }, 'The job was added.'],
  [{ as: 'already-here', id: 'a', newer: 0 }, 'This job is here already; nothing was changed.'],
  [{ as: 'already-here', id: 'a', newer: 2 }, 'This job is here already, with 2 events more than the file.'],
  [{ as: 'continued', id: 'a', added: 1 }, 'The job was here already; 1 event from the file was added.'],
  [{ as: 'merged', id: 'a', added: 2, both: [] }, 'The job was here already and both had gone on: 2 events from the file were laid in by time.'],
  [{ as: 'merged', id: 'a', added: 2, both: ['bore', 'face'] }, 'The job was here already and both had gone on: 2 events from the file were laid in by time. Look at the readings of bore, face: both devices had been busy there.'],
  [{ as: 'copy', id: 'b', of: 'a' }, 'A different job of the same name is here already; the file was added as a copy, and nothing was changed.'],
];

describe('what the shelf says to people', () => {
  it.each(faults)('%j', (fault, line) => expect(describeShelfFault(fault)).toBe(line));
  it.each(damages)('%j', (damage, line) => expect(describeDamage(damage)).toBe(line));
  it.each(takens)('%j', (taken, line) => expect(describeTaken(taken)).toBe(line));
  it('names the operations at which both were busy as the plan does', () =>
    expect(describeTaken({ as: 'merged', id: 'a', added: 2, both: ['finish-journal', 'gone'] }, plan)).toMatch(
      /Look at the readings of "Finish the arm journal", gone: both devices had been busy there\.$/,
    ));

  it.each([
    [{ as: 'failing', reason: 'disk-full', detail: 'x' }, 'The device is full: the second copy of this job is not written. The first one is. Save the job as a file now, then make room.'],
    [{ as: 'failing', reason: 'denied', detail: 'no\nroom' }, 'The browser refuses (no room): the second copy of this job is not written. The first one is. Save the job as a file now.'],
  ] as const)('%j', (trouble, line) => expect(describeCopyTrouble(trouble)).toBe(line));

  it('names the first things that it does not know, and counts the rest', () => {
    const field = { key: 'unknown-field', path: ['plan', 'part', 'colour'] } as const;
    const event = {
      key: 'unknown-event', path: ['events', 3],
      event: { id: 'e', seq: 4, at: 0, v: 2, type: 'CoolantOn', why: 'newer-version' },
    } as const;
    expect(describeNotices([event, field, field, field], 2)).toEqual([
      'events[3]: this build does not know the event "CoolantOn"; it is kept and not used.',
      'plan.part.colour: this build does not know this field; it is kept and not used.',
      'and 2 more.',
    ]);
  });
});
