import { fullGrammar } from './grammar-for.ts';
import type { GrammarNode } from './grammar.ts';

function collect(node: GrammarNode, into: Set<string>): void {
  switch (node.node) {
    case 'word':
      into.add(node.word);
      return;
    case 'sequence':
      return node.items.forEach((item) => collect(item, into));
    case 'one-of':
      return node.branches.forEach((branch) => collect(branch.item, into));
    case 'optional':
      return collect(node.item, into);
    case 'rule':
      return;
  }
}

/** Every word that any grammar or the number reader uses, in alphabetical order; each needs a pronunciation. */
export function vocabulary(): readonly string[] {
  const words = new Set<string>();
  collect(fullGrammar.root, words);
  Object.values(fullGrammar.rules).forEach((rule) => collect(rule, words));
  return [...words].sort();
}
