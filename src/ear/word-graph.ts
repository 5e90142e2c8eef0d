import { assert } from '../measure/index.ts';
import type { Grammar, GrammarNode } from '../phrasebook/index.ts';

/**
 * A grammar as a minimal deterministic word graph: state 0 is the start, an arc's `cost` is minus the natural logarithm of its
 * weight, and `exit` is the cost of ending in a state, null where a phrase may not end. No state is reached but by its words, and
 * there is no way round: a grammar is finite. Both the decoders that take a network of words and the checks of what can follow
 * read this one form.
 */
export type WordGraph = { readonly states: readonly WordState[] };
export type WordState = { readonly exit: number | null; readonly arcs: readonly WordArc[] };
export type WordArc = { readonly word: string; readonly to: number; readonly cost: number };

/** A state of the first, non-deterministic form: what may be passed in silence, and the words that lead on. */
type Loose = { readonly silent: { readonly to: number; readonly cost: number }[]; readonly words: WordArc[] };

/** Costs closer than this are one cost, so that rounding does not keep equal states apart. */
const COST_GRAIN = 1e-6;
const grained = (cost: number): number => Math.round(cost / COST_GRAIN) * COST_GRAIN;

/**
 * Builds from the end backwards: a piece of grammar is laid once for each state that may follow it, so that the number at the
 * end of fifty commands is laid once and not fifty times.
 */
function layOut(grammar: Grammar): { readonly loose: readonly Loose[]; readonly start: number; readonly end: number } {
  const loose: Loose[] = [];
  const laid = new Map<GrammarNode | string, Map<number, number>>();
  const open = new Set<string>();
  const add = (): number => loose.push({ silent: [], words: [] }) - 1;

  function lay(node: GrammarNode, next: number): number {
    const key = node.node === 'word' ? `word ${node.word}` : node.node === 'rule' ? `rule ${node.name}` : node;
    let byNext = laid.get(key);
    if (byNext === undefined) laid.set(key, (byNext = new Map<number, number>()));
    const known = byNext.get(next);
    if (known !== undefined) return known;
    const start = layNew(node, next);
    byNext.set(next, start);
    return start;
  }

  function layNew(node: GrammarNode, next: number): number {
    switch (node.node) {
      case 'word': {
        const at = add();
        loose[at]!.words.push({ word: node.word, to: next, cost: 0 });
        return at;
      }
      case 'sequence':
        return node.items.reduceRight((after, item) => lay(item, after), next);
      case 'one-of': {
        const at = add();
        for (const { item, weight = 1 } of node.branches) {
          assert(weight > 0 && Number.isFinite(weight), `a branch has the weight ${weight}`);
          loose[at]!.silent.push({ to: lay(item, next), cost: -Math.log(weight) });
        }
        return at;
      }
      case 'optional': {
        const at = add();
        loose[at]!.silent.push({ to: lay(node.item, next), cost: 0 }, { to: next, cost: 0 });
        return at;
      }
      case 'rule': {
        const rule = grammar.rules[node.name];
        assert(rule !== undefined, `the grammar ${grammar.key} has no rule "${node.name}"`);
        assert(!open.has(node.name), `the rule "${node.name}" of ${grammar.key} refers to itself`);
        open.add(node.name);
        const at = lay(rule, next);
        open.delete(node.name);
        return at;
      }
    }
  }

  const end = add();
  return { loose, start: lay(grammar.root, end), end };
}

/** Where one may be at once, with what it has cost above the cheapest of them. */
type Subset = Map<number, number>;

function follow(loose: readonly Loose[], from: Subset): Subset {
  const reached: Subset = new Map(from);
  const queue = [...from.keys()];
  for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
    const cost = reached.get(at)!;
    for (const edge of loose[at]!.silent) {
      const through = cost + edge.cost;
      if (through >= (reached.get(edge.to) ?? Infinity)) continue;
      reached.set(edge.to, through);
      queue.push(edge.to);
    }
  }
  return reached;
}

