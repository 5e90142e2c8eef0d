/**
 * What can be said, as a tree that knows no recogniser: the ear turns it into its engine's own form, the parser walks it.
 * Words are lower case, one token each, and every one must have a pronunciation in the lexicon.
 * `weight` is relative among the branches of one `oneOf`, 1 when not given.
 */
export type GrammarNode =
  | { readonly node: 'word'; readonly word: string }
  | { readonly node: 'sequence'; readonly items: readonly GrammarNode[] }
  | { readonly node: 'one-of'; readonly branches: readonly { readonly item: GrammarNode; readonly weight?: number }[] }
  /** `greedy` forbids leaving out what is there: "twenty seven" is never twenty and then seven. */
  | { readonly node: 'optional'; readonly item: GrammarNode; readonly greedy?: true }
  /** A rule by name: defined once in `Grammar.rules`, so that a number can stand in many commands. */
  | { readonly node: 'rule'; readonly name: string };

export type Grammar = {
  /** Differs whenever the grammar does, so that an engine can keep what it compiled. */
  readonly key: string;
  readonly root: GrammarNode;
  readonly rules: Readonly<Record<string, GrammarNode>>;
};
