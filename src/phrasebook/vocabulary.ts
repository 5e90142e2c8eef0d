import { fullGrammar } from './grammar-for.ts';
import type { GrammarNode } from './grammar.ts';

function collect(node: GrammarNode, into: Set<string>): void {
  switch (node.node) {
    case 'word':
      into.add(node.word);
      return;
    case 'sequence':
      node.items.forEach((item) => collect(item, into));
      return;
    case 'one-of':
      node.branches.forEach((branch) => collect(branch.item, into));
      return;
    case 'optional':
      collect(node.item, into);
      return;
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
