import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fold, folded, glance, type EventBody, type Intent } from '../../src/job/index.ts';
import { given, inch, NOON, one, pieces, plan, reading, turnedCollar, when } from './scene.ts';

const took = (inches: number): Intent => ({ type: 'took', value: one(inches) });
const mike = (inches: number): Intent => ({ ...reading(inches), instrument: 'micrometer' }) as Intent;

describe('the coach in the job', () => {
  it('asks again where a reading contradicts the cut that was said, and names the slip', () => {
    const { decision } = when(given(turnedCollar), mike(1.3), took(0.02), mike(1.3));
    expect(decision.outcome).toBe('asked');
    expect(decision.reason).toBe('contradicts-the-cuts');
    expect(pieces(decision)).toContain('slip-before');
  });
  it('believes a second reading that agrees with the one it doubted', () => {
    const { decision } = when(given(turnedCollar), mike(1.3), took(0.02), mike(1.3), mike(1.3001));
    expect(decision.events[0]).toMatchObject({ type: 'ReadingLogged', confirmed: true });
  });
  it('takes the advised cut as taken where none was said', () => {
    const { state } = when(given(turnedCollar), mike(1.26), mike(1.255));
    expect(glance(state)?.coach?.size.spread).toBeLessThan(inch(0.0003));
    expect(glance(state)?.coach?.kind).toBe('cut');
  });
  it('shows the next dial and the size it expects after it', () => {
    const coach = glance(when(given(turnedCollar), mike(1.26)).state)?.coach;
    expect(coach?.onDial).toBe(inch(0.0025));
    expect(coach?.expected?.size).toBeGreaterThan(inch(1.25));
    expect(coach?.expected?.size).toBeLessThan(inch(1.257));
  });
  it('tells what the last cut really took, against what was dialled', () => {
    const { state } = when(given(turnedCollar), mike(1.26), took(0.0025), mike(1.2552));
    // 2.5 thou on a dial of the radius is 5 on the diameter; 4.8 came off.
    expect(pieces(when(state, { type: 'ask-taken' }).decision)).toBe(
      'took-it amount(0.0048) on-the-diameter , give-or-take amount(0.0002) . was-asked amount(0.005) .',
    );
  });
  it('gives the reason of its last advice', () => {
    expect(pieces(when(given(turnedCollar), mike(1.26), { type: 'ask-why' }).decision)).toBe('why-two-equal .');
  });
});

describe('the coach kept from reading to reading', () => {
  const bodies: fc.Arbitrary<EventBody> = fc.oneof(
    fc.integer({ min: 0, max: 900 }).map(
      (over): EventBody => ({
        type: 'ReadingLogged',
        operation: 'finish-arm-journal',
        quantity: 'diameter',
        value: inch(1 + over / 10_000),
        instrument: over % 3 === 0 ? 'caliper' : 'micrometer',
        place: over % 5 === 0 ? 'at-the-shoulder' : null,
        words: 'as said',
        confirmed: true,
      }),
    ),
    fc
      .integer({ min: 0, max: 20 })
      .map((by): EventBody => ({ type: 'CutTaken', operation: 'finish-arm-journal', onDial: inch(by / 1000) })),
    fc
      .integer({ min: 1, max: 5 })
      .map((rounds): EventBody => ({ type: 'Filed', operation: 'finish-arm-journal', in: 'rounds', count: rounds })),
    // The bore measured again moves the window, and all that was advised with it; a strike takes work out of the middle.
    fc.integer({ min: 0, max: 20 }).map(
      (over): EventBody => ({
        type: 'MateMeasured',
        mate: 'arm-bore',
        operation: 'measure-arm-bore',
        value: inch(1 + over / 10_000),
        instrument: 'telescoping-gauge',
        place: null,
        words: 'as said',
        confirmed: true,
      }),
    ),
    fc.integer({ min: 1, max: 8 }).map((event): EventBody => ({ type: 'EventStruck', event: `e${event}` })),
  );
  it('advises as if the whole work were gone through again (seed 40)', () => {
    fc.assert(
      fc.property(fc.array(bodies, { minLength: 1, maxLength: 12 }), (log) => {
        const opened: EventBody = { type: 'OperationOpened', operation: 'finish-arm-journal' };
        const events = [opened, ...log].map((body, index) => {
          // Only what has happened can be struck.
          const struck = body.type === 'EventStruck' ? { ...body, event: `e${1 + (Number(body.event.slice(1)) % index)}` } : body;
          return { id: `e${index + 1}`, seq: index + 1, at: NOON, v: 1 as const, body: struck };
        });
        let state = folded(plan, []);
        events.forEach((event, index) => {
          state = fold(state, event);
          // Folded anew the histories are others, so nothing that was kept fits them.
          expect(glance(state)?.coach).toEqual(glance(folded(plan, events.slice(0, index + 1)))?.coach);
        });
      }),
      { seed: 40, numRuns: 60 },
    );
  });
});
