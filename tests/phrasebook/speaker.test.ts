import { describe, expect, test } from 'vitest';
import { amount, bareAmount, comma, count, line, question, sentence, size, type Reply } from '../../src/job/index.ts';
import { celsius, fahrenheit, inches, millimetres } from '../../src/measure/index.ts';
import {
  amountWords,
  bareAmountWords,
  countWords,
  numberWords,
  sizeWords,
  speakReply,
  temperatureWords,
  textOfReply,
} from '../../src/phrasebook/index.ts';

const say = (words: readonly string[]): string => words.join(' ');

describe('sizes', () => {
  test.each([
    [0.627, 'six twenty seven'],
    [0.6275, 'six twenty seven and a half'],
    [0.6273, 'six twenty seven and three tenths'],
    [0.6201, 'six twenty and a tenth'],
    [0.605, 'six oh five'],
    [0.6, 'six hundred'],
    [0.62, 'six twenty'],
    [0.613, 'six thirteen'],
    [0.1, 'one hundred'],
    [0.0625, 'sixty two and a half thou'],
    [0.0995, 'ninety nine and a half thou'],
    [0.004, 'four thou'],
    [0.0005, 'half a thou'],
    [0.0001, 'a tenth'],
    [0.0003, 'three tenths'],
    [0.0023, 'two thou and three tenths'],
    [0, 'zero'],
    [1, 'one inch'],
    [2, 'two inches'],
    [12, 'twelve inches'],
    [1.25, 'one two fifty'],
    [1.3125, 'one three twelve and a half'],
    [1.0625, 'one oh sixty two and a half'],
    [1.005, 'one oh oh five'],
    [1.0003, 'one point oh oh oh three'],
    [2.5, 'two five hundred'],
    [11.62, 'eleven six twenty'],
    [-0.5, 'minus five hundred'],
  ])('%d in: "%s"', (value, words) => expect(say(sizeWords(inches(value), 'inch'))).toBe(words));
  test.each([
    [19.05, 'nineteen point oh five'],
    [19, 'nineteen'],
    [0.5, 'point five'],
    [25.4, 'twenty five point four'],
    [250.35, 'two hundred fifty point three five'],
    [19.005, 'nineteen point oh oh five'],
    [0, 'zero'],
    [-0.05, 'minus point oh five'],
  ])('%d mm: "%s"', (value, words) => expect(say(sizeWords(millimetres(value), 'millimetre'))).toBe(words));
  test('a size between two tenths is said to the nearer', () => {
    expect(say(sizeWords(inches(0.203125), 'inch'))).toBe('two oh three and a tenth');
    expect(say(sizeWords(inches(-0.00001), 'inch'))).toBe('zero');
  });
});

describe('amounts', () => {
  test.each([
    [0.001, 'one thou'],
    [0.0025, 'two and a half thou'],
    [0.0123, 'twelve thou and three tenths'],
    [0.25, 'two hundred fifty thou'],
    [1.25, 'one two fifty'],
    [-0.002, 'minus two thou'],
  ])('%d in: "%s"', (value, words) => expect(say(amountWords(inches(value), 'inch'))).toBe(words));
  test.each([
    [0.05, 'five hundredths'],
    [0.01, 'one hundredth'],
    [0.1, 'point one'],
    [0.125, 'point one two five'],
    [2, 'two millimetres'],
    [1, 'one millimetre'],
    [0, 'zero'],
    [-0.02, 'minus two hundredths'],
  ])('%d mm: "%s"', (value, words) => expect(say(amountWords(millimetres(value), 'millimetre'))).toBe(words));
  test.each([
    [0.002, 'two'],
    [0.0025, 'two and a half'],
    [0.0123, 'twelve and three tenths'],
    [0.125, 'one twenty five'],
    [0.0005, 'half a thou'],
    [0.0003, 'three tenths'],
    [0, 'zero'],
    [-0.003, 'minus three'],
  ])('bare, %d in: "%s"', (value, words) => expect(say(bareAmountWords(inches(value), 'inch'))).toBe(words));
  test('bare, in millimetres', () => expect(say(bareAmountWords(millimetres(0.05), 'millimetre'))).toBe('point oh five'));
});

