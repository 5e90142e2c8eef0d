import { fullGrammar, type Grammar } from '../../phrasebook/index.ts';

/**
 * Command words of the open corpora that the phrasebook has only inside longer phrases. They are listened for on the bench
 * beside the whole phrasebook, so that recognition of single words can be measured on real speech; the page never has them alone.
 */
export const BENCH_WORDS = ['yes', 'no', 'up', 'down', 'left', 'right', 'on', 'off', 'stop', 'go'] as const;

/** What is listened for on the bench: every phrase of the phrasebook, unweighted, and the bench words. */
export const benchGrammar: Grammar = {
  key: 'bench',
  root: {
    node: 'one-of',
    branches: [{ item: fullGrammar.root }, ...BENCH_WORDS.map((word) => ({ item: { node: 'word', word } as const }))],
  },
  rules: fullGrammar.rules,
};
