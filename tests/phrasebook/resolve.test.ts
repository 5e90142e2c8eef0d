import { describe, expect, test } from 'vitest';
import type { Context, Heard, NumberSlot } from '../../src/job/index.ts';
import { celsius, inches, millimetres, parseLength, toCelsius, type Length } from '../../src/measure/index.ts';
import { readNumber, resolveLength, resolveStep, resolveTemperature, RESOLVE } from '../../src/phrasebook/index.ts';
import { CONTEXTS } from './contexts.ts';
import { DECISIONS, INSTRUMENT_ROWS } from './rows.ts';

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

describe('the numbers of the rule, on each side', () => {
  const base: Context = { ...CONTEXTS['inch .620'], from: null, last: null };
  const about = (aim: number): Context => ({ ...base, window: { low: inches(aim), aim: inches(aim), high: inches(aim) } });

  test('expected reaches 15 % of the size about the window', () => {
    // "two fifty" is .250 by habit; 2.50 is expected from 2.174 on: 2.174 × 1.15 = 2.5001.
    expect(read('two fifty', 'size', { ...about(2.174), largest: inches(6) })).toBe(`one ${inches(2.5)}`);
    expect(read('two fifty', 'size', { ...about(2.17), largest: inches(6) })).toBe(`one ${inches(0.25)}`);
  });
  test('and never less than .020 in', () => {
    // 15 % of .040 would be .006; "sixty two five" is .0625 by habit at four places, .625 at three.
    expect(read('oh sixty', 'size', about(0.04))).toBe(`one ${inches(0.06)}`);
  });
  test('a stock may be a tenth over what it is said to be', () => {
    const stock = { ...CONTEXTS['inch nothing'], largest: inches(1) };
    expect(read('one one oh oh', 'size', stock)).toBe(`either ${inches(0.11)} ${inches(1.1)}`);
    expect(read('one one oh one', 'size', stock)).toBe(`one ${inches(0.1101)}`);
  });
  test('a last reading says nothing after eight hours', () => {
    const at = (age: number): Context => ({ ...CONTEXTS['inch .620'], now: age, last: { value: inches(0.64), at: 0 } });
    expect(read('same', 'size', at(RESOLVE.lastGoesStale))).toBe(`one ${inches(0.64)}`);
    expect(read('same', 'size', at(RESOLVE.lastGoesStale + 1))).toBe('none no-last-reading');
  });
  test('a cut is no more than a quarter of an inch, or 5 mm', () => {
    expect(read('two fifty', 'depth-of-cut', CONTEXTS['inch nothing'])).toBe(`one ${inches(0.25)}`);
    expect(read('two fifty one', 'depth-of-cut', CONTEXTS['inch nothing'])).toBe('none outside-everything');
    expect(read('five millimetres', 'depth-of-cut', CONTEXTS['mm nothing'])).toBe(`one ${millimetres(5)}`);
    expect(read('six millimetres', 'depth-of-cut', CONTEXTS['mm nothing'])).toBe('none outside-everything');
  });
  test('what is left tells whole millimetres from hundredths', () => {
    expect(read('two', 'depth-of-cut', CONTEXTS['mm nothing'])).toBe(`either ${millimetres(0.02)} ${millimetres(2)}`);
    expect(read('two', 'depth-of-cut', CONTEXTS['mm 19'])).toBe(`one ${millimetres(0.02)}`);
  });
  test('the dial reaches an inch, or 10 mm', () => {
    expect(read('one thousandths', 'dial', CONTEXTS['inch nothing'])).toBe(`one ${inches(0.001)}`);
    expect(read('one inch', 'dial', CONTEXTS['inch nothing'])).toBe(`one ${inches(1)}`);
    expect(read('two inches', 'dial', CONTEXTS['inch nothing'])).toBe('none outside-everything');
    expect(read('eleven millimetres', 'dial', CONTEXTS['mm nothing'])).toBe('none outside-everything');
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
  test('freezing and 120 °C are the ends', () => {
    expect(degrees('zero celsius', CONTEXTS['mm 19'])).toBe('0');
    expect(degrees('one hundred twenty', CONTEXTS['mm 19'])).toBe(String(toCelsius(celsius(120, 'half-even'))));
    expect(degrees('one hundred twenty one celsius', CONTEXTS['mm 19'])).toBe('none outside-everything');
    // Without its scale it may still be Fahrenheit, up to 60 °C.
    expect(degrees('one hundred forty', CONTEXTS['mm 19'])).toBe('60');
    expect(degrees('one hundred forty one', CONTEXTS['mm 19'])).toBe('none outside-everything');
  });
});
