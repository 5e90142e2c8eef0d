import {
  assert,
  NM_PER_INCH,
  NM_PER_MICROMETRE,
  NM_PER_MM,
  NM_PER_TENTH_THOU,
  roundedQuotient,
  roundReal,
  toCelsius,
  toFahrenheit,
  type DisplayUnit,
  type Length,
  type Temperature,
} from '../measure/index.ts';
import { DIGITS, NOUGHTS, TEENS, TENS } from './numerals.ts';

const [OH] = NOUGHTS;

/** Words beside the numerals that a number may be spoken with. */
const EXTRA = [
  'hundred',
  'thousand',
  'point',
  'zero',
  'minus',
  'and',
  'a',
  'half',
  'thou',
  'tenth',
  'tenths',
  'inch',
  'inches',
  'hundredth',
  'hundredths',
  'millimetre',
  'millimetres',
] as const;

/** Every word that the speaker can use; the voice has a clip of each. */
export const numberWords = (): readonly string[] => [...DIGITS, ...TEENS, ...TENS, OH, ...EXTRA];

/** A figure as one says it, 0 to 9: "oh", "six". */
export const digitWord = (digit: number): string => (digit === 0 ? OH : at(DIGITS, digit - 1));

function at(words: readonly string[], index: number): string {
  const word = words[index];
  assert(word !== undefined, `there is a word for ${index}`);
  return word;
}

/** 10 to 99 as one says it: "twelve", "twenty seven". */
function pairWords(value: number): string[] {
  if (value < 20) return [at(TEENS, value - 10)];
  const tens = at(TENS, Math.floor(value / 10) - 2);
  return value % 10 === 0 ? [tens] : [tens, digitWord(value % 10)];
}

/** A whole number from 0 to 999 999 with hundreds and thousands: "two hundred fifty". */
export function countWords(count: number): string[] {
  if (count < 0) return ['minus', ...countWords(-count)];
  if (count === 0) return ['zero'];
  if (count >= 1000)
    return [...countWords(Math.floor(count / 1000)), 'thousand', ...(count % 1000 === 0 ? [] : countWords(count % 1000))];
  if (count >= 100) return [digitWord(Math.floor(count / 100)), 'hundred', ...(count % 100 === 0 ? [] : countWords(count % 100))];
  return count < 10 ? [digitWord(count)] : pairWords(count);
}

/** Three figures of thousandths, 100 to 999: "six twenty seven", "six oh five", "six hundred". */
function thousandthsWords(thousandths: number): string[] {
  const hundreds = digitWord(Math.floor(thousandths / 100));
  const rest = thousandths % 100;
  if (rest === 0) return [hundreds, 'hundred'];
  return rest < 10 ? [hundreds, OH, digitWord(rest)] : [hundreds, ...pairWords(rest)];
}

/** What is left beyond the thousandth: "and a half", "and three tenths". */
function tenthsWords(tenths: number): string[] {
  if (tenths === 0) return [];
  if (tenths === 5) return ['and', 'a', 'half'];
  return tenths === 1 ? ['and', 'a', 'tenth'] : ['and', digitWord(tenths), 'tenths'];
}

/** Thou below an inch as an amount: "two thou", "half a thou", "three tenths", "twelve thou and three tenths". */
function thouWords(tenths: number): string[] {
  const thou = Math.floor(tenths / 10);
  const rest = tenths % 10;
  if (tenths === 0) return ['zero'];
  if (thou === 0) return rest === 5 ? ['half', 'a', 'thou'] : rest === 1 ? ['a', 'tenth'] : [digitWord(rest), 'tenths'];
  if (rest === 0) return [...countWords(thou), 'thou'];
  if (rest === 5) return [...countWords(thou), 'and', 'a', 'half', 'thou'];
  return [...countWords(thou), 'thou', ...tenthsWords(rest)];
}

/** A size of an inch and more, without a unit: "one two fifty", "one oh sixty two and a half", "two inches". */
function overAnInchWords(tenths: number): string[] {
  const inches = Math.floor(tenths / 10_000);
  const thousandths = Math.floor(tenths / 10) % 1000;
  const rest = tenths % 10;
  if (thousandths === 0 && rest === 0) return [...countWords(inches), inches === 1 ? 'inch' : 'inches'];
  // Below a thousandth alone, "one inch and three tenths" would be 1.3: the figures leave no doubt.
  if (thousandths === 0) return [...countWords(inches), 'point', OH, OH, OH, digitWord(rest)];
  const whole = countWords(inches);
  if (thousandths >= 100) return [...whole, ...thousandthsWords(thousandths), ...tenthsWords(rest)];
  if (thousandths >= 10) return [...whole, OH, ...pairWords(thousandths), ...tenthsWords(rest)];
  return [...whole, OH, OH, digitWord(thousandths), ...tenthsWords(rest)];
}

