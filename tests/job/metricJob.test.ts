import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { micrometres, millimetres, type Length } from '../../src/measure/index.ts';
import {
  fold,
  folded,
  nextSeq,
  planSchema,
  type EventBody,
  type Intent,
  type JobState,
  type PhraseId,
} from '../../src/job/index.ts';
import { NOON, openAt, when } from './scene.ts';

// What is worked out in a metric job is said to metric steps: no amount of thous in disguise.

const metric = planSchema.parse(
  (JSON.parse(readFileSync(new URL('../../src/shelf/demos/metric.job.json', import.meta.url), 'utf8')) as { plan: unknown }).plan,
);

const given = (...bodies: readonly EventBody[]): JobState =>
  bodies.reduce(
    (state, body) => fold(state, { id: `e${nextSeq(state)}`, seq: nextSeq(state), at: NOON, v: 1, body }),
    folded(metric, []),
  );

/** The amounts that an answer names from a phrase on, in millimetres. */
function amounts(state: JobState, intent: Intent, from: PhraseId): readonly number[] {
  const { pieces } = when(state, intent).decision.reply;
  const at = pieces.findIndex((piece) => piece.say === 'phrase' && piece.phrase === from);
  return pieces.slice(at < 0 ? pieces.length : at).flatMap((piece) => (piece.say === 'amount' ? [piece.length / 1_000_000] : []));
}

const read = (operation: string, quantity: 'diameter' | 'length', value: Length): EventBody => ({
  type: 'ReadingLogged',
  operation,
  quantity,
  value,
  instrument: quantity === 'length' ? 'depth-micrometer' : 'micrometer',
  place: null,
  words: '',
  confirmed: false,
});

describe('a metric job', () => {
  it.each([50.14, 50.13, 50.15, 50.17])('says the end play of %f in a bush of 50.02 to the hundredth', (length) => {
    const bush: EventBody = {
      type: 'MateMeasured',
      operation: 'measure-front-width',
      mate: 'front-width',
      value: millimetres(50.02),
      instrument: 'micrometer',
      place: null,
      words: '',
      confirmed: false,
    };
    const state = given(bush, openAt('front-journal-length'), read('front-journal-length', 'length', millimetres(length)));
    const [play, off] = amounts(state, { type: 'ask-fit' }, 'end-play');
    expect(play).toBeCloseTo(length - 50.02, 9);
    expect(Number(off) * 100).toBeCloseTo(Math.round(Number(off) * 100), 9);
  });

  it('moves the jaws by hundredths, and lets the work off where one more would not better it', () => {
    const jaw = (number: 1 | 2 | 3 | 4, value: number): Intent => ({
      type: 'jaw',
      jaw: number,
      value: { as: 'one', value: millimetres(value) },
    });
    const at = given(openAt('dial-in-true'));
    const { state } = when(at, jaw(1, 0), jaw(2, 0.031), jaw(3, 0.107));
    expect(amounts(state, jaw(4, 0.033), 'loosen')).toEqual([0.05]);
    const { state: nearly } = when(at, jaw(1, 0), jaw(2, 0.005), jaw(3, 0.012));
    const { pieces } = when(nearly, jaw(4, 0.005)).decision.reply;
    expect(pieces).toContainEqual({ say: 'phrase', phrase: 'sweep-it' });
  });

  it('says how a journal that slides is likely to clear its bush, to five micrometres', () => {
    const bush: EventBody = {
      type: 'MateMeasured',
      operation: 'measure-front-bush',
      mate: 'front-bush',
      value: millimetres(30.013),
      instrument: 'telescoping-gauge',
      place: null,
      words: '',
      confirmed: false,
    };
    const at = 'try-front-bush';
    const state = given(bush, read('file-front-journal', 'diameter', millimetres(29.982)), openAt(at));
    const [clearance] = amounts(state, { type: 'feel', feel: 'slides' }, 'clearance-likely');
    expect(clearance).toBeGreaterThan(0.01);
    expect(clearance).toBeLessThan(0.05);
    expect((Number(clearance) * 1_000_000) % micrometres(5)).toBeCloseTo(0, 3);
  });

  it('says what a reading across may be off to the micrometre', () => {
    const at = 'finish-roll-seat';
    const across: Intent = {
      type: 'reading',
      spoken: 'with-verb',
      instrument: 'micrometer',
      thing: null,
      place: 'across',
      value: { as: 'one', value: millimetres(25.28) },
    };
    const said = amounts(given(openAt(at), read(at, 'diameter', millimetres(25.3))), across, 'out-of-round-by').slice(0, 2);
    expect(said).toHaveLength(2);
    expect(said[0]).toBeCloseTo(0.02, 9);
    for (const amount of said) expect((amount * 1_000_000) % micrometres(1)).toBeCloseTo(0, 3);
  });

  it('says what two readings took, and what that may be off, to the micrometre', () => {
    const at = 'finish-roll-seat';
    const state = given(openAt(at), read(at, 'diameter', millimetres(25.5)), read(at, 'diameter', millimetres(25.012)));
    const said = amounts(state, { type: 'ask-taken' }, 'took-it');
    expect(said[0]).toBeCloseTo(0.488, 9);
    for (const amount of said) expect((amount * 1_000_000) % micrometres(1)).toBeCloseTo(0, 3);
  });
});
