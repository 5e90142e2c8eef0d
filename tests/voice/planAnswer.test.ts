import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Spoken } from '../../src/phrasebook/index.ts';
import { clipWords, fewestClips, planAnswer, sentencesOf, type AnswerStep } from '../../src/voice/index.ts';

const bookOf = (...keys: string[]) => ({
  has: (key: string) => keys.includes(key),
  longest: Math.max(0, ...keys.map((key) => key.split(' ').length)),
});

/** Steps in short: clips in brackets, `,` a word's pause, `.` a sentence's, `?` a question's, `{device}`, `~unspoken~`. */
const short = (steps: readonly AnswerStep[]): string =>
  steps
    .map((step) => {
      switch (step.step) {
        case 'clip':
          return `[${step.key}]`;
        case 'pause':
          return { word: ',', sentence: '.', question: '?' }[step.place];
        case 'device':
          return `{${step.text}}`;
        case 'unspoken':
          return `~${step.text}~`;
      }
    })
    .join('');

const words = (text: string): Spoken => ({ say: 'words', words: text.split(' ') });
const line = (text: string): Spoken => ({ say: 'line', text });
const stop: Spoken = { say: 'pause', after: 'sentence' };
const asks: Spoken = { say: 'pause', after: 'question' };

const BOOK = bookOf('six', 'twenty', 'seven', 'twenty seven', 'two', 'to go', 'to', 'go', 'take', 'one', 'thou', 'one thou', 'on the dial', 'yes');

const ANSWERS: readonly (readonly [string, readonly Spoken[], boolean, string])[] = [
  ['the answer of the manual', [words('six twenty seven'), stop, words('two'), words('to go'), stop, words('take one thou on the dial'), stop], false,
    '[six],[twenty seven].[two],[to go].[take],[one thou],[on the dial]'],
  ['a question', [words('six twenty seven'), asks, words('yes'), asks], false, '[six],[twenty seven]?[yes]'],
  ['a clip that reaches across two runs', [words('twenty'), words('seven')], false, '[twenty seven]'],
  ['pauses first, last and doubled', [stop, words('six'), stop, asks, stop, words('two'), asks], false, '[six].[two]'],
  ['a line with clips', [line('Take one thou, on the dial. Six?')], false, '[take],[one thou],[on the dial].[six]'],
  ['a line without clips, no voice of the device', [words('six'), stop, line('Mind the sump.'), stop, words('two')], false, '[six]~Mind the sump.~.[two]'],
  ['a line without clips, a voice of the device', [words('six'), stop, line('Mind the sump.'), stop, words('two')], true, '[six].{Mind the sump.}.[two]'],
  ['a run with one word missing is not half said', [words('six'), words('twenty umpteen'), words('two')], false, '[six]~twenty umpteen~,[two]'],
  ['capitals, hyphens and full stops in words', [words('Six Twenty-Seven.')], false, '[six],[twenty seven]'],
  ['nothing', [], true, ''],
  ['only a line that nobody can say', [line('Mind the sump.')], false, '~Mind the sump.~'],
];

describe('an answer becomes clips', () => {
  it.each(ANSWERS)('%s', (_, answer, deviceVoice, expected) => {
    expect(short(planAnswer(answer, BOOK, deviceVoice))).toBe(expected);
  });

  it('says exactly the words, with as few clips as any other way (seed 20)', () => {
    const letter = fc.constantFrom('a', 'b', 'c');
    const run = fc.array(letter, { minLength: 1, maxLength: 7 });
    const fewest = (text: readonly string[], has: (key: string) => boolean): number => {
      if (text.length === 0) return 0;
      let best = Infinity;
      for (let to = 1; to <= text.length; to++)
        if (has(text.slice(0, to).join(' '))) best = Math.min(best, 1 + fewest(text.slice(to), has));
      return best;
    };
    fc.assert(
      fc.property(run, fc.array(fc.array(letter, { minLength: 1, maxLength: 3 }), { maxLength: 8 }), (text, keys) => {
        const book = bookOf(...keys.map((key) => key.join(' ')));
        const found = fewestClips(text, book);
        const least = fewest(text, book.has);
        if (found === null) expect(least).toBe(Infinity);
        else {
          expect(found.join(' ')).toBe(text.join(' '));
          expect(found.length).toBe(least);
        }
      }),
      { seed: 20 },
    );
  });
});

describe('the words of a text', () => {
  it.each([
    ["Won't start.", ["won't", 'start']],
    ['Second end, four-jaw', ['second', 'end', 'four', 'jaw']],
    ['less than a division; file it', ['less', 'than', 'a', 'division', 'file', 'it']],
    ['bore .627 deep', ['bore', '627', 'deep']],
    ['  ', []],
  ])('%s', (text, expected) => {
    expect(clipWords(text)).toEqual(expected);
  });

  it('keeps a decimal point inside its figure and cuts at the full stop after it', () => {
    expect(sentencesOf('Bore 1.5 deep. Stop there?')).toEqual([
      { words: ['bore', '1.5', 'deep'], asks: false },
      { words: ['stop', 'there'], asks: true },
    ]);
  });
});
