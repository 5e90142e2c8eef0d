import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Context } from '../../src/job/index.ts';
import { celsius, inches, millimetres, nanometres, type DisplayUnit, type Length } from '../../src/measure/index.ts';
import {
  amountWords,
  bareAmountWords,
  countWords,
  interpret,
  numberWords,
  readNumber,
  resolveLength,
  resolveStep,
  resolveTemperature,
  sizeWords,
  temperatureWords,
  vocabulary,
} from '../../src/phrasebook/index.ts';
import { CONTEXTS } from './contexts.ts';

const SEED = 20_250_601;

const expecting = (value: Length, unit: DisplayUnit): Context => {
  const half = unit === 'inch' ? inches(0.002) : millimetres(0.05);
  const blank = CONTEXTS[unit === 'inch' ? 'inch nothing' : 'mm nothing'];
  return {
    ...blank,
    awaited: 'diameter',
    largest: unit === 'inch' ? inches(12) : millimetres(300),
    window: { low: nanometres(Math.max(0, value - half)), aim: value, high: nanometres(value + half) },
    from: nanometres(value + 10 * half),
  };
};

describe('what it says, it understands', () => {
  const inchGrid = fc.integer({ min: 0, max: 120_000 }).map((count) => nanometres(count * 2_540));
  const millimetreGrid = fc.integer({ min: 0, max: 60_000 }).map((count) => nanometres(count * 5_000));
  test.each([
    ['inch', inchGrid],
    ['millimetre', millimetreGrid],
  ] as const)(`%s sizes (seed ${SEED})`, (unit, grid) => {
    fc.assert(
      fc.property(grid, (value) => {
        expect(resolveLength(readNumber(sizeWords(value, unit), 'size', unit), 'size', expecting(value, unit))).toEqual({
          as: 'one',
          value,
        });
      }),
      { seed: SEED, numRuns: 1500 },
    );
  });
  test(`an answer to a question is a sentence that is understood (seed ${SEED})`, () => {
    fc.assert(
      fc.property(
        inchGrid.filter((value) => value > 0),
        (value) => {
          const read = interpret(`reads ${sizeWords(value, 'inch').join(' ')}`, expecting(value, 'inch'));
          expect(read).toMatchObject({ ok: true, value: { type: 'reading', value: { as: 'one', value } } });
        },
      ),
      { seed: SEED, numRuns: 300 },
    );
  });
  test('every cut that is told, by the tenth of a thou to .100 in and by the hundredth to 1 mm', () => {
    for (let tenths = 1; tenths <= 1000; tenths += 1) {
      const value = nanometres(tenths * 2_540);
      expect(
        resolveLength(readNumber(amountWords(value, 'inch'), 'depth-of-cut', 'inch'), 'depth-of-cut', CONTEXTS['inch nothing']),
      ).toEqual({ as: 'one', value });
    }
    for (let hundredths = 1; hundredths <= 100; hundredths += 1) {
      const value = nanometres(hundredths * 10_000);
      expect(
        resolveLength(
          readNumber(amountWords(value, 'millimetre'), 'depth-of-cut', 'millimetre'),
          'depth-of-cut',
          CONTEXTS['mm nothing'],
        ),
      ).toEqual({ as: 'one', value });
    }
  });
  test('every step and every temperature', () => {
    const many = { ...CONTEXTS['inch nothing'], steps: 250 };
    for (let step = 1; step <= 250; step += 1)
      expect(resolveStep(readNumber(countWords(step), 'step', 'inch'), many)).toEqual({ as: 'one', value: step });
    for (let tenths = 10; tenths <= 1000; tenths += 7) {
      const value = celsius(tenths / 10, 'half-even');
      expect(
        resolveTemperature(
          readNumber(temperatureWords(value, 'millimetre'), 'temperature', 'millimetre'),
          CONTEXTS['mm nothing'],
        ),
      ).toEqual({ as: 'one', value });
    }
  });
  test('the voice has a clip of every word that numbers are spoken with', () => {
    const clips = new Set(numberWords());
    const used = new Set<string>();
    const use = (words: readonly string[]): void => words.forEach((word) => used.add(word));
    for (let count = 0; count <= 120_000; count += 1) {
      const value = nanometres(count * 2_540);
      use(sizeWords(value, 'inch'));
      use(amountWords(value, 'inch'));
      use(bareAmountWords(value, 'inch'));
    }
    for (let count = 0; count <= 30_000; count += 1) {
      const value = nanometres(count * 1_000);
      use(sizeWords(value, 'millimetre'));
      use(amountWords(value, 'millimetre'));
      use(bareAmountWords(value, 'millimetre'));
    }
    use(amountWords(millimetres(1), 'millimetre'));
    use(countWords(1999));
    use(sizeWords(inches(-0.5), 'inch'));
    expect([...used].filter((word) => !clips.has(word))).toEqual([]);
    expect([...clips].filter((word) => !used.has(word))).toEqual([]);
  });
  test('every word that numbers are spoken with is a word of the grammar', () => {
    const known = new Set(vocabulary());
    expect(numberWords().filter((word) => !known.has(word))).toEqual([]);
  });
});
