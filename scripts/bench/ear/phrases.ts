import { readFileSync } from 'node:fs';
import { accepts, wordGraph } from '../../../src/ear/index.ts';
import { fullGrammar, wordsOf } from '../../../src/phrasebook/index.ts';
import { between, seeded } from '../../../src/cli/noise/random.ts';
import { corpus } from '../../../tests/phrasebook/corpus.ts';
import type { ContextName } from '../../../tests/phrasebook/contexts.ts';

/** The synthetic voices of the bench; no model here has ever been trained or tuned on them. */
export const BENCH_VOICES = ['slt', 'rms'] as const;

/** A phrase to be rendered: its words, who says it and how fast, and the moment in which it is said. Talk is to be refused. */
export type BenchPhrase = {
  readonly words: string;
  readonly context: ContextName;
  readonly voice: (typeof BENCH_VOICES)[number];
  readonly stretch: number;
  readonly kind: 'phrase' | 'talk';
};

/** Takes so many of a list, evenly spread. */
function spread<T>(list: readonly T[], count: number): T[] {
  if (list.length <= count) return [...list];
  return Array.from({ length: count }, (_, at) => list[Math.floor((at * list.length) / count)]!);
}

const talkOf = (path: string): string[] =>
  readFileSync(new URL(path, import.meta.url), 'utf8')
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '' && !line.startsWith('#'));

/**
 * The phrases of the bench: `count` lines of the phrasebook's own corpus, over every intent and number form, and talk that is
 * no command, from the hard negatives of the corpus and sentences written for measuring. The same every time.
 */
export function benchPhrases(count: number): readonly BenchPhrase[] {
  const graph = wordGraph(fullGrammar);
  const random = seeded(606);
  const say = (words: string, context: ContextName, kind: BenchPhrase['kind']): BenchPhrase => ({
    words,
    context,
    kind,
    voice: BENCH_VOICES[random() < 0.5 ? 0 : 1],
    stretch: Math.round(between(random, 0.85, 1.25) * 20) / 20,
  });
  const seen = new Set<string>();
  const lines = corpus.flatMap(({ lines }) => lines);
  const commands = lines.flatMap((line) => {
    const words = wordsOf(line.words).join(' ');
    if (line.intent === undefined || seen.has(words) || !accepts(graph, words.split(' '))) return [];
    seen.add(words);
    return [{ words, context: line.context }];
  });
  const negatives = lines.flatMap((line) => {
    const words = wordsOf(line.words).join(' ');
    return line.unheard === '*' && words.split(' ').length > 2 && !accepts(graph, words.split(' ')) ? [words] : [];
  });
  const talk = [...negatives, ...talkOf('../../../models/training/talk-held-out.txt')];
  return [
    ...spread(commands, count).map(({ words, context }) => say(words, context, 'phrase')),
    ...spread(talk, Math.ceil(count / 4)).map((words) => say(words, 'inch .620', 'talk')),
  ];
}
