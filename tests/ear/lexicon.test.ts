import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { cutDictionary, readPronunciations } from '../../src/ear/index.ts';
import { PHONES } from '../../src/ear/lexicon.ts';

const packaged = readPronunciations('thou DH AW\nmike M AY K\nnext N EH K S T\nnext(2) N EH K S\nunused Y UW Z\n');
const own = readPronunciations('# the shop\nthou TH AW   # unvoiced\nmil M IH L\n');

describe('cutDictionary', () => {
  const lines = cutDictionary(packaged, own, ['next', 'thou', 'mil']).text.split('\n');

  test('keeps the words that are asked for, with all their pronunciations', () => {
    expect(lines.slice(0, 4)).toEqual(['mil M IH L', 'next N EH K S T', 'next(2) N EH K S', 'thou TH AW']);
  });
  test('a word of the shop sounds as the shop says it and in no other way', () => {
    expect(lines.filter((line) => line.startsWith('thou'))).toEqual(['thou TH AW']);
  });
  test('every phone stands alone for the loop', () => {
    expect(lines).toContain('@zh ZH');
    expect(lines.filter((line) => line.startsWith('@')).length).toBe(PHONES.length);
  });
  test('tells which words nobody can pronounce', () => {
    expect(cutDictionary(packaged, own, ['next', 'grommet']).missing).toEqual(['grommet']);
  });
});

test('the pronunciations of the shop use only phones that the model has', () => {
  const shop = readPronunciations(readFileSync(new URL('../../models/pronunciations.txt', import.meta.url), 'utf8'));
  expect(shop.get('thou')).toEqual(['TH AW']);
  const phones = new Set<string>(PHONES);
  expect(
    [...shop.values()]
      .flat()
      .flatMap((sound) => sound.split(' '))
      .filter((phone) => !phones.has(phone)),
  ).toEqual([]);
});
