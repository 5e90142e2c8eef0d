/**
 * What can be said, as a tree that knows no recogniser: the ear turns it into its engine's own form, the parser walks it.
 * Words are lower case, one token each, and every one must have a pronunciation in the lexicon.
 * `weight` is relative among the branches of one `oneOf`, 1 when not given.
 */
export type GrammarNode =
  | { readonly node: 'word'; readonly word: string }
  | { readonly node: 'sequence'; readonly items: readonly GrammarNode[] }
  | { readonly node: 'one-of'; readonly branches: readonly Branch[] }
  /** `greedy` forbids leaving out what is there: "twenty seven" is never twenty and then seven. */
  | { readonly node: 'optional'; readonly item: GrammarNode; readonly greedy?: true }
  /** A rule by name: defined once in `Grammar.rules`, so that a number can stand in many commands. */
  | { readonly node: 'rule'; readonly name: string };

export type Branch = { readonly item: GrammarNode; readonly weight?: number };

/** Nodes one after another; one alone stands for itself. */
export function inSequence(items: readonly GrammarNode[]): GrammarNode {
  const [first, ...more] = items;
  return first === undefined || more.length > 0 ? { node: 'sequence', items } : first;
}

/** Branches to choose among; one alone stands for itself, whatever it weighs. */
export function oneOf(branches: readonly Branch[]): GrammarNode {
  const [first, ...others] = branches;
  return first === undefined || others.length > 0 ? { node: 'one-of', branches } : first.item;
}

export type Grammar = {
  /** Differs whenever the grammar does, so that an engine can keep what it compiled. */
  readonly key: string;
  readonly root: GrammarNode;
  readonly rules: Readonly<Record<string, GrammarNode>>;
};
