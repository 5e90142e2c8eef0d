import { assert } from '../measure/index.ts';
import type { GrammarNode } from './grammar.ts';

/** Everything a node may begin with and go on to, as rows of items: alternatives written side by side. */
type Row = readonly GrammarNode[];

const sameAs = (node: GrammarNode): string => JSON.stringify(node);

/** The rows of a node, with the named rules written out where they stand at its front. */
function rowsOf(node: GrammarNode, rules: Readonly<Record<string, GrammarNode>>, open: ReadonlySet<string>): Row[] {
  switch (node.node) {
    case 'word':
      return [[node]];
    case 'rule': {
      if (!open.has(node.name)) return [[node]];
      const body = rules[node.name];
      assert(body !== undefined, `rule <${node.name}> is written down`);
      return rowsOf(body, rules, open);
    }
    case 'optional':
      return [...rowsOf(node.item, rules, open), []];
    case 'one-of':
      return node.branches.flatMap((branch) => rowsOf(branch.item, rules, open));
    case 'sequence': {
      const [first, ...rest] = node.items;
      assert(first !== undefined, 'a sequence has items');
      const tail = rest.length === 0 ? [[]] : [rest];
      return rowsOf(first, rules, open).flatMap((row) =>
        row.length > 0 ? tail.map((more) => [...row, ...more]) : rest.length === 0 ? [[]] : rowsOf({ node: 'sequence', items: rest }, rules, open),
      );
    }
  }
}

const sequenceOf = (items: Row): GrammarNode => {
  const [only] = items;
  return items.length === 1 && only !== undefined ? only : { node: 'sequence', items };
};

/** Rows with a shared front brought together, so that what they share is written once. */
function merged(rows: readonly Row[]): GrammarNode | null {
  const groups = new Map<string, { readonly first: GrammarNode; readonly rests: Row[] }>();
  let empty = false;
  for (const row of rows) {
    const [first, ...rest] = row;
    if (first === undefined) empty = true;
    else {
      const key = sameAs(first);
      const group = groups.get(key) ?? { first, rests: [] };
      group.rests.push(rest);
      groups.set(key, group);
    }
  }
  const branches = [...groups.values()].map(({ first, rests }) => {
    const tail = merged(rests);
    return tail === null ? first : sequenceOf([first, ...(tail.node === 'sequence' ? tail.items : [tail])]);
  });
  const [only] = branches;
  if (only === undefined) return null;
  const all: GrammarNode = branches.length === 1 ? only : { node: 'one-of', branches: branches.map((item) => ({ item })) };
  return empty ? { node: 'optional', item: all } : all;
}

/**
 * The same words as `root` allows, with the rules in `open` written out and shared fronts joined: an engine that copies a
 * rule wherever it is named then copies the long ones once.
 */
export function factored(root: GrammarNode, rules: Readonly<Record<string, GrammarNode>>, open: readonly string[]): GrammarNode {
  const joined = merged(rowsOf(root, rules, new Set(open)));
  assert(joined !== null, 'a rule says something');
  return joined;
}
