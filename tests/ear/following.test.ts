import { describe, expect, it } from 'vitest';
import { following, PATIENCE_MS, wordGraph } from '../../src/ear/index.ts';
import { fullGrammar } from '../../src/phrasebook/index.ts';

const graph = wordGraph(fullGrammar);

describe('what may still be said', () => {
  it.each([
    ['scratch that', 'nothing'],
    // "Next one" and "yes it is" are phrases: no number is begun.
    ['next', 'words'],
    ['yes', 'words'],
    ['five eighths', 'words'],
    ['reads six twenty', 'figures'],
    ['six twenty', 'figures'],
    ['no', 'figures'],
    ['reads six twenty seven', 'rest'],
    ['point six two seven', 'rest'],
    ['reads', 'unfinished'],
    ['reads six twenty seven and', 'unfinished'],
  ] as const)('after "%s": %s', (words, follows) => {
    expect(following(graph, words.split(' '))).toBe(follows);
  });

  it('the more can follow, the longer the silence that ends it', () => {
    const { nothing, words, rest, figures, unfinished } = PATIENCE_MS;
    const patience = [nothing, words, rest, figures, unfinished];
    expect([...patience].sort((a, b) => a - b)).toEqual(patience);
  });
});
