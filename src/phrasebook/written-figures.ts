import { DIGITS, NOUGHTS } from './numerals.ts';
import { countWords } from './speak-number.ts';

const [OH] = NOUGHTS;

/** The parts of an inch as they are written under a stroke or as an ordinal, each with its words for one and for several. */
const PARTS: Readonly<Record<string, readonly [one: string, several: string]>> = {
  '2': ['half', 'half'],
  '4': ['quarter', 'quarters'],
  '8': ['eighth', 'eighths'],
  '16': ['sixteenth', 'sixteenths'],
  '32': ['thirty second', 'thirty seconds'],
  '64': ['sixty fourth', 'sixty fourths'],
};

const WRITTEN = /^(?:(\d+)\/(\d+)|(\d+)(th|ths|nd|nds)|(\d*)\.(\d+)|(\d+))(mm|cm|in|inch|thou|f|c)?$/;
const UNITS: Readonly<Record<string, string>> = {
  mm: 'millimetres',
  cm: 'centimetres',
  in: 'inch',
  inch: 'inch',
  thou: 'thou',
  f: 'fahrenheit',
  c: 'celsius',
};

const figureByFigure = (digits: string): string[] =>
  [...digits].map((digit) => (digit === '0' ? OH : (DIGITS[Number(digit) - 1] ?? OH)));

/** Up to two figures are said as one number, more of them one by one, as a nought that leads is. */
const wholeWords = (digits: string): string[] =>
  digits.length > 2 || digits.startsWith('0') ? figureByFigure(digits) : countWords(Number(digits));

/**
 * A number in figures as the words it is said in: "19.05" is nineteen point oh five, "5/8" five eighths, "64ths" sixty fourths,
 * "627" six two seven; "1 5/16" is one and five sixteenths, by `before`, the word before it as written. Null for what holds
 * no figures or is no number.
 */
export function figureWords(written: string, before: string | undefined): readonly string[] | null {
  const parts = WRITTEN.exec(written);
  if (parts === null) return null;
  const [, over, under, ordinal, , whole, after, alone, unit] = parts;
  const named = unit === undefined ? [] : [UNITS[unit] ?? ''];
  if (over !== undefined) {
    const part = PARTS[under ?? ''];
    if (part === undefined || over.length > 2 || over.startsWith('0')) return null;
    const joined = before !== undefined && /^\d+$/.test(before) ? ['and'] : [];
    return [...joined, ...countWords(Number(over)), ...(over === '1' ? part[0] : part[1]).split(' '), ...named];
  }
  if (ordinal !== undefined) return unit === undefined ? (PARTS[ordinal]?.[1].split(' ') ?? null) : null;
  if (after !== undefined) {
    const lead = whole === undefined || whole === '' ? [] : wholeWords(whole);
    return [...lead, 'point', ...figureByFigure(after), ...named];
  }
  return [...wholeWords(alone ?? ''), ...named];
}
