import type { Grammar, GrammarNode } from '../phrasebook/index.ts';

/** How the page may be called, and how many words are said before the name. */
const HAILS = ['hey', 'okay', 'hello'] as const;

const wordNode = (word: string): GrammarNode => ({ node: 'word', word });

const call = (name: string): readonly GrammarNode[] => [
  { node: 'optional', item: { node: 'one-of', branches: HAILS.map((word) => ({ item: wordNode(word) })) } },
  ...nameWords(name).map(wordNode),
];

/** The grammar of call listening while the window is closed: the name, with or without a command in the same breath. */
export const callGrammar = (grammar: Grammar, name: string): Grammar => ({
  key: `called ${name} then ${grammar.key}`,
  root: { node: 'sequence', items: [...call(name), { node: 'optional', item: grammar.root }] },
  rules: grammar.rules,
});

/** The grammar while the window is open, or a button is down: a command, with the name before it or without. */
export const calledGrammar = (grammar: Grammar, name: string): Grammar => ({
  key: `perhaps ${name} then ${grammar.key}`,
  root: { node: 'sequence', items: [{ node: 'optional', item: { node: 'sequence', items: call(name) } }, grammar.root] },
  rules: grammar.rules,
});

const nameWords = (name: string): string[] => name.toLowerCase().split(' ');

/** The words after the name; null where the name is not called. */
export function afterName(words: readonly string[], name: string): readonly string[] | null {
  const calls = nameWords(name);
  const start = HAILS.some((hail) => hail === words[0]) ? 1 : 0;
  return calls.every((call, index) => words[start + index] === call) ? words.slice(start + calls.length) : null;
}
