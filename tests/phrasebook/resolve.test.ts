import { describe, expect, test } from 'vitest';
import type { Context, Heard, NumberSlot } from '../../src/job/index.ts';
import { inches, millimetres, parseLength, toCelsius, type Length } from '../../src/measure/index.ts';
import { PRIOR, readNumber, resolveLength, resolveStep, resolveTemperature } from '../../src/phrasebook/index.ts';
import { resolveCount } from '../../src/phrasebook/resolve.ts';
import { CONTEXTS } from './contexts.ts';
import { DECISIONS, INSTRUMENT_ROWS, LIMIT_ROWS, momentOf, type LimitRow } from './rows.ts';

const nm = (text: string): Length => {
  const read = parseLength(text, 'inch');
  if (!read.ok) throw new Error(`"${text}" is no length`);
  return read.value;
};
function inNm(to: string): string {
  return to.replace(/[\d.]+(in|mm)/g, (size) => String(nm(size)));
}
function said(heard: Heard<number>): string {
  if (heard.as === 'one') return `one ${heard.value}`;
  return heard.as === 'either' ? `either ${heard.values.join(' ')}` : `none ${heard.reason}`;
}
const read = (words: string, slot: NumberSlot, context: Context): string =>
  said(resolveLength(readNumber(words.split(' '), slot, context.unit), slot, context));

describe('the rule as a decision table', () => {
  test.each(DECISIONS.map((row) => [row.rule, row.context, row.words, row.to] as const))(
    '%s (%s): "%s" → %s',
    (_rule, context, words, to) => {
      expect(read(words, 'size', CONTEXTS[context])).toBe(inNm(to));
    },
  );
});

test.each(INSTRUMENT_ROWS)('a %s shows %i places in inches, %i in millimetres, and no more', (instrument, inch, millimetre) => {
  for (const [context, places] of [
    [CONTEXTS['inch .620'], inch],
    [CONTEXTS['mm 19'], millimetre],
  ] as const) {
    const words = (count: number): string => `point ${'six '.repeat(count).trim()}`;
    const seen: Context = { ...context, instrument, window: null, from: null, last: null };
    expect(read(words(places), 'size', seen)).toMatch(/^one /);
    expect(read(words(places + 1), 'size', seen)).toBe('none finer-than-instrument');
  }
});

// The step of the instrument decides: common practice, no source.
test.each([
  ['caliper', 'mm 19', millimetres(0.001), 'point six six six', 'point six six six six'],
  ['caliper', 'mm 19', millimetres(0.002), 'point six six six', 'point six six six six'],
  ['rule', 'mm 19', millimetres(0.05), 'point six six', 'point six six six'],
  ['rule', 'inch .620', inches(0.001), 'point six six six', 'point six six six six'],
  ['caliper', 'mm 19', millimetres(0.05), 'point six six', 'point six six six'],
  ['micrometer', 'inch .620', inches(0.00001), 'point six six six six', 'point six six six six six'],
] as const)('an own %s (%s) with a step of %i nm is read as "%s", and not as "%s"', (instrument, moment, step, fine, finer) => {
  const bare: Context = { ...CONTEXTS[moment], instrument, window: null, from: null, last: null };
  const seen: Context = { ...bare, ownSteps: { [instrument]: step } };
  expect(read(fine, 'size', seen)).toMatch(/^one /);
  expect(read(finer, 'size', seen)).toBe('none finer-than-instrument');
});

