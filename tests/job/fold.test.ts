import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  fold,
  folded,
  initialState,
  jobEventSchema,
  nextSeq,
  type EventBody,
  type JobEvent,
  type JobState,
} from '../../src/job/index.ts';
import { thou } from '../../src/measure/index.ts';
import { z } from 'zod';
import { NOON, plan } from './scene.ts';

const operation = fc.constantFrom(...plan.route.operations.map((each) => each.id));
const length = fc.integer({ min: 0, max: 1500 }).map((count) => thou(count));
const body: fc.Arbitrary<EventBody> = fc.oneof(
  fc.record({
    type: fc.constant('OperationFinished' as const),
    operation,
    standing: fc.constantFrom('no-size' as const, 'in-window' as const),
  }),
  fc.record({ type: fc.constant('OperationSkipped' as const), operation }),
  fc.record({ type: fc.constant('OperationOpened' as const), operation }),
  fc.record({
    type: fc.constant('ReadingLogged' as const),
    operation,
    quantity: fc.constant('diameter' as const),
    value: length,
    instrument: fc.constantFrom('caliper' as const, null),
    place: fc.constantFrom('at-the-end' as const, null),
    words: fc.constant(''),
    confirmed: fc.boolean(),
  }),
  fc.record({ type: fc.constant('CutTaken' as const), operation, onDial: length }),
  fc.record({ type: fc.constant('JawRead' as const), operation, jaw: fc.integer({ min: 1, max: 4 }), indicator: length }),
);

/** Events with now and then a strike of an earlier one, numbered as a job numbers them. */
const log: fc.Arbitrary<readonly JobEvent[]> = fc.array(fc.tuple(body, fc.nat()), { maxLength: 40 }).map((drawn) => {
  const events: JobEvent[] = [];
  for (const [drawnBody, pick] of drawn) {
    const earlier = pick % 4 === 0 ? events[pick % Math.max(1, events.length)] : undefined;
    const strikes: EventBody | null =
      earlier === undefined || earlier.body.type === 'EventStruck' ? null : { type: 'EventStruck', event: earlier.id };
    events.push({
      id: `e${events.length + 1}`,
      seq: events.length + 1,
      at: NOON + events.length,
      v: 1,
      body: strikes ?? drawnBody,
    });
  }
  return events;
});

const live = (events: readonly JobEvent[]): JobState => events.reduce(fold, initialState(plan));

describe('fold', () => {
  it('what was said last and taken back, once or several times, is as replayed from scratch (seed 27)', () => {
    const deeds = fc.array(fc.tuple(body, fc.constantFrom('say', 'say', 'take-back', 'take-back', 'strike-older')), {
      maxLength: 60,
    });
    fc.assert(
      fc.property(deeds, (drawn) => {
        const events: JobEvent[] = [];
        for (const [said, does] of drawn) {
          const struck = new Set(events.flatMap((event) => (event.body.type === 'EventStruck' ? [event.body.event] : [])));
          const stands = events.filter((event) => event.body.type !== 'EventStruck' && !struck.has(event.id));
          const target = does === 'say' ? undefined : stands.at(does === 'take-back' ? -1 : -3);
          const id = `e${events.length + 1}`;
          const is: EventBody = target === undefined ? said : { type: 'EventStruck', event: target.id };
          events.push({ id, seq: events.length + 1, at: NOON + events.length, v: 1, body: is });
          expect(live(events)).toEqual(folded(plan, events));
        }
      }),
      { seed: 27, numRuns: 40 },
    );
  });

  it('replayed from scratch equals live, one event at a time (seed 20)', () => {
    fc.assert(
      fc.property(log, (events) => void expect(live(events)).toEqual(folded(plan, events))),
      { seed: 20, numRuns: 300 },
    );
  });
  it('a struck event leaves the same state as one that never was, the log aside (seed 21)', () => {
    fc.assert(
      fc.property(log, (events) => {
        const struck = new Set(events.flatMap((event) => (event.body.type === 'EventStruck' ? [event.body.event] : [])));
        const kept = events.filter((event) => event.body.type !== 'EventStruck' && !struck.has(event.id));
        const { log: _log, struck: _struck, ...what } = live(events);
        const { log: _keptLog, struck: _keptStruck, ...never } = live(kept);
        expect(what).toEqual(never);
      }),
      { seed: 21, numRuns: 300 },
    );
  });
  it('keeps an operation of the plan open, or none (seed 22)', () => {
    const ids = new Set(plan.route.operations.map((each) => each.id));
    fc.assert(
      fc.property(log, (events) => {
        const { open } = live(events);
        expect(open === null || ids.has(open)).toBe(true);
      }),
      { seed: 22 },
    );
  });
  it('numbers the next event after the last (seed 23)', () => {
    fc.assert(
      fc.property(log, (events) => void expect(nextSeq(live(events))).toBe(events.length + 1)),
      { seed: 23 },
    );
  });
  it('survives being written and read (seed 24)', () => {
    fc.assert(
      fc.property(log, (events) => {
        const written: unknown = JSON.parse(JSON.stringify(z.encode(z.array(jobEventSchema), [...events])));
        expect(folded(plan, z.array(jobEventSchema).parse(written))).toEqual(folded(plan, events));
      }),
      { seed: 24 },
    );
  });
});
