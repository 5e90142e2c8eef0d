import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { wordGraph } from '../../../src/ear/index.ts';
import { allBut } from '../../../src/ear/network/all-but.ts';
import { phoneGraph } from '../../../src/ear/network/phone-graph.ts';
import { bestPath, freeScore, type PhoneScores, type Search } from '../../../src/ear/network/viterbi.ts';
import type { Grammar, GrammarNode } from '../../../src/phrasebook/index.ts';

const EVERYTHING: Search = { beam: Infinity, most: Infinity, wordCost: 0, weightScale: 1, blankCost: 0 };
/** Phones 1 to 3 are AA, AE and AH. */
const SOUNDS = new Map([
  ['a', ['AA']],
  ['b', ['AE AH']],
  ['c', ['AA AA', 'AH']],
]);
const word = (text: string): GrammarNode => ({ node: 'word', word: text });
const phrases = (...texts: string[]): Grammar => ({
  key: texts.join(),
  root: {
    node: 'one-of',
    branches: texts.map((text) => ({ item: { node: 'sequence', items: text.split(' ').map(word) } })),
  },
  rules: {},
});
const TEXTS = ['a', 'a a', 'b', 'b a', 'c', 'c b a', 'a c'];
const graph = phoneGraph(wordGraph(phrases(...TEXTS)), SOUNDS);

/** The best alignment of a row of phones, by the sums of connectionist temporal classification (Graves and others, 2006). */
function aligned({ log, steps, classes }: PhoneScores, labels: readonly number[]): number {
  const spread = [0, ...labels.flatMap((label) => [label, 0])];
  let row = spread.map((label, at) => (at < 2 ? log[label]! : -Infinity));
  for (let step = 1; step < steps; step += 1) {
    row = spread.map((label, at) => {
      const skip = at > 1 && label !== 0 && spread[at - 2] !== label ? row[at - 2]! : -Infinity;
      return Math.max(row[at]!, at > 0 ? row[at - 1]! : -Infinity, skip) + log[step * classes + label]!;
    });
  }
  return Math.max(row.at(-1)!, row.at(-2)!);
}

/** Every row of phones that a text can be said as. */
function rows(text: string): number[][] {
  const number = { AA: 1, AE: 2, AH: 3 } as const;
  const numbers = (said: string): number[] => said.split(' ').map((phone) => number[phone as keyof typeof number]);
  return text
    .split(' ')
    .reduce<
      number[][]
    >((fronts, each) => fronts.flatMap((front) => SOUNDS.get(each)!.map((said) => [...front, ...numbers(said)])), [[]]);
}

const scores = (rowsOf: readonly (readonly number[])[]): PhoneScores => {
  const log = rowsOf.flatMap((row) => {
    const total = row.reduce((sum, x) => sum + x, 0);
    return row.map((x) => Math.log(x / total));
  });
  return { log: Float32Array.from(log), steps: rowsOf.length, classes: 4 };
};
const chance = fc.double({ min: 0.01, max: 1, noNaN: true });
const heard = fc.array(fc.tuple(chance, chance, chance, chance), { minLength: 6, maxLength: 12 }).map(scores);
const textOf = (path: ReturnType<typeof bestPath>): string => path?.words.map((each) => graph.words[each.word]).join(' ') ?? '';

