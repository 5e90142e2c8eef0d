import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { card, COMMANDS, GROUPS, samples, type CardLine } from '../../src/phrasebook/index.ts';
import { expectedNumbers } from '../../src/phrasebook/expected-numbers.ts';
import type { GrammarNode } from '../../src/phrasebook/grammar.ts';
import { likelihood } from '../../src/phrasebook/likelihood.ts';
import { CONTEXTS } from './contexts.ts';

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
  `${name} | ${say.join(', ')} | ${help} | ${button ?? '-'} | ${key ?? '-'} | ${changesLog ? 'logged' : 'not logged'}`;

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

describe('what the phrasebook shows', () => {
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
