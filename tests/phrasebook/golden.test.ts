import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import {
  card,
  COMMANDS,
  fullGrammar,
  grammarFor,
  GROUPS,
  PRIOR,
  readNumber,
  samples,
  wordsOf,
  type Candidate,
  type CardLine,
} from '../../src/phrasebook/index.ts';
import { expectedNumbers } from '../../src/phrasebook/expected-numbers.ts';
import type { GrammarNode } from '../../src/phrasebook/grammar.ts';
import { likelihood } from '../../src/phrasebook/likelihood.ts';
import { CONTEXTS } from './contexts.ts';
import { corpus } from './corpus.ts';

/*
 * What the phrasebook shows and weighs, as text for people to read. After a change on purpose, run with SWARFSIDE_GOLDEN=write
 * and read what changed.
 */
const folder = new URL('../fixtures/phrasebook/', import.meta.url);

function golden(name: string, lines: readonly string[]): void {
  const file = new URL(name, folder);
  const text = `${lines.join('\n')}\n`;
  if (process.env['SWARFSIDE_GOLDEN'] === 'write') writeFileSync(file, text);
  expect(existsSync(file) ? readFileSync(file, 'utf8') : '').toBe(text);
}

const lineOf = ({ name, say, help, button, key, changesLog }: CardLine): string =>
  `${name} | ${say.join(', ')} | ${help} | ${button ?? '-'} | ${key} | ${changesLog ? 'logged' : 'not logged'}`;

const contexts = Object.entries(CONTEXTS);

/** Every way through a node, its words joined. */
function ways(node: GrammarNode): string[] {
  switch (node.node) {
    case 'word':
      return [node.word];
    case 'optional':
      return ['', ...ways(node.item)];
    case 'one-of':
      return node.branches.flatMap((branch) => ways(branch.item));
    case 'sequence':
      return node.items.reduce<string[]>(
        (fronts, item) => fronts.flatMap((front) => ways(item).map((way) => `${front} ${way}`)),
        [''],
      );
    case 'rule':
      return [`<${node.name}>`];
  }
}

/** A node in the notation of docs/phrasebook.md, with the weight of a branch in front where it is not 1. */
function written(node: GrammarNode): string {
  switch (node.node) {
    case 'word':
      return node.word;
    case 'rule':
      return `<${node.name}>`;
    case 'optional':
      return `[${written(node.item)}]`;
    case 'sequence':
      return node.items.map(written).join(' ');
    case 'one-of':
      return `(${node.branches.map(({ item, weight = 1 }) => `${weight === 1 ? '' : `${weight}: `}${written(item)}`).join(' | ')})`;
  }
}

const PRIORS = new Map<number, string>(Object.entries(PRIOR).map(([name, prior]) => [prior, name]));

function candidateText(candidate: Candidate): string {
  const { kind, prior, ...rest } = candidate;
  return [kind, PRIORS.get(prior) ?? prior, ...Object.entries(rest).map(([name, value]) => `${name} ${value}`)].join(' ');
}

/** Forms of numbers that the lines of the corpus have in a command only, or with one unit only. */
const FORMS = [
  'six twenty seven and three tenths',
  'six and three tenths',
  'six inches and three tenths',
  'six millimetres and a tenth',
  'nineteen and three tenths',
  'nineteen point oh five and a half',
  'six point two and three tenths',
  'point six two seven and a half',
  'point six two seven and a tenth',
  'six twenty oh two',
  'six hundred oh two',
  'one six twenty oh two',
  'six twenty seven oh two',
  'twelve fifteen oh two',
  'two point five thou',
  'two and a half thou',
  'one hundred and two tenths',
  'two tenths',
  'two tenths of a thou',
  'two tenths of a millimetre',
  'five hundredths',
  'five hundredths of a millimetre',
  'twenty microns',
  'two point five microns',
  'thirty degrees',
  'thirty degrees fifteen minutes',
  'thirty and a half degrees fifteen minutes',
  'two and a half degrees',
  'three foot',
  'two and a half feet',
  'two point five feet',
  'two feet and three tenths',
  'two feet three inches',
  'two foot six and a half inches',
  'six inches',
  'six and a half inches',
  'six twenty seven inches',
  'half an inch',
  'half a thou',
  'half a tenth',
  'half a hundredth',
  'half a millimetre',
  'half a mil',
  'a thou and a half',
  'a tenth and a half',
  'a millimetre and a half',
  'a couple',
  'a couple of thou',
  'a couple of tenths',
  'a couple of hundredths',
  'two centimetres',
  'two turns',
  'a hair',
  'two mil',
  'five eighths',
  'two and nine sixteenths',
  'one inch and a half',
  'an inch and five eighths',
  'thirty three sixty fourths',
  'thirty three sixty fourths of an inch',
  'three quarters',
  'a quarter',
  'half',
  'point six twenty seven',
  'six two seven one hundred',
  'twenty oh two oh two',
  'two point five thou and a half',
  'two point five hundredths',
  'one hundred tenths',
  'point five hundredths',
  'point five tenths',
  'half degrees',
  'two and three tenths feet',
  'two point oh oh oh five feet',
  'two point five degrees',
  'two point two five thou',
  'one two twenty oh two',
  'six twenty ten oh two',
  'one two millimetres',
  'six five millimetres',
  'nineteen oh five millimetres',
  'twelve fifteen millimetres',
  'nineteen thirty eight millimetres',
  'six two seven five tenths',
  'six two seven five thou',
  'six two seven five feet',
  'one six twenty seven hundredths',
  'six two seven five thou and a half',
  'six two seven five millimetres and three tenths',
  'six two seven five inches six twenty',
  'six two seven five and a quarter',
  'six twenty seven and a quarter',
  'six two seven five feet six',
  'six two seven five eighths',
  'six and quarter',
  'two feet half',
  'two feet and a quarter',
  'six two seven five and three hundredths',
];

