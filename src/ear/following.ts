import type { WordGraph } from './word-graph.ts';

/**
 * What may still come after words that were heard: nothing; words, though the phrase is whole; the rest of a number that is whole
 * as it is ("six twenty seven … and a half"); figures, where people pause most ("six twenty … seven"); or something must come,
 * since no phrase ends here.
 */
export type Following = 'nothing' | 'words' | 'rest' | 'figures' | 'unfinished';

const FIGURES = new Set(
  (
    'oh zero nought one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen ' +
    'nineteen twenty thirty forty fifty sixty seventy eighty ninety hundred point half'
  ).split(' '),
);

/** Where so many figures may follow, a whole number may ("no … six twenty"); fewer belong to a phrase ("next one"). */
const NUMBER_FROM = 5;
/** A number of so many words is whole more often than not. */
const WHOLE_FROM = 3;

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
  const figures = arcs.filter((arc) => FIGURES.has(arc.word)).length;
  const before = words.findLastIndex((word) => !FIGURES.has(word));
  const said = words.length - 1 - before;
  if (figures === 0 || (said === 0 && figures < NUMBER_FROM)) return 'words';
  return said >= WHOLE_FROM ? 'rest' : 'figures';
}

/** How long a silence must last to be the end, by what may follow; docs/ear.md says what each was chosen on. */
export const PATIENCE_MS: Readonly<Record<Following, number>> = {
  nothing: 220,
  words: 300,
  rest: 460,
  figures: 600,
  unfinished: 900,
};
