import type { GrammarNode } from './grammar.ts';

/** Sounds that people make while they think; they carry nothing. The heard ones are in the grammar before a number. */
export const FILLERS: Readonly<Record<string, 'heard' | 'written'>> = {
  uh: 'heard',
  um: 'heard',
  er: 'heard',
  erm: 'written',
  eh: 'written',
  hm: 'written',
  hmm: 'written',
  ah: 'written',
  uhm: 'written',
};

/**
 * What people say when they start a number again, the longer before what it begins with. The heard ones are in the recogniser's
 * grammar after every number; each there costs an arc at every place where a number may end, so they are few.
 */
export const RESTARTS: readonly { readonly words: string; readonly as: 'heard' | 'written' }[] = [
  { words: 'no make that', as: 'heard' },
  { words: 'no wait', as: 'heard' },
  { words: 'no sorry', as: 'heard' },
  { words: 'i mean', as: 'written' },
  { words: 'make that', as: 'written' },
  { words: 'scratch that', as: 'written' },
  { words: 'sorry', as: 'heard' },
  { words: 'wait', as: 'written' },
  { words: 'rather', as: 'written' },
  { words: 'no', as: 'heard' },
];

/** How likely a filler is against none, for the recogniser: rare enough that a breath is not taken for one. */
const FILLER_WEIGHT = 0.1;

const phrase = (words: string): GrammarNode => ({
  node: 'sequence',
  items: words.split(' ').map((word) => ({ node: 'word', word })),
});

const filler: GrammarNode = {
  node: 'optional',
  item: {
    node: 'one-of',
    branches: Object.entries(FILLERS).flatMap(([word, as]) =>
      as === 'heard' ? [{ item: { node: 'word', word } as const, weight: FILLER_WEIGHT }] : [],
    ),
  },
};

const restart: GrammarNode = {
  node: 'one-of',
  branches: RESTARTS.flatMap(({ words, as }) => (as === 'heard' ? [{ item: phrase(words) }] : [])),
};

/** A number as it is heard: a sound before it, and once it may be started again, in plain figures (the rule <again>). */
export const withRestart = (number: GrammarNode): GrammarNode => ({
  node: 'sequence',
  items: [
    filler,
    number,
    { node: 'optional', item: { node: 'sequence', items: [restart, filler, { node: 'rule', name: 'again' }] } },
  ],
});
