import type { Grammar, GrammarNode } from '../phrasebook/index.ts';

/** How the page may be called, and how many words are said before the name. */
const HAILS = ['hey', 'okay', 'hello'] as const;

const wordNode = (word: string): GrammarNode => ({ node: 'word', word });

/** The grammar of call listening while the window is closed: the name, with or without a command in the same breath. */
export function callGrammar(grammar: Grammar, name: string): Grammar {
  const hail: GrammarNode = {
    node: 'optional',
    item: { node: 'one-of', branches: HAILS.map((word) => ({ item: wordNode(word) })) },
  };
  return {
    key: `called ${name} then ${grammar.key}`,
    root: { node: 'sequence', items: [hail, ...nameWords(name).map(wordNode), { node: 'optional', item: grammar.root }] },
    rules: grammar.rules,
  };
}

const nameWords = (name: string): string[] => name.toLowerCase().split(' ');

/** The words after the name; null where the name is not called. */
export function afterName(words: readonly string[], name: string): readonly string[] | null {
  const calls = nameWords(name);
  const start = HAILS.some((hail) => hail === words[0]) ? 1 : 0;
  return calls.every((call, index) => words[start + index] === call) ? words.slice(start + calls.length) : null;
}
