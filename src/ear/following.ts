import type { WordGraph } from './word-graph.ts';

/**
 * What may still come after words that were heard: nothing; words, though the phrase is whole; figures, where people pause
 * ("six twenty … seven and a half"); or something must come, since no phrase ends here.
 */
export type Following = 'nothing' | 'words' | 'figures' | 'unfinished';

const FIGURES = new Set(
  (
    'oh zero nought one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen ' +
    'nineteen twenty thirty forty fifty sixty seventy eighty ninety hundred point half'
  ).split(' '),
);

export function following(graph: WordGraph, words: readonly string[]): Following {
  let at = 0;
  for (const word of words) {
    const arc = graph.states[at]!.arcs.find((each) => each.word === word);
    if (arc === undefined) return 'unfinished';
    at = arc.to;
  }
  const { exit, arcs } = graph.states[at]!;
  if (exit === null) return 'unfinished';
  if (arcs.length === 0) return 'nothing';
  return arcs.some((arc) => FIGURES.has(arc.word)) ? 'figures' : 'words';
}

/** How long a silence must last to be the end, by what may follow; docs/ear.md says what each was chosen on. */
export const PATIENCE_MS: Readonly<Record<Following, number>> = { nothing: 240, words: 400, figures: 600, unfinished: 900 };
