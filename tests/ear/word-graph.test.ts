import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { accepts, wordGraph, wordsOf } from '../../src/ear/index.ts';
import { fullGrammar, samples, type Grammar, type GrammarNode } from '../../src/phrasebook/index.ts';

const word = (text: string): GrammarNode => ({ node: 'word', word: text });
const sequence = (...items: GrammarNode[]): GrammarNode => ({ node: 'sequence', items });
const oneOf = (...items: GrammarNode[]): GrammarNode => ({ node: 'one-of', branches: items.map((item) => ({ item })) });
const optional = (item: GrammarNode): GrammarNode => ({ node: 'optional', item });
const grammar = (root: GrammarNode, rules: Record<string, GrammarNode> = {}): Grammar => ({ key: 'test', root, rules });

const digit = oneOf(word('one'), word('two'));

/** Every phrase of a small grammar with its least cost, written out the slow way. */
function phrases(node: GrammarNode): Map<string, number> {
  const put = (into: Map<string, number>, phrase: string, cost: number): void =>
    void into.set(phrase, Math.min(cost, into.get(phrase) ?? Infinity));
  const out = new Map<string, number>();
  switch (node.node) {
    case 'word':
      return new Map([[node.word, 0]]);
    case 'optional':
      phrases(node.item).forEach((cost, phrase) => put(out, phrase, cost));
      put(out, '', 0);
      return out;
    case 'one-of':
      for (const { item, weight = 1 } of node.branches)
        phrases(item).forEach((cost, phrase) => put(out, phrase, cost - Math.log(weight)));
      return out;
    case 'sequence':
      return node.items.reduce(
        (before, item) => {
          const joint = new Map<string, number>();
          before.forEach((costA, a) => phrases(item).forEach((costB, b) => put(joint, `${a} ${b}`.trim(), costA + costB)));
          return joint;
        },
        new Map([['', 0]]),
      );
    case 'rule':
      throw new Error('no rules here');
  }
}

const anyNode = fc.letrec<{ node: GrammarNode }>((tie) => ({
  node: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    fc.constantFrom('a', 'b', 'c').map(word),
    fc.array(tie('node'), { minLength: 1, maxLength: 3 }).map((items) => sequence(...items)),
    fc
      .array(fc.record({ item: tie('node'), weight: fc.constantFrom(1, 0.5, 3) }), { minLength: 1, maxLength: 3 })
      .map((branches): GrammarNode => ({ node: 'one-of', branches })),
    tie('node').map(optional),
  ),
})).node;

describe('wordGraph', () => {
  test('holds exactly the phrases of its grammar', () => {
    const graph = wordGraph(
      grammar(sequence(optional(word('reads')), { node: 'rule', name: 'digit' }, optional(word('thou'))), { digit }),
    );
    for (const phrase of ['one', 'reads two', 'two thou', 'reads one thou']) expect(accepts(graph, phrase.split(' '))).toBe(true);
    for (const phrase of ['reads', 'thou', 'one two', 'reads one thou thou', 'three'])
      expect(accepts(graph, phrase.split(' '))).toBe(false);
    expect(wordsOf(graph)).toEqual(['one', 'reads', 'thou', 'two']);
  });

  test('lays what ends alike once', () => {
    const commands = ['mike', 'reads', 'caliper'].map((name) => sequence(word(name), digit, optional(word('thou'))));
    // Start, the number awaited, after it, the end.
    expect(wordGraph(grammar(oneOf(...commands))).states.length).toBe(4);
  });

  test('has the phrases of any grammar, each at its least cost (seed 31)', () => {
    fc.assert(
      fc.property(anyNode, (root) => {
        const expected = phrases(root);
        const { states } = wordGraph(grammar(root));
        const found = new Map<string, number>();
        const walk = (at: number, said: string, cost: number): void => {
          const { exit, arcs } = states[at]!;
          if (exit !== null) {
            expect(found.has(said)).toBe(false);
            found.set(said, cost + exit);
          }
          for (const arc of arcs) walk(arc.to, `${said} ${arc.word}`.trim(), cost + arc.cost);
        };
        walk(0, '', 0);
        expect([...found.keys()].sort()).toEqual([...expected.keys()].sort());
        found.forEach((cost, phrase) => expect(cost).toBeCloseTo(expected.get(phrase)!, 4));
      }),
      { seed: 31, numRuns: 200 },
    );
  });

  test('two ways in with the same word are one arc', () => {
    const graph = wordGraph(grammar(oneOf(sequence(word('how'), word('much')), sequence(word('how'), word('far')))));
    expect(graph.states[0]!.arcs.map((arc) => arc.word)).toEqual(['how']);
  });

  test('refuses a rule that is missing, a rule that refers to itself, and a weight of nothing', () => {
    expect(() => wordGraph(grammar({ node: 'rule', name: 'gone' }))).toThrow(/no rule "gone"/u);
    expect(() =>
      wordGraph(grammar({ node: 'rule', name: 'round' }, { round: sequence(word('a'), { node: 'rule', name: 'round' }) })),
    ).toThrow(/itself/u);
    expect(() => wordGraph(grammar({ node: 'one-of', branches: [{ item: word('a'), weight: 0 }] }))).toThrow(/weight/u);
  });

  test('every sample of the phrasebook is a phrase of its grammar, and the graph stays small', () => {
    const graph = wordGraph(fullGrammar);
    const number = {
      number: ['six twenty seven'],
      size: ['six twenty seven'],
      small: ['two thou'],
      signed: ['minus two thou'],
      step: ['four'],
      temperature: ['twenty degrees'],
    };
    const said = samples(12, number).map((each) => each.sentence);
    expect(said.length).toBeGreaterThan(100);
    expect(said.filter((sentence) => !accepts(graph, sentence.split(' ')))).toEqual([]);
    expect(graph.states.length).toBeLessThan(2_000);
  });
});