function inchWords(tenths: number): string[] {
  if (tenths < 1000) return thouWords(tenths);
  if (tenths >= 10_000) return overAnInchWords(tenths);
  return [...thousandthsWords(Math.floor(tenths / 10)), ...tenthsWords(tenths % 10)];
}

/** Millimetres with their point: "nineteen point oh five"; a whole number stands alone. */
function millimetreWords(micrometres: number): string[] {
  const whole = Math.floor(micrometres / 1000);
  const part = String(micrometres % 1000)
    .padStart(3, '0')
    .replace(/0+$/, '');
  if (part === '') return countWords(whole);
  return [...(whole === 0 ? [] : countWords(whole)), 'point', ...[...part].map((digit) => digitWord(Number(digit)))];
}

/** A length in the steps that are spoken: tenths of a thou, or micrometres; rounded half away from zero. */
const steps = (length: Length, unit: DisplayUnit): number =>
  roundedQuotient(Math.abs(length), unit === 'inch' ? NM_PER_TENTH_THOU : NM_PER_MICROMETRE, 'half-away');

const signed = (length: Length, spoken: number, words: readonly string[]): readonly string[] =>
  length < 0 && spoken !== 0 ? ['minus', ...words] : words;

/** A size as a machinist says it, to .0001 in or .001 mm: "six twenty seven and a half". */
export function sizeWords(length: Length, unit: DisplayUnit): readonly string[] {
  const count = steps(length, unit);
  return signed(length, count, unit === 'inch' ? inchWords(count) : millimetreWords(count));
}

/** An amount with its unit: "two thou", "three tenths", "five hundredths". */
export function amountWords(length: Length, unit: DisplayUnit): readonly string[] {
  const count = steps(length, unit);
  if (unit === 'inch') return signed(length, count, count < 10_000 ? thouWords(count) : inchWords(count));
  const hundredths = count / 10;
  if (Number.isInteger(hundredths) && hundredths > 0 && hundredths < 10)
    return signed(length, count, [digitWord(hundredths), hundredths === 1 ? 'hundredth' : 'hundredths']);
  if (count > 0 && count % 1000 === 0)
    return signed(length, count, [...millimetreWords(count), count === 1000 ? 'millimetre' : 'millimetres']);
  return signed(length, count, millimetreWords(count));
}

/** An amount whose unit is understood: "two" (to go), "two and a half". */
export function bareAmountWords(length: Length, unit: DisplayUnit): readonly string[] {
  const count = steps(length, unit);
  if (unit === 'millimetre' || count >= 1000 || count < 10)
    return unit === 'millimetre' ? signed(length, count, millimetreWords(count)) : signed(length, count, inchWords(count));
  return signed(length, count, [...countWords(Math.floor(count / 10)), ...tenthsWords(count % 10)]);
}

/** Degrees in the scale of the shop, to the tenth: "sixty eight", "twenty point five". The word "degrees" is not in it. */
export function temperatureWords(temperature: Temperature, unit: DisplayUnit): readonly string[] {
  const value = unit === 'inch' ? toFahrenheit(temperature) : toCelsius(temperature);
  const tenths = roundReal(Math.abs(value) * 10, 'half-away');
  const words = [...countWords(Math.floor(tenths / 10)), ...(tenths % 10 === 0 ? [] : ['point', digitWord(tenths % 10)])];
  return value < 0 && tenths !== 0 ? ['minus', ...words] : words;
}

/** A number with the hyphen that it is written with: "twenty-seven". Other words stay as they are. */
export const hyphened = (words: readonly string[]): string =>
  words.reduce((text, word, index) => {
    const joins = (TENS as readonly string[]).includes(words[index - 1] ?? '') && (DIGITS as readonly string[]).includes(word);
    return index === 0 ? word : `${text}${joins ? '-' : ' '}${word}`;
  }, '');

assert(NM_PER_INCH % NM_PER_TENTH_THOU === 0 && NM_PER_MM % NM_PER_MICROMETRE === 0, 'the spoken steps divide their units');