describe('the search', () => {
  it('finds the best of all phrases, whichever way it is sought (seed 11)', () => {
    fc.assert(
      fc.property(heard, (sound) => {
        const best = Math.max(...TEXTS.flatMap(rows).map((labels) => aligned(sound, labels)));
        const path = bestPath(graph, sound, EVERYTHING)!;
        expect(path.score).toBeCloseTo(best, 3);
        expect(Math.max(...rows(textOf(path)).map((labels) => aligned(sound, labels)))).toBeCloseTo(best, 3);
        expect(path.score).toBeLessThanOrEqual(freeScore(sound, 0) + 1e-4);
      }),
      { seed: 11 },
    );
  });

  it('finds the second best in the graph of all but the best (seed 12)', () => {
    fc.assert(
      fc.property(heard, (sound) => {
        const best = bestPath(graph, sound, EVERYTHING)!;
        const second = bestPath(allBut(graph, best), sound, EVERYTHING)!;
        const rest = TEXTS.filter((text) => text !== textOf(best)).flatMap(rows);
        const wanted = Math.max(...rest.map((labels) => aligned(sound, labels)));
        expect(second.score).toBeCloseTo(wanted, 3);
        expect(textOf(second)).not.toBe(textOf(best));
        expect(Math.max(...rows(textOf(second)).map((labels) => aligned(sound, labels)))).toBeCloseTo(wanted, 3);
      }),
      { seed: 12 },
    );
  });

  it('a cost of blanks is the same as quieter blanks (seed 13)', () => {
    fc.assert(
      fc.property(heard, fc.double({ min: 0, max: 4, noNaN: true }), (sound, blankCost) => {
        const log = sound.log.map((value, at) => (at % sound.classes === 0 ? value - blankCost : value));
        const within = bestPath(graph, sound, { ...EVERYTHING, blankCost })!;
        const outside = bestPath(graph, { ...sound, log }, EVERYTHING)!;
        expect(within.score).toBeCloseTo(outside.score, 3);
        expect(freeScore(sound, blankCost)).toBeCloseTo(freeScore({ ...sound, log }, 0), 3);
      }),
      { seed: 13 },
    );
  });

  it('finds each of all phrases once, from the best to the last (seed 14)', () => {
    fc.assert(
      fc.property(heard, (sound) => {
        const found: string[] = [];
        let last = Infinity;
        for (let rest = graph; found.length < TEXTS.length; ) {
          const path = bestPath(rest, sound, EVERYTHING)!;
          expect(path.score).toBeLessThanOrEqual(last + 1e-4);
          last = path.score;
          found.push(textOf(path));
          rest = allBut(rest, path);
        }
        expect(found.toSorted()).toEqual(TEXTS.toSorted());
      }),
      { seed: 14, numRuns: 50 },
    );
  });

  it('goes on with the likeliest where there are more than it may keep (seed 15)', () => {
    const many = phoneGraph(wordGraph(phrases(...TEXTS, 'b b b', 'c c', 'b c a')), SOUNDS);
    let fewer = 0;
    fc.assert(
      fc.property(heard, (sound) => {
        const whole = bestPath(many, sound, { ...EVERYTHING, beam: 50 })!.score;
        const kept = (most: number): number => bestPath(many, sound, { ...EVERYTHING, beam: 50, most })?.score ?? -Infinity;
        expect(kept(1_000)).toBe(whole);
        if (kept(1) < whole) fewer += 1;
        expect(kept(1)).toBeLessThanOrEqual(whole);
      }),
      { seed: 15 },
    );
    expect(fewer).toBeGreaterThan(0);
  });

  it('tells when each word was said', () => {
    const quiet = [0.97, 0.01, 0.01, 0.01];
    const [aa, ae, ah] = [
      [0.01, 0.97, 0.01, 0.01],
      [0.01, 0.01, 0.97, 0.01],
      [0.01, 0.01, 0.01, 0.97],
    ];
    const path = bestPath(graph, scores([quiet, ae, quiet, ah, quiet, quiet, aa, quiet]), EVERYTHING);
    expect(path?.words.map(({ word: said, from, to, phones }) => [graph.words[said], from, to, phones])).toEqual([
      ['b', 1, 3, 2],
      ['a', 6, 6, 1],
    ]);
  });

  it('gives nothing when there is no time for any phrase', () => {
    const onlyLong = phoneGraph(wordGraph(phrases('c b a')), SOUNDS);
    expect(bestPath(onlyLong, scores([[1, 1, 1, 1]]), EVERYTHING)).toBeNull();
  });

  it('says which word has no pronunciation', () => {
    expect(() => phoneGraph(wordGraph(phrases('xylem')), SOUNDS)).toThrow('"xylem" has no pronunciation');
  });
});
