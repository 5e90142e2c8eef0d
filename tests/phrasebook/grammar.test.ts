import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fullGrammar, grammarFor, samples, vocabulary, type Grammar, type GrammarNode } from '../../src/phrasebook/index.ts';
import { template } from '../../src/phrasebook/template.ts';
import { Walker } from '../../src/phrasebook/walk.ts';
import { CONTEXTS, type ContextName } from './contexts.ts';
import { corpus } from './corpus.ts';
import { wordsOf } from '../../src/phrasebook/index.ts';

const names = Object.keys(CONTEXTS) as ContextName[];

/** Whether a grammar lets the words through: walked with the parser's own walker, greedy or not. */
function accepter(grammar: Grammar): (sentence: string) => boolean {
  const walker = new Walker(grammar.rules);
  return (sentence) => walker.walk(grammar.root, sentence.split(' ')).ways.length > 0;
}

const NUMBERS = {
  size: ['six twenty seven', 'two over', 'on size'],
  small: ['ten'],
  signed: ['minus two'],
  step: ['five'],
  temperature: ['seventy two'],
  place: ['at the end'],
};

describe('the grammar of the moment', () => {
  test.each(names)('%s: every command can be reached', (name) => {
    const accepts = accepter(grammarFor(CONTEXTS[name]));
    expect(
      samples(40, NUMBERS)
        .filter(({ sentence }) => !accepts(sentence))
        .map(({ sentence }) => sentence),
    ).toEqual([]);
  });
  test('lets every sentence of the corpus through that is understood, but for what is marked as written only', () => {
    const accepts = accepter(fullGrammar);
    const heard = corpus.flatMap((each) => each.lines).filter((line) => line.unheard === undefined && line.written !== true);
    expect(heard.filter((line) => !accepts(wordsOf(line.words).join(' '))).map((line) => line.words)).toEqual([]);
  });
  test.each([
    'uh six twenty no six twenty seven',
    'um six twenty seven and a half',
    'reads er six twenty seven',
    'six twenty no wait six twenty seven',
    'mike six twenty seven no um six twenty eight',
    'six twenty seven and a half no six twenty six at the shoulder',
    'took ten sorry eight',
    'jaw one twelve no make that fourteen',
    'six thirty no sorry six twenty',
  ])('hears fillers and restarts: "%s"', (sentence) => {
    expect(accepter(fullGrammar)(sentence)).toBe(true);
    expect(accepter(grammarFor(CONTEXTS['inch .620']))(sentence)).toBe(true);
  });
  test.each(['uh', 'six twenty uh', 'six twenty no', 'six twenty no six thirty no six forty', 'uh next'])(
    'and not "%s"',
    (sentence) => expect(accepter(fullGrammar)(sentence)).toBe(false),
  );
  test('holds a sound of hesitation less likely than none', () => {
    const { number } = fullGrammar.rules;
    const filler = number?.node === 'sequence' ? number.items[0] : undefined;
    const item = filler?.node === 'optional' ? filler.item : undefined;
    expect(item?.node === 'one-of' ? item.branches.map((branch) => branch.weight) : []).toEqual([0.1, 0.1, 0.1]);
  });
  test('has another key where it is another grammar, and the same key where it is the same', () => {
    const byKey = new Map<string, string>();
    for (const name of names) {
      const grammar = grammarFor(CONTEXTS[name]);
      const text = JSON.stringify([grammar.root, grammar.rules]);
      expect(byKey.get(grammar.key) ?? text).toBe(text);
      byKey.set(grammar.key, text);
    }
    expect(grammarFor(CONTEXTS['inch .620']).key).toBe(grammarFor({ ...CONTEXTS['inch .620'], now: 5 }).key);
  });
  test('weighs yes and no more when something was asked', () => {
    const weight = (name: ContextName): number => {
      const { root } = grammarFor(CONTEXTS[name]);
      if (root.node !== 'one-of') return 0;
      return root.branches.find(({ item }) => JSON.stringify(item).includes('"yep"'))?.weight ?? 0;
    };
    expect(weight('inch .620 asked')).toBeGreaterThan(4 * weight('inch .620'));
  });
  test('makes the numbers near the target and the last reading likelier', () => {
    const near = (name: ContextName): GrammarNode | undefined => {
      // A number as it is heard: a filler, the number itself, and what starts it again.
      const heard = grammarFor(CONTEXTS[name]).rules['number'];
      const number = heard?.node === 'sequence' ? heard.items[1] : undefined;
      return number?.node === 'one-of' ? number.branches[0]?.item : undefined;
    };
    const likely = (name: ContextName, sentence: string): boolean => {
      const node = near(name);
      return node !== undefined && new Walker({}).walk(node, sentence.split(' ')).ways.length > 0;
    };
    for (const sentence of ['six twenty', 'six nineteen and a half', 'six forty one', 'point six two one'])
      expect(likely('inch .620', sentence)).toBe(true);
    for (const sentence of ['seven fifty', 'one two fifty']) expect(likely('inch .620', sentence)).toBe(false);
    for (const sentence of ['nineteen point oh one', 'nineteen oh one', 'nineteen point three eight'])
      expect(likely('mm 19', sentence)).toBe(true);
    expect(near('inch nothing')?.node).not.toBe('word');
  });
  test('has only weights above zero and only rules that are there', () => {
    for (const grammar of [fullGrammar, ...names.map((name) => grammarFor(CONTEXTS[name]))]) {
      const visit = (node: GrammarNode): void => {
        if (node.node === 'one-of')
          for (const { item, weight = 1 } of node.branches) {
            expect(weight).toBeGreaterThan(0);
            visit(item);
          }
        else if (node.node === 'sequence') node.items.forEach(visit);
        else if (node.node === 'optional') visit(node.item);
        else if (node.node === 'rule') expect(grammar.rules[node.name]).toBeDefined();
      };
      visit(grammar.root);
      Object.values(grammar.rules).forEach(visit);
    }
  });
  test('uses words of letters only, each in the vocabulary', () => {
    const words = vocabulary();
    expect(words.filter((word) => !/^[a-z]+('[a-z]+)?$/.test(word))).toEqual([]);
    expect(new Set(words).size).toBe(words.length);
    expect(words.length).toBeLessThan(600);
  });
});

describe('the notation', () => {
  test('reads words, options, choices and rules', () => {
    expect(template('[the] (bore | hole) <size>')).toEqual({
      node: 'sequence',
      items: [
        { node: 'optional', item: { node: 'word', word: 'the' } },
        { node: 'one-of', branches: [{ item: { node: 'word', word: 'bore' } }, { item: { node: 'word', word: 'hole' } }] },
        { node: 'rule', name: 'size' },
      ],
    });
    expect(template('a [b]!')).toEqual({
      node: 'sequence',
      items: [
        { node: 'word', word: 'a' },
        { node: 'optional', item: { node: 'word', word: 'b' }, greedy: true },
      ],
    });
  });
  test.each(['(a', 'a)', 'a | ', '', 'A', 'a; b', '[a)'])('refuses "%s"', (text) =>
    expect(() => template(text)).toThrow(/Broken invariant/),
  );
});

describe('the walker', () => {
  test('finds every way of an ambiguous sentence', () => {
    const walker = new Walker({ x: template('a [a]') });
    expect(walker.walk(template('<x> <x>'), ['a', 'a', 'a']).ways).toHaveLength(2);
  });
  test('does not leave out what is there where told so', () => {
    const walker = new Walker({ pair: template('twenty [seven]!'), loose: template('twenty [seven]') });
    expect(walker.walk(template('<pair> [seven]'), ['twenty', 'seven']).ways).toHaveLength(1);
    expect(walker.walk(template('<loose> [seven]'), ['twenty', 'seven']).ways).toHaveLength(2);
  });
  test('says whether a sentence stops short', () => {
    const walker = new Walker({});
    const root = template('go to step');
    expect(walker.walk(root, ['go', 'to'])).toEqual({ ways: [], half: true });
    expect(walker.walk(root, ['go', 'on'])).toEqual({ ways: [], half: false });
  });
  test('gives the rules inside a rule', () => {
    const walker = new Walker({ n: template('one | two'), pair: template('<n> <n>') });
    expect(walker.walk(template('x <pair>'), ['x', 'one', 'two']).ways).toEqual([
      [
        {
          rule: 'pair',
          from: 1,
          to: 3,
          children: [
            { rule: 'n', from: 1, to: 2, children: [] },
            { rule: 'n', from: 2, to: 3, children: [] },
          ],
        },
      ],
    ]);
  });
  test('throws on a rule that is not there, or that covers nothing', () => {
    expect(() => new Walker({}).walk(template('<gone>'), ['a'])).toThrow(/rule <gone>/);
    expect(() => new Walker({ empty: template('[a]') }).walk(template('<empty>'), ['a'])).toThrow(/at least one word/);
  });
});

test('random words from the vocabulary never throw (seed 7)', () => {
  const words = vocabulary();
  const grammar = accepter(fullGrammar);
  fc.assert(
    fc.property(
      fc.array(fc.constantFrom(...words), { minLength: 1, maxLength: 8 }),
      (sentence) => void grammar(sentence.join(' ')),
    ),
    { seed: 7, numRuns: 500 },
  );
});
