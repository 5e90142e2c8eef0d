import { PHONES, phoneWord } from './lexicon.ts';
import type { WordGraph } from './word-graph.ts';

/** Any speech sound after any other, at the same price: what an utterance is held against to see whether words explain it. */
export function phoneLoop(): WordGraph {
  const arcs = PHONES.map((phone) => ({ word: phoneWord(phone), to: 1, cost: 0 }));
  return {
    states: [
      { exit: null, arcs },
      { exit: 0, arcs },
    ],
  };
}
