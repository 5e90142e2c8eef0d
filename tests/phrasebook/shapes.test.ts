import { describe, expect, test } from 'vitest';
import type { NumberSlot } from '../../src/job/index.ts';
import { toInches, toMillimetres, type DisplayUnit } from '../../src/measure/index.ts';
import { PRIOR, readNumber } from '../../src/phrasebook/index.ts';
import { figures } from '../../src/phrasebook/figures.ts';
import type { GrammarNode } from '../../src/phrasebook/grammar.ts';
import { NUMBER_RULES } from '../../src/phrasebook/number-rules.ts';
import { shapesOf } from '../../src/phrasebook/placements.ts';
import { Walker } from '../../src/phrasebook/walk.ts';
import { CUT_ROWS, SHAPE_ROWS } from './rows.ts';

const letters: Readonly<Record<number, string>> = {
  [PRIOR.habit]: '',
  [PRIOR.also]: 'a',
  [PRIOR.rare]: 'r',
  [PRIOR.stretch]: 's',
};

function readings(words: string, slot: NumberSlot, unit: DisplayUnit): string {
  const best = new Map<number, number>();
  for (const each of readNumber(words.split(' '), slot, unit)) {
    if (each.kind !== 'length') continue;
    const value = Number((unit === 'inch' ? toInches(each.value) : toMillimetres(each.value)).toFixed(6));
    best.set(value, Math.max(best.get(value) ?? 0, each.prior));
  }
  return [...best]
    .sort(([a], [b]) => a - b)
    .map(([value, prior]) => `${value}${letters[prior]}`)
    .join(' ');
}

describe('where the point may be', () => {
  test.each(SHAPE_ROWS)('%s: "%s"', (_shape, words, inch, millimetre) => {
    expect(readings(words, 'size', 'inch')).toBe(inch);
    expect(readings(words, 'size', 'millimetre')).toBe(millimetre);
  });
  test.each(CUT_ROWS)('%s in millimetres: "%s"', (slot, words, to) => expect(readings(words, slot, 'millimetre')).toBe(to));
  test.each([
    ['depth-of-cut', 'six'],
    ['indicator', 'six'],
    ['dial', 'six'],
  ] as const)('%s in inches is as a size: "%s"', (slot, words) => expect(readings(words, slot, 'inch')).toBe('0.006 0.6s 6a'));
});

test('the shapes of the table are those that the rules can make, all of them and no other', () => {
  const SAID: Readonly<Record<string, readonly string[]>> = {
    digit: ['six'],
    oh: ['oh'],
    pair: ['twenty seven'],
    hundreds: ['six hundred twenty seven'],
  };
  function* sayings(node: GrammarNode): Generator<readonly string[], void> {
    switch (node.node) {
      case 'word':
        yield [node.word];
        return;
      case 'rule':
        if (SAID[node.name] === undefined) yield* sayings(NUMBER_RULES[node.name] as GrammarNode);
        else yield* SAID[node.name]?.map((words) => words.split(' ')) ?? [];
        return;
      case 'optional':
        yield [];
        yield* sayings(node.item);
        return;
      case 'one-of':
        for (const branch of node.branches) yield* sayings(branch.item);
        return;
      case 'sequence': {
        const [first, ...rest] = node.items;
        if (first === undefined) {
          yield [];
          return;
        }
        for (const front of sayings(first))
          for (const back of sayings({ node: 'sequence', items: rest })) yield [...front, ...back];
      }
    }
  }
  const walker = new Walker(NUMBER_RULES);
  const made = new Set<string>();
  for (const words of sayings({ node: 'rule', name: 'run' }))
    for (const way of walker.walk({ node: 'rule', name: 'run' }, words).ways) made.add(figures(words, way).shape);
  for (const unit of ['inch', 'millimetre'] as const) expect([...shapesOf(unit)].sort()).toEqual([...made].sort());
  expect(new Set(SHAPE_ROWS.map(([shape]) => shape))).toEqual(made);
});
