import { readFileSync, readdirSync } from 'node:fs';
import { PHRASES } from '../../src/job/index.ts';
import { numberWords } from '../../src/phrasebook/index.ts';
import { CAUTIONS, STOP_FIRST } from '../../src/route/index.ts';
import { clipKey, clipWords } from '../../src/voice/index.ts';

/** A clip to be rendered: its key, the text that the synthesiser is given, and the first reason that it is wanted for. */
export type WantedClip = { readonly key: string; readonly text: string; readonly reason: string };

const DEMOS = new URL('../../src/shelf/demos/', import.meta.url);
const TRADE_WORDS = new URL('trade-words.txt', import.meta.url);

const TENS = ['twenty', 'thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty', 'ninety'];
const DIGITS = ['one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'];

/** Runs of number words that sound better in one breath: "twenty seven", "oh five", "two thou", "and a half". */
const NUMBER_RUNS: readonly string[] = [
  ...TENS.flatMap((tens) => DIGITS.map((digit) => `${tens} ${digit}`)),
  ...DIGITS.map((digit) => `oh ${digit}`),
  'one thou', ...DIGITS.slice(1).map((digit) => `${digit} thou`), 'ten thou', 'twenty thou',
  'one tenth', ...DIGITS.slice(1).map((digit) => `${digit} tenths`),
  'and a half', 'half a thou', 'a thou', 'a tenth',
];

/** Every `say` of a demo job, at whatever depth: set-ups, operations, mates. */
function sayLines(value: unknown): readonly string[] {
  if (Array.isArray(value)) return value.flatMap(sayLines);
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([name, inner]) => (name === 'say' && typeof inner === 'string' ? [inner] : sayLines(inner)));
}

/** A text cut where the voice puts a sentence's pause; commas stay, for the synthesiser breathes at them. */
const sentencesIn = (text: string): readonly string[] => text.split(/(?<=[.?!;:])\s+/).map((part) => part.replace(/[.?!;:]+$/, ''));

/** Every clip that the voice must have, by key in order of the keys; each word of each text is one, and each whole sentence. */
export function wantedClips(): readonly WantedClip[] {
  const wanted = new Map<string, WantedClip>();
  const want = (text: string, reason: string): void => {
    const key = clipKey(clipWords(text));
    if (key !== '' && !wanted.has(key)) wanted.set(key, { key, text, reason });
  };
  const wantLine = (text: string, reason: string): void => {
    for (const sentence of sentencesIn(text)) {
      want(sentence, reason);
      for (const word of clipWords(sentence)) want(word, `a word of ${reason}`);
    }
  };
  // A phrase is one clip even where it has a semicolon: its words come as one run. The synthesiser breathes at the comma.
  for (const [id, text] of Object.entries(PHRASES)) wantLine(text.replace(/[;:]/g, ','), `phrase ${id}`);
  for (const word of numberWords()) want(word, 'number word');
  for (const run of NUMBER_RUNS) wantLine(run, 'number run');
  for (const caution of [STOP_FIRST, ...Object.values(CAUTIONS)]) wantLine(caution.say, 'caution');
  for (const file of readdirSync(DEMOS).filter((name) => name.endsWith('.job.json')).sort())
    for (const line of sayLines(JSON.parse(readFileSync(new URL(file, DEMOS), 'utf8')))) wantLine(line, `demo ${file}`);
  for (const line of readFileSync(TRADE_WORDS, 'utf8').split('\n').filter((text) => !text.startsWith('#')))
    for (const word of clipWords(line)) want(word, 'trade word');
  return [...wanted.values()].sort((a, b) => (a.key < b.key ? -1 : 1));
}
