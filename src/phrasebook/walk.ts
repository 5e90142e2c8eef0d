import { assert } from '../measure/index.ts';
import type { GrammarNode } from './grammar.ts';

/** One way in which a rule covers the words `from` up to `to`; `children` are the rules inside it, in order. */
export type Tree = { readonly rule: string; readonly from: number; readonly to: number; readonly children: readonly Tree[] };

/** All the ways in which a sentence is covered, each as the rules met at the top, and whether it could go on where it ended. */
export type Walk = { readonly ways: readonly (readonly Tree[])[]; readonly half: boolean };

type Trail = { readonly tree: Tree; readonly before: Trail } | null;
type Sentence = { readonly words: readonly string[]; half: boolean };
type Then = (at: number, trail: Trail) => void;
type Step = (sentence: Sentence, at: number, trail: Trail, then: Then) => void;
type Compiled = { readonly step: Step; readonly first: ReadonlySet<string>; readonly empty: boolean };

/**
 * Rules made ready to be walked over words. Finds every reading of an ambiguous sentence; no rule may contain itself or cover
 * no words. Branches that cannot begin with the next word are never entered, which keeps it fast.
 */
export class Walker {
  readonly #rules: Readonly<Record<string, GrammarNode>>;
  readonly #compiled = new Map<string, Compiled>();
  readonly #roots = new Map<GrammarNode, Compiled>();

  constructor(rules: Readonly<Record<string, GrammarNode>>) {
    this.#rules = rules;
  }

  walk(root: GrammarNode, words: readonly string[]): Walk {
    let compiled = this.#roots.get(root);
    if (compiled === undefined) {
      compiled = this.#compile(root);
      this.#roots.set(root, compiled);
    }
    const sentence: Sentence = { words, half: false };
    const ways: (readonly Tree[])[] = [];
    compiled.step(sentence, 0, null, (at, trail) => {
      if (at === words.length) ways.push(unroll(trail));
    });
    return { ways, half: sentence.half };
  }

  #compile(node: GrammarNode): Compiled {
    switch (node.node) {
      case 'word':
        return word(node.word);
      case 'sequence':
        return sequence(node.items.map((item) => this.#compile(item)));
      case 'one-of':
        return oneOf(node.branches.map((branch) => this.#compile(branch.item)));
      case 'optional':
        return optional(this.#compile(node.item), node.greedy === true);
      case 'rule':
        return this.#rule(node.name);
    }
  }

  #rule(name: string): Compiled {
    const known = this.#compiled.get(name);
    if (known !== undefined) return known;
    const body = this.#rules[name];
    assert(body !== undefined, `rule <${name}> is written down`);
    const inner = this.#compile(body);
    assert(!inner.empty, `rule <${name}> covers at least one word`);
    const compiled: Compiled = {
      first: inner.first,
      empty: false,
      step: (sentence, from, trail, then) =>
        inner.step(sentence, from, trail, (to, inside) => {
          // What was added to the trail since this rule began is inside it.
          const children: Tree[] = [];
          let rest = inside;
          while (rest !== trail && rest !== null) {
            children.push(rest.tree);
            rest = rest.before;
          }
          then(to, { tree: { rule: name, from, to, children: children.reverse() }, before: trail });
        }),
    };
    this.#compiled.set(name, compiled);
    return compiled;
  }
}

function unroll(trail: Trail): readonly Tree[] {
  const trees: Tree[] = [];
  for (let rest = trail; rest !== null; rest = rest.before) trees.push(rest.tree);
  return trees.reverse();
}

function word(text: string): Compiled {
  return {
    first: new Set([text]),
    empty: false,
    step: (sentence, at, trail, then) => {
      if (at === sentence.words.length) sentence.half = true;
      else if (sentence.words[at] === text) then(at + 1, trail);
    },
  };
}

function sequence(items: readonly Compiled[]): Compiled {
  const first = new Set<string>();
  let empty = true;
  for (const item of items) {
    if (empty) item.first.forEach((each) => first.add(each));
    empty &&= item.empty;
  }
  const from = (index: number, sentence: Sentence, at: number, trail: Trail, then: Then): void => {
    const item = items[index];
    if (item === undefined) then(at, trail);
    else item.step(sentence, at, trail, (next, longer) => from(index + 1, sentence, next, longer, then));
  };
  return { first, empty, step: (sentence, at, trail, then) => from(0, sentence, at, trail, then) };
}

function oneOf(branches: readonly Compiled[]): Compiled {
  const byWord = new Map<string, Compiled[]>();
  const empties = branches.filter((branch) => branch.empty);
  for (const branch of branches)
    for (const each of branch.first) {
      const list = byWord.get(each) ?? [...empties];
      if (!branch.empty) list.push(branch);
      byWord.set(each, list);
    }
  return {
    first: new Set(byWord.keys()),
    empty: empties.length > 0,
    step: (sentence, at, trail, then) => {
      const next = sentence.words[at];
      if (next === undefined) sentence.half = true;
      for (const branch of (next === undefined ? undefined : byWord.get(next)) ?? empties) branch.step(sentence, at, trail, then);
    },
  };
}

function optional(item: Compiled, greedy: boolean): Compiled {
  return {
    first: item.first,
    empty: true,
    step: (sentence, at, trail, then) => {
      const next = sentence.words[at];
      const there = { found: false };
      if (next !== undefined && item.first.has(next)) {
        item.step(sentence, at, trail, (to, longer) => {
          there.found = true;
          then(to, longer);
        });
      }
      if (!(greedy && there.found)) then(at, trail);
    },
  };
}