test.each([
  [0, 'zero'],
  [7, 'seven'],
  [20, 'twenty'],
  [115, 'one hundred fifteen'],
  [600, 'six hundred'],
  [1250, 'one thousand two hundred fifty'],
  [2000, 'two thousand'],
  [-3, 'minus three'],
])('count %d: "%s"', (value, words) => expect(say(countWords(value))).toBe(words));

test('temperatures are said in the scale of the shop', () => {
  expect(say(temperatureWords(fahrenheit(68, 'half-even'), 'inch'))).toBe('sixty eight');
  expect(say(temperatureWords(celsius(20.5, 'half-even'), 'millimetre'))).toBe('twenty point five');
  expect(say(temperatureWords(celsius(-4, 'half-even'), 'millimetre'))).toBe('minus four');
});

describe('replies', () => {
  const reply = (pieces: Reply['pieces']): Reply => ({ tone: null, unit: 'inch', pieces });
  const example = reply([
    ...sentence(size(inches(0.627))),
    ...sentence(bareAmount(inches(0.002)), 'to-go'),
    ...sentence('take', amount(inches(0.001)), 'on-the-dial'),
  ]);
  test('are shown as sentences', () => {
    expect(textOfReply(example)).toBe('Six twenty-seven. Two to go. Take one thou on the dial.');
    expect(textOfReply(reply([...question(size(inches(0.627)), 'yes')]))).toBe('Six twenty-seven yes?');
    expect(textOfReply(reply([...sentence('step', count(12)), ...sentence(line('Turn the collar.'))]))).toBe(
      'Step twelve. Turn the collar.',
    );
    expect(textOfReply(reply([]))).toBe('');
    expect(textOfReply(reply([line('no stop after it')]))).toBe('No stop after it.');
  });
  test('are spoken as runs of words with pauses, lines apart', () => {
    expect(speakReply(example)).toEqual([
      { say: 'words', words: ['six', 'twenty', 'seven'] },
      { say: 'pause', after: 'sentence' },
      { say: 'words', words: ['two', 'to', 'go'] },
      { say: 'pause', after: 'sentence' },
      { say: 'words', words: ['take', 'one', 'thou', 'on', 'the', 'dial'] },
      { say: 'pause', after: 'sentence' },
    ]);
    expect(speakReply(reply([...question(line('Turn the collar'), count(2))]))).toEqual([
      { say: 'line', text: 'Turn the collar' },
      { say: 'words', words: ['two'] },
      { say: 'pause', after: 'question' },
    ]);
  });
  test('have commas for the eye alone, and temperatures in the scale of the shop', () => {
    const warm = reply([
      ...sentence({ say: 'temperature', temperature: fahrenheit(68, 'half-even') }, comma, size(inches(0.627)), comma, 'to-go'),
    ]);
    expect(textOfReply(warm)).toBe('Sixty-eight, six twenty-seven, to go.');
    expect(speakReply(warm)).toEqual([
      { say: 'words', words: ['sixty', 'eight', 'six', 'twenty', 'seven', 'to', 'go'] },
      { say: 'pause', after: 'sentence' },
    ]);
    expect(textOfReply({ ...warm, unit: 'millimetre' })).toMatch(/^Twenty, /);
  });
  test('hold no punctuation in the words that are spoken', () => {
    const words = speakReply(reply([...sentence('no-caution-here'), ...sentence('heard')])).flatMap((each) =>
      each.say === 'words' ? each.words : [],
    );
    expect(words).toContain('here');
    expect(words).toContain('i');
  });
});

test('has every word that it says numbers with, and no other', () => {
  const said = new Set<string>();
  for (let step = 0; step < 4_000; step += 1) {
    const size = inches((step * 37) / 10_000);
    for (const words of [sizeWords(size, 'inch'), amountWords(size, 'inch'), bareAmountWords(size, 'inch')])
      words.forEach((word) => said.add(word));
    const metric = millimetres((step * 5) / 1000);
    for (const words of [sizeWords(metric, 'millimetre'), amountWords(metric, 'millimetre')])
      words.forEach((word) => said.add(word));
    countWords(step * 7).forEach((word) => said.add(word));
  }
  for (const inch of [1, 2]) sizeWords(inches(inch), 'inch').forEach((word) => said.add(word));
  temperatureWords(celsius(-5, 'half-even'), 'millimetre').forEach((word) => said.add(word));
  expect([...said].sort()).toEqual([...new Set(numberWords())].sort());
});