describe('what the phrasebook shows', () => {
  test('every reading of every number in the corpus', () => {
    const lines = corpus.flatMap((each) => each.lines).map((line) => wordsOf(line.words).join(' '));
    const phrases = [...new Set([...FORMS, ...lines])].sort();
    golden(
      'numbers.txt',
      phrases.flatMap((phrase) =>
        (['size', 'depth-of-cut', 'indicator', 'temperature', 'step'] as const).flatMap((slot) =>
          (['inch', 'millimetre'] as const).flatMap((unit) => {
            // Of the slots that are read like a size, the forms alone: the corpus is long.
            if (slot !== 'size' && !FORMS.includes(phrase)) return [];
            const found = readNumber(phrase.split(' '), slot, unit);
            return found.length === 0
              ? []
              : [`${phrase} | ${slot} ${unit}`, ...found.map((candidate) => `  ${candidateText(candidate)}`).sort()];
          }),
        ),
      ),
    );
  });
  test('the card for the wall', () => {
    golden(
      'card.txt',
      card(null).flatMap((group) => [`${group.title} (${group.id})`, ...group.lines.map((line) => `  ${lineOf(line)}`)]),
    );
  });
  test('the card of the moment has one group more, in front', () => {
    for (const [, context] of contexts) {
      const [now, ...rest] = card(context);
      expect(now).toMatchObject({ id: 'now', title: 'Likely now' });
      expect(rest).toEqual(card(null));
    }
    expect(Object.keys(GROUPS)).not.toContain('now');
  });
  test('how likely each command is, by moment', () => {
    golden(
      'likely.txt',
      contexts.flatMap(([name, context]) => [
        name,
        `  on the card: ${
          card(context)[0]
            ?.lines.map((line) => line.name)
            .join(', ') ?? ''
        }`,
        ...COMMANDS.map((command) => `  ${command.name}: ${likelihood(command, context)}`),
      ]),
    );
  });
  test('the numbers that are expected, by moment', () => {
    golden(
      'expected-numbers.txt',
      contexts.flatMap(([name, context]) => {
        const node = expectedNumbers(context);
        const said = node === null ? ['nothing'] : [...new Set(ways(node).map((way) => way.trim().replace(/\s+/g, ' ')))];
        return [name, ...said.sort().map((way) => `  ${way}`)];
      }),
    );
  });
  test('the grammar that the recogniser listens with', () => {
    const { root, rules } = fullGrammar;
    const rows = root.node === 'one-of' ? root.branches.map(({ item }) => written(item)) : [];
    golden('grammar.txt', [
      ...[fullGrammar, ...contexts.map(([, context]) => grammarFor(context))].map(({ key }) => `key: ${key}`),
      ...rows,
      ...Object.entries(rules).map(([name, node]) => `<${name}> = ${written(node)}`),
      ...contexts.map(([name, context]) => {
        const here = grammarFor(context).root;
        return `${name}: ${here.node === 'one-of' ? here.branches.map(({ weight }) => weight).join(' ') : ''}`;
      }),
      ...(['inch .620', 'inch nothing', 'mm 19'] as const).map((name) => {
        const { number } = grammarFor(CONTEXTS[name]).rules;
        return `${name}: <number> = ${number === undefined ? '' : written(number)}`;
      }),
    ]);
  });
  test('the first sentences of each command', () => {
    const numbers = {
      size: ['six twenty seven'],
      small: ['ten'],
      signed: ['two'],
      step: ['five'],
      temperature: ['seventy two'],
      place: ['across'],
    };
    golden(
      'sentences.txt',
      samples(400, numbers).map(({ command, sentence }) => `${command}: ${sentence}`),
    );
  });
});
