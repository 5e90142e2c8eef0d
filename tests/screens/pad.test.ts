import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseLength } from '../../src/measure/index.ts';
import {
  entered,
  likelyKeys,
  openPad,
  pressed,
  turnedUnit,
  withUnitLetter,
  type Pad,
  type PadAsk,
} from '../../src/screens/machine/pad.ts';

const typed = (ask: PadAsk, unit: 'inch' | 'millimetre', keys: string, onIndicator = false): Pad =>
  [...keys].reduce(pressed, openPad(ask, unit, onIndicator));

/** What a pad holds after keys: those that cannot stand where they were pressed are left out. */
const HOLDS: readonly (readonly [ask: PadAsk, unit: 'inch' | 'millimetre', keys: string, text: string])[] = [
  ['reading', 'inch', '.627', '.627'],
  ['reading', 'inch', '1.2.6', '1.26'],
  ['reading', 'inch', '1 5/16', '1 5/16'],
  ['reading', 'inch', '1 5/1.6', '1 5/16'],
  ['reading', 'inch', '5//16', '5/16'],
  ['reading', 'inch', '+2', '+2'],
  ['reading', 'inch', '2+', '2'],
  ['reading', 'millimetre', '1 5/16', '1516'],
  ['took', 'inch', '-12', '12'],
  ['jaw', 'inch', '-1-2', '-12'],
  ['go-to', 'inch', '12', '12'],
  ['reading', 'inch', '1234567890123456', '12345678901234'],
];

/** What entering does; values in nanometres, .001 in = 25 400 nm. */
const ENTERS: readonly (readonly [ask: PadAsk, unit: 'inch' | 'millimetre', keys: string, what: unknown])[] = [
  ['reading', 'inch', '.627', { as: 'size', for: 'reading', text: '.627', place: null, instrument: null }],
  ['reading', 'inch', '627', { as: 'size', for: 'reading', text: '627', place: null, instrument: null }],
  ['reading', 'inch', '', null],
  ['reading', 'inch', '5/', null],
  ['reading', 'inch', '+', null],
  ['correct', 'millimetre', '19.05', { as: 'size', for: 'correct', text: '19.05', place: null, instrument: null }],
  ['took', 'inch', '12', { as: 'intent', intent: { type: 'took', value: { as: 'one', value: 304_800 } } }],
  ['took', 'millimetre', '.25', { as: 'intent', intent: { type: 'took', value: { as: 'one', value: 250_000 } } }],
  ['dial', 'inch', '2.5', { as: 'intent', intent: { type: 'dial', value: { as: 'one', value: 63_500 } } }],
  ['jaw', 'inch', '-2', { as: 'intent', intent: { type: 'jaw', jaw: 1, value: { as: 'one', value: -50_800 } } }],
  ['high', 'inch', '250', { as: 'intent', intent: { type: 'indicator', end: 'high', value: { as: 'one', value: 6_350_000 } } }],
  ['edge', 'inch', '1.25', { as: 'intent', intent: { type: 'edge', edge: 'first', value: { as: 'one', value: 31_750_000 } } }],
  [
    'other-edge',
    'millimetre',
    '-3',
    { as: 'intent', intent: { type: 'edge', edge: 'other', value: { as: 'one', value: -3_000_000 } } },
  ],
  ['temperature', 'inch', '77', { as: 'intent', intent: { type: 'temperature', value: { as: 'one', value: 25_000 } } }],
  ['temperature', 'millimetre', '-5', { as: 'intent', intent: { type: 'temperature', value: { as: 'one', value: -5_000 } } }],
  ['go-to', 'inch', '12', { as: 'intent', intent: { type: 'go-to', step: { as: 'one', value: 12 } } }],
];

describe('the number pad', () => {
  test.each(HOLDS)('%s in %s: keys "%s" leave "%s"', (ask, unit, keys, text) => {
    expect(typed(ask, unit, keys).text).toBe(text);
  });

  test.each(ENTERS)('%s in %s: "%s" is entered', (ask, unit, keys, what) => {
    expect(entered(typed(ask, unit, keys), unit)).toEqual(what);
  });

  test('a unit turned over, or typed as a letter by a caliper, goes with the number', () => {
    const inch = typed('reading', 'inch', '25.4');
    const turned = { as: 'size', for: 'reading', text: '25.4 mm', place: null, instrument: null };
    expect(entered(turnedUnit(inch, 'inch'), 'inch')).toEqual(turned);
    expect(entered(withUnitLetter(inch, 'm', 'inch'), 'inch')).toEqual(turned);
    expect(withUnitLetter(inch, 'q', 'inch')).toEqual(inch);
  });

  test('only a pad that awaits an indicator, an edge or a temperature offers a minus', () => {
    expect(openPad('reading', 'inch', false).signed).toBe(false);
    expect(openPad('reading', 'inch', true).signed).toBe(true);
    expect(openPad('low', 'inch', false).signed).toBe(true);
  });

  test('whatever is pressed, what can be entered as a size can be read as a length (seed 2)', () => {
    const keys = fc.array(fc.constantFrom(...'0123456789./ -+'), { maxLength: 20 });
    fc.assert(
      fc.property(keys, fc.constantFrom('inch' as const, 'millimetre' as const), (pressedKeys, unit) => {
        const made = entered(typed('reading', unit, pressedKeys.join('')), unit);
        return made === null || (made.as === 'size' && parseLength(made.text, unit).ok);
      }),
      { seed: 2 },
    );
  });

  test.each([
    ['', ['1.250', '1.248'], ['1']],
    ['1.2', ['1.250', '1.248'], ['4', '5']],
    ['', ['.627'], ['.', '0']],
    ['0.6', ['.627'], ['2']],
    ['.627', ['.627'], []],
    ['9', ['.627'], []],
  ])('after "%s", with %j expected, the likely keys are %j', (text, expected, keys) => {
    expect([...likelyKeys(text, expected)].sort()).toEqual(keys);
  });
});