const nameOf = (subset: Subset): string =>
  [...subset]
    .sort(([a], [b]) => a - b)
    .map(([state, cost]) => (cost === 0 ? `${state}` : `${state}:${cost.toFixed(6)}`))
    .join(' ');

/** One state for each set of places where the same words lead, the costs paid as early as can be. */
function determinise({ loose, start, end }: ReturnType<typeof layOut>): WordState[] {
  const states: { exit: number | null; arcs: WordArc[] }[] = [];
  const known = new Map<string, number>();
  const queue: { readonly id: number; readonly subset: Subset }[] = [];
  function stateFor(subset: Subset): number {
    const name = nameOf(subset);
    const id = known.get(name);
    if (id !== undefined) return id;
    const added = states.push({ exit: null, arcs: [] }) - 1;
    known.set(name, added);
    queue.push({ id: added, subset });
    return added;
  }
  stateFor(new Map([[start, 0]]));
  for (let next = queue.pop(); next !== undefined; next = queue.pop()) {
    const here = follow(loose, next.subset);
    const exit = here.get(end);
    const byWord = new Map<string, Subset>();
    for (const [at, cost] of here)
      for (const arc of loose[at]!.words) {
        let targets = byWord.get(arc.word);
        if (targets === undefined) byWord.set(arc.word, (targets = new Map<number, number>()));
        targets.set(arc.to, Math.min(cost + arc.cost, targets.get(arc.to) ?? Infinity));
      }
    const state = states[next.id]!;
    state.exit = exit === undefined ? null : grained(exit);
    for (const [word, targets] of byWord) {
      const cheapest = Math.min(...targets.values());
      const rest: Subset = new Map([...targets].map(([at, cost]) => [at, grained(cost - cheapest)]));
      state.arcs.push({ word, to: stateFor(rest), cost: grained(cheapest) });
    }
  }
  return states;
}

/** Merges states from which exactly the same can follow. The graph has no way round, so one pass from its ends is enough. */
function minimise(states: readonly WordState[]): WordGraph {
  const kept: WordState[] = [];
  const byFollowing = new Map<string, number>();
  const merged = new Map<number, number>();
  function place(id: number): number {
    const known = merged.get(id);
    if (known !== undefined) return known;
    const { exit, arcs } = states[id]!;
    const placed = arcs.map((arc) => ({ ...arc, to: place(arc.to) })).sort((a, b) => (a.word < b.word ? -1 : 1));
    const following = `${exit ?? '-'} ${placed.map((arc) => `${arc.word} ${arc.to} ${arc.cost}`).join(' ')}`;
    let at = byFollowing.get(following);
    if (at === undefined) {
      at = kept.push({ exit, arcs: placed }) - 1;
      byFollowing.set(following, at);
    }
    merged.set(id, at);
    return at;
  }
  const start = place(0);
  // The start is laid last; it is put first, since state 0 is the start.
  const order = kept.map((_, index) => (index === start ? 0 : index < start ? index + 1 : index));
  const states0 = new Array<WordState>(kept.length);
  kept.forEach((state, index) => {
    states0[order[index]!] = { exit: state.exit, arcs: state.arcs.map((arc) => ({ ...arc, to: order[arc.to]! })) };
  });
  return { states: states0 };
}

/** The word graph of a grammar. Throws where a rule is missing, refers to itself, or a weight is not above zero. */
export function wordGraph(grammar: Grammar): WordGraph {
  return minimise(determinise(layOut(grammar)));
}

/** Whether these words, in this order, are a whole phrase of the graph. */
export function accepts(graph: WordGraph, words: readonly string[]): boolean {
  let at = 0;
  for (const word of words) {
    const arc = graph.states[at]!.arcs.find((each) => each.word === word);
    if (arc === undefined) return false;
    at = arc.to;
  }
  return graph.states[at]!.exit !== null;
}

/** Every word of the graph, once. */
export function wordsOf(graph: WordGraph): readonly string[] {
  return [...new Set(graph.states.flatMap((state) => state.arcs.map((arc) => arc.word)))].sort();
}
