import type { Grammar } from '../phrasebook/index.ts';
import { wordGraph, type WordGraph } from './word-graph.ts';

/** The steps of a job go to and fro between a few grammars; each reading makes a new one. */
const KEPT = 8;

const kept = new Map<string, WordGraph>();

/** The word graph of a grammar, from an earlier call where its key is known; one store a thread, for engine and endpointing. */
export function cachedWordGraph(grammar: Grammar): WordGraph {
  const graph = kept.get(grammar.key) ?? wordGraph(grammar);
  // Set again at the end of the map, so that the one longest unused is the first.
  kept.delete(grammar.key);
  kept.set(grammar.key, graph);
  for (const oldest of kept.keys()) {
    if (kept.size <= KEPT) break;
    kept.delete(oldest);
  }
  return graph;
}