describe('the numbers of the rule, on each side', () => {
  const comesTo = (row: LimitRow): string => {
    const context = momentOf(row);
    if (row.slot !== 'temperature') return read(row.words, row.slot, context);
    const heard = resolveTemperature(readNumber(row.words.split(' '), row.slot, context.unit), context);
    return heard.as === 'one' ? `one ${toCelsius(heard.value)}` : said(heard);
  };
  test.each(LIMIT_ROWS.map((row) => [row.rule, row.words, row.to, row] as const))('%s: "%s" → %s', (_rule, _words, to, row) => {
    expect(comesTo(row)).toBe(row.slot === 'temperature' ? to : inNm(to));
  });
  test('what is left tells whole millimetres from hundredths', () => {
    expect(read('two', 'depth-of-cut', CONTEXTS['mm nothing'])).toBe(`either ${millimetres(0.02)} ${millimetres(2)}`);
    expect(read('two', 'depth-of-cut', CONTEXTS['mm 19'])).toBe(`one ${millimetres(0.02)}`);
  });
  test('an indicator reads either way, half an inch or 10 mm at most', () => {
    expect(read('minus twelve', 'indicator', CONTEXTS['inch nothing'])).toBe(`one ${inches(-0.012)}`);
    expect(read('minus five', 'indicator', CONTEXTS['mm nothing'])).toBe(`one ${millimetres(-0.05)}`);
    expect(read('minus one inch', 'indicator', CONTEXTS['inch nothing'])).toBe('none outside-everything');
  });
  test('a coordinate may be negative, but not on another continent', () => {
    expect(read('minus one two fifty', 'coordinate', CONTEXTS['inch nothing'])).toBe(`one ${inches(-1.25)}`);
    expect(read('six feet', 'coordinate', CONTEXTS['inch nothing'])).toBe('none outside-everything');
  });
});

describe('steps and temperatures', () => {
  const step = (words: string): string => said(resolveStep(readNumber(words.split(' '), 'step', 'inch'), CONTEXTS['inch .620']));
  test.each([
    ['one', 'one 1'],
    ['twenty', 'one 20'],
    ['twenty one', 'one 21'],
    ['zero', 'one 0'],
    ['tight', 'none no-number'],
  ])('step "%s" → %s', (words, to) => expect(step(words)).toBe(to));
  const degrees = (words: string, context: Context): string => {
    const heard = resolveTemperature(readNumber(words.split(' '), 'temperature', context.unit), context);
    return heard.as === 'one' ? `${toCelsius(heard.value)}` : said(heard);
  };
  test.each([
    ['seventy two', 22.222],
    ['twenty four', 24],
    ['twenty four celsius', 24],
    ['sixty eight fahrenheit', 20],
    ['sixty eight and a half', 20.278],
  ])('inch shop, "%s" → %d °C', (words, to) => expect(degrees(words, CONTEXTS['inch .620'])).toBe(String(to)));
  test.each([
    ['twenty four', 24],
    ['twenty point five', 20.5],
    ['seventy two fahrenheit', 22.222],
    ['seventy two', 72],
  ])('millimetre shop, "%s" → %d °C', (words, to) => expect(degrees(words, CONTEXTS['mm 19'])).toBe(String(to)));
  test.each(['two hundred', 'four hundred fahrenheit', 'minus ten celsius'])('"%s" is no temperature of work', (words) =>
    expect(degrees(words, CONTEXTS['mm 19'])).toBe('none outside-everything'),
  );
});

describe('what is no number of the kind that is wanted', () => {
  const context = CONTEXTS['inch .620'];
  const minusTwo = readNumber(['minus', 'two'], 'indicator', 'inch');
  test('a signed reading is no size', () =>
    expect(said(resolveLength(minusTwo, 'size', context))).toBe('none not-a-number-here'));
  test('a length is no step, no count and no temperature', () => {
    expect(said(resolveStep(minusTwo, context))).toBe('none not-a-number-here');
    expect(said(resolveCount(minusTwo))).toBe('none not-a-number-here');
    expect(said(resolveTemperature(minusTwo, context))).toBe('none not-a-number-here');
  });
  test('no words are no number', () => {
    expect(said(resolveStep([], context))).toBe('none no-number');
    expect(said(resolveCount([]))).toBe('none no-number');
    expect(said(resolveTemperature([], context))).toBe('none no-number');
  });
  test('a count is what was said, however much it is', () =>
    expect(said(resolveCount(readNumber(['twenty', 'five'], 'count', 'inch')))).toBe('one 25'));
});

test('what is hardly ever said so is taken where it is expected and nothing else can be meant', () => {
  const only = { kind: 'length', value: inches(0.62), unit: 'inch', named: false, places: 3, signed: false } as const;
  expect(said(resolveLength([{ ...only, prior: PRIOR.stretch }], 'size', CONTEXTS['inch .620']))).toBe(`one ${inches(0.62)}`);
});
