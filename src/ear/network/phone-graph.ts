import { PHONES, type Pronunciations } from '../lexicon.ts';
import { EngineFault } from '../recogniser.ts';
import type { WordGraph } from '../word-graph.ts';

/**
 * A word graph spelt out in phones. Nodes with a 1 in `betweenWords` are states of the word graph, `start` one of them; the rest
 * lie inside words that begin alike. Edges lie by the node that they leave: those of node n are `firstEdge[n]` up to
 * `firstEdge[n + 1]`. An edge that ends a word has its `word`, others have -1. `cost` is paid on the edge that ends the word.
 * `arc` tells words in different places of the grammar apart.
 */
export type PhoneGraph = {
  readonly words: readonly string[];
  readonly nodes: number;
  readonly start: number;
  readonly betweenWords: Uint8Array;
  readonly exit: Float32Array;
  readonly firstEdge: Int32Array;
  readonly to: Int32Array;
  readonly phone: Uint8Array;
  readonly word: Int32Array;
  readonly arc: Int32Array;
  readonly cost: Float32Array;
  /** Phones of the whole pronunciation, on the edge that ends it. */
  readonly length: Uint8Array;
};

type Edge = {
  readonly to: number;
  readonly phone: number;
  readonly word: number;
  readonly arc: number;
  readonly cost: number;
  readonly length: number;
};

/** Output of the network by phone: 0 is the blank. */
const NUMBER: ReadonlyMap<string, number> = new Map(PHONES.map((phone, at) => [phone, at + 1]));

/** Throws `EngineFault` for a word without a pronunciation. */
export function phoneGraph(graph: WordGraph, sounds: Pronunciations): PhoneGraph {
  const words: string[] = [];
  const wordNumber = new Map<string, number>();
  const edges: Edge[][] = graph.states.map(() => []);
  let arcs = 0;
  graph.states.forEach((state, from) => {
    const inner = new Map<string, number>();
    for (const arc of state.arcs) {
      const pronunciations = sounds.get(arc.word);
      if (pronunciations === undefined) throw new EngineFault('grammar', `"${arc.word}" has no pronunciation`);
      let word = wordNumber.get(arc.word);
      if (word === undefined) wordNumber.set(arc.word, (word = words.push(arc.word) - 1));
      const number = arcs;
      arcs += 1;
      for (const pronunciation of new Set(pronunciations)) {
        const phones = pronunciation.split(' ').map((phone) => NUMBER.get(phone));
        let node = from;
        let prefix = '';
        phones.forEach((phone, at) => {
          if (phone === undefined)
            throw new EngineFault('grammar', `"${arc.word}" is pronounced with an unknown phone: ${pronunciation}`);
          if (at === phones.length - 1) {
            edges[node]!.push({ to: arc.to, phone, word, arc: number, cost: arc.cost, length: phones.length });
            return;
          }
          prefix += ` ${phone}`;
          let next = inner.get(prefix);
          if (next === undefined) {
            next = edges.push([]) - 1;
            inner.set(prefix, next);
            edges[node]!.push({ to: next, phone, word: -1, arc: -1, cost: 0, length: 0 });
          }
          node = next;
        });
      }
    }
  });
  const flat = edges.flat();
  const firstEdge = new Int32Array(edges.length + 1);
  edges.forEach((list, at) => (firstEdge[at + 1] = firstEdge[at]! + list.length));
  return {
    words,
    nodes: edges.length,
    start: 0,
    betweenWords: Uint8Array.from(edges, (_, at) => (at < graph.states.length ? 1 : 0)),
    exit: Float32Array.from(edges, (_, at) => graph.states[at]?.exit ?? Infinity),
    firstEdge,
    to: Int32Array.from(flat, (edge) => edge.to),
    phone: Uint8Array.from(flat, (edge) => edge.phone),
    word: Int32Array.from(flat, (edge) => edge.word),
    arc: Int32Array.from(flat, (edge) => edge.arc),
    cost: Float32Array.from(flat, (edge) => edge.cost),
    length: Uint8Array.from(flat, (edge) => edge.length),
  };
}
