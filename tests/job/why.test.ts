import { describe, expect, it } from 'vitest';
import type { EventBody, Intent } from '../../src/job/index.ts';
import { boreMeasured, given, inch, logged, one, openAt, pieces, reading, turnedCollar, when } from './scene.ts';

const why: Intent = { type: 'ask-why' };
const took = (inches: number): Intent => ({ type: 'took', value: one(inches) });
const mike = (inches: number): Intent => ({ ...reading(inches), instrument: 'micrometer' }) as Intent;
const caliper = (inches: number): Intent => ({ ...reading(inches), instrument: 'caliper' }) as Intent;
const at = (operation: string, ...more: readonly EventBody[]) => given(turnedCollar, openAt(operation), ...more);
const seat = at('finish-bearing-seat', logged('finish-bearing-seat', 0.805));
const hub = (value: number): EventBody => ({
  type: 'MateMeasured',
  operation: 'measure-hub',
  mate: 'wheel-hub',
  value: inch(value),
  instrument: 'caliper',
  place: null,
  words: '',
  confirmed: false,
});

/* Every reading that is asked about, and what the reason of the question is while it waits: the cut said is 3 thou of radius. */
describe('why a reading is asked about', () => {
  it.each([
    ['the size before the cut', [took(0.003), mike(0.8049)], 'why-slip-before'],
    ['twice the cut', [took(0.003), mike(0.793)], 'why-slip-twice'],
    ['a round of the caliper', [took(0.003), caliper(0.899)], 'why-slip-thimble'],
    ['more than it can have been', [mike(0.83)], 'why-bigger'],
    ['far below the low limit', [mike(0.76)], 'why-far-from-target'],
    ['outside the bar', [mike(1.6)], 'why-outside-stock'],
    ['under the low limit', [mike(0.7877)], 'why-past-limit'],
  ] as const)('%s', (_name, said, reason) => {
    const asked = when(seat, ...said);
    expect(asked.decision.outcome).toBe('asked');
    const told = when(seat, ...said, why);
    expect(pieces(told.decision)).toBe(`${reason} .`);
    // The question still waits for its answer.
    expect(told.talk.question).toEqual(asked.talk.question);
  });
  it('names a round of the caliper for what it is, and a turn of the thimble of a micrometer', () => {
    expect(pieces(when(seat, took(0.003), caliper(0.899)).decision)).toContain('slip-round');
    expect(pieces(when(seat, took(0.003), mike(0.774)).decision)).toContain('slip-thimble');
  });
});

describe('why, where the coach has no say', () => {
  it.each([
    ['a mate to measure', at('measure-arm-bore'), 'why-measure-mate'],
    ['a mate as drawn no more', at('measure-arm-bore', boreMeasured(1.0007)), 'why-measure-mate'],
    [
      'a warm mate',
      at('measure-arm-bore', boreMeasured(1.0007), { type: 'TemperatureNoted', operation: 'measure-arm-bore', celsius: 30 }),
      'why-cold',
    ],
    ['the passes of the plan', at('rough-arm-journal', logged('rough-arm-journal', 1.2)), 'why-equal-passes'],
    ['an end play', at('face-for-hub', hub(1.601), logged('face-for-hub', 1.612, 'length')), 'why-play'],
    ['a pocket', at('mill-pocket'), 'no-reason-here'],
  ] as const)('%s', (_name, state, reason) => {
    expect(pieces(when(state, why).decision)).toBe(`${reason} .`);
  });
});

describe('two readings of a taper', () => {
  const placed = (inches: number, place: 'at-the-shoulder' | 'at-the-end'): Intent => ({ ...mike(inches), place }) as Intent;
  const checked = (shoulder: number, end: number): string =>
    pieces(
      when(at('rough-arm-journal'), placed(shoulder, 'at-the-shoulder'), placed(end, 'at-the-end'), { type: 'ask-taper' })
        .decision,
    );
  it('are no taper within what the two may be off, and one beyond it', () => {
    expect(checked(1.031, 1.0311)).toBe('no-taper , give-or-take amount(0.0002) .');
    expect(checked(1.031, 1.0306)).toBe('tapers amount(0.0004) , give-or-take amount(0.0002) , big-at-the-shoulder .');
  });
});

describe('a reading at the other end of the work', () => {
  const placed = (inches: number, place: 'at-the-shoulder' | 'at-the-end' | 'across'): Intent =>
    ({ ...mike(inches), place }) as Intent;
  const rough = at('rough-arm-journal');
  const after = (inches: number, place: 'at-the-shoulder' | 'at-the-end' | 'across') =>
    when(rough, placed(1.031, 'at-the-shoulder'), placed(inches, place)).decision;
  it('may be larger by a taper, to set the tailstock by', () => {
    expect(after(1.035, 'at-the-end').outcome).toBe('done');
    const set: readonly Intent[] = [
      { type: 'set-up-length', what: 'over', value: one(6) },
      { type: 'set-up-length', what: 'work', value: one(10) },
    ];
    const told = when(rough, ...set, placed(1.031, 'at-the-shoulder'), placed(1.034, 'at-the-end'), { type: 'ask-taper' });
    // Half the taper over the whole work: 3 thou in 6 in is 2.5 thou on 10 in, toward the large end.
    expect(pieces(told.decision)).toContain('tailstock toward-you amount(0.0025)');
  });
  it('is asked about where no taper makes it so, or at the same end, or only turned a quarter', () => {
    expect(after(1.055, 'at-the-end').reason).toBe('bigger-than-it-was');
    expect(after(1.035, 'at-the-shoulder').reason).toBe('bigger-than-it-was');
    expect(after(1.035, 'across').reason).toBe('bigger-than-it-was');
  });
  it('is not what filing leaves, rather than what a cut leaves, after filing', () => {
    const both = [placed(1.002, 'at-the-end'), placed(1.002, 'at-the-shoulder')];
    const filed: Intent = { type: 'filed', in: 'rounds', value: { as: 'one', value: 2 } };
    const told = when(at('file-arm-journal'), ...both, filed, placed(0.999, 'at-the-end'));
    expect(pieces(told.decision)).toContain('slip-filed');
  });
});

describe('the micrometer, where the caliper cannot tell', () => {
  it('is asked for by name at either end', () => {
    expect(pieces(when(seat, took(0.003), caliper(0.799)).decision)).toMatch(/micrometer-now( , at-the-shoulder)? \.$/);
    expect(pieces(when(at('finish-arm-journal'), caliper(1.0014)).decision)).toMatch(/micrometer-now , at-the-shoulder \.$/);
  });
});
