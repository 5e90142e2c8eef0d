import {
  INSTRUMENTS,
  parseLength,
  writeLength,
  type DisplayUnit,
  type InstrumentKind,
  type Length,
} from '../../measure/index.ts';
import type { MateReading } from '../mate.ts';
import { typedIn, type DraftRow } from './draft.ts';
import { describeLengthError } from './writtenLimits.ts';

/** A value as it stands in a file. */
export type Json = string | number | null | Json[] | { [key: string]: Json };

/** What is wrong with a text, in one line. */
type Says = { readonly says: string };

/** Several in one field: parted by commas or semicolons, or by blanks where there are none of these. */
const several = (text: string): readonly string[] =>
  text
    .split(/[,;]/.test(text) ? /[,;]/ : /\s+/)
    .map((each) => each.trim())
    .filter((each) => each !== '');

export function sizesIn(text: string, unit: DisplayUnit): { readonly sizes: readonly Length[] } | Says {
  const sizes: Length[] = [];
  for (const each of several(text)) {
    const read = parseLength(each, unit);
    if (!read.ok) return { says: describeLengthError(read.error) };
    sizes.push(read.value);
  }
  return { sizes };
}

export function numbersIn(text: string): { readonly numbers: readonly number[] } | Says {
  const numbers = several(text).map(Number);
  return numbers.every((each) => Number.isFinite(each) && each > 0)
    ? { numbers }
    : { says: 'numbers, one after the other: 70 150 280' };
}

export function wordsIn(text: string, known: readonly string[]): { readonly words: readonly string[] } | Says {
  const words = several(text.toLowerCase());
  const other = words.find((word) => !known.includes(word));
  return other === undefined ? { words } : { says: `“${other}” is none of ${known.join(', ')}` };
}

/** The instrument that the readings of a row were taken with. */
export function instrumentOf(row: DraftRow): InstrumentKind {
  const said = typedIn(row.values, 'instrument');
  return Object.hasOwn(INSTRUMENTS, said) ? (said as InstrumentKind) : 'micrometer';
}

const READING = /^(.+?)(?:\s+(near|middle|far))?(?:\s+(across))?$/i;

/** Readings of a mate: sizes, each perhaps with its place along it and `across` for the other direction. */
export function readingsIn(
  text: string,
  unit: DisplayUnit,
  instrument: InstrumentKind,
): { readonly readings: readonly MateReading[] } | Says {
  const readings: MateReading[] = [];
  for (const each of several(text)) {
    const [, size = '', place, across] = READING.exec(each) ?? [];
    const read = parseLength(size, unit);
    if (!read.ok) return { says: `${describeLengthError(read.error)}; part readings with commas` };
    readings.push({
      value: read.value,
      place: (place?.toLowerCase() as MateReading['place'] | undefined) ?? 'middle',
      across: across === undefined ? 'one-way' : 'other-way',
      instrument,
    });
  }
  return { readings };
}

const CHUCK = /^(three-jaw|four-jaw|collet)\s+(.+?)\s+to\s+(.+?)(?:\s+bore\s+(.+))?$/i;

/** Chucks with the diameters that they take, and what passes through: `three-jaw 3 to 150 bore 38; collet 1 to 25`. */
export function chucksIn(text: string, unit: DisplayUnit): { readonly chucks: Json[] } | Says {
  const chucks: Json[] = [];
  for (const each of text.split(/[;,]/).map((part) => part.trim())) {
    if (each === '') continue;
    const [, kind, ...sizes] = CHUCK.exec(each) ?? [];
    if (kind === undefined) return { says: `“${each}” is no chuck: write three-jaw 3 to 150; four-jaw 6 to 200` };
    const read = sizes.map((size) => ((size as string | undefined) === undefined ? null : parseLength(size, unit)));
    for (const one of read) if (one?.ok === false) return { says: describeLengthError(one.error) };
    const [least = null, most = null, bore = null] = read.map((one) => (one?.ok === true ? writeLength(one.value) : null));
    chucks.push({ kind: kind.toLowerCase(), least, most, bore });
  }
  return { chucks };
}
