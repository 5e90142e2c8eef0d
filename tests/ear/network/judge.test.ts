import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { wordGraph } from '../../../src/ear/index.ts';
import { isUnsettled, judge, judgeTogether, type Judged } from '../../../src/ear/network/judge.ts';
import { phoneGraph } from '../../../src/ear/network/phone-graph.ts';
import type { PhoneScores } from '../../../src/ear/network/viterbi.ts';

/** A view that heard these words, believed so much, and as far ahead of the second best. */
const view = (text: string, confidence: number, ahead = 4): Judged => ({
  words: [],
  text,
  confidence,
  accepted: confidence >= 0.6,
  reason: confidence >= 0.6 ? null : 'unsure',
  fillerScore: 0,
  alternatives: [{ text: 'nine', confidence: confidence / 50 }],
  evidence: { short: 0, ahead, phones: 10 },
});
const nothing: Judged = { ...view('', 0), evidence: null, reason: 'not-in-grammar', alternatives: [] };

describe('a second look at a sound', () => {
  it.each([
    ['clear and sure', 0.96, true, false],
    ['as sure in noise', 0.96, false, true],
    ['surest in noise', 0.995, false, false],
    ['unsure', 0.7, true, true],
    ['hopeless', 0.04, true, false],
  ])('is taken or not: %s', (_, confidence, clear, taken) => {
    expect(isUnsettled(view('next', confidence), clear)).toBe(taken);
  });

  it('is not taken where nothing in the grammar fits', () => {
    expect(isUnsettled(nothing, true)).toBe(false);
  });

  it('takes the words of the surest view', () => {
    expect(judgeTogether(view('three', 0.5), [view('reads six', 0.8), view('three', 0.6)], true).text).toBe('reads six');
  });

  it('keeps the first where no view fits the grammar', () => {
    expect(judgeTogether(nothing, [nothing, nothing], true)).toBe(nothing);
  });

  it('says why what it no longer believes is refused', () => {
    const doubted = judgeTogether(view('next', 0.62, 0.1), [view('oh', 0.3, 0.1), view('no', 0.3, 0.1)], false);
    expect([doubted.accepted, doubted.reason]).toEqual([false, 'unsure']);
  });

  const confidence = fc.double({ min: 0.05, max: 0.99, noNaN: true });
  it('believes views that agree more than views that differ, and clear sound at least as much as noise (seed 61)', () => {
    fc.assert(
      fc.property(confidence, confidence, confidence, fc.double({ min: 0, max: 12, noNaN: true }), (a, b, c, ahead) => {
        const first = view('next', Math.max(a, b, c), ahead);
        const together = (one: string, other: string, clear: boolean): number =>
          judgeTogether(first, [view(one, Math.min(a, b), ahead), view(other, Math.min(b, c), ahead)], clear).confidence;
        expect(together('next', 'next', false)).toBeGreaterThan(together('next', 'no', false));
        expect(together('next', 'no', false)).toBeGreaterThan(together('no', 'oh', false));
        expect(together('next', 'next', true)).toBeGreaterThanOrEqual(together('next', 'next', false));
      }),
      { seed: 61 },
    );
  });
});

/** What a network that is sure hears of so many AA, each with a blank after it. */
function soundOf(count: number): PhoneScores {
  const [steps, classes] = [2 * count, 40];
  const log = new Float32Array(steps * classes).fill(Math.log(0.0001));
  for (let step = 0; step < steps; step += 1) log[step * classes + (step % 2 === 0 ? 1 : 0)] = Math.log(0.99);
  return { log, steps, classes };
}

describe('a long row of words', () => {
  it.each([
    [12, true, null],
    [13, false, 'too-long'],
  ])('is nothing that anybody says: %i words', (count, accepted, reason) => {
    const items = Array.from({ length: count }, () => ({ node: 'word', word: 'ah' }) as const);
    const graph = phoneGraph(
      wordGraph({ key: `${count} words`, root: { node: 'sequence', items }, rules: {} }),
      new Map([['ah', ['AA']]]),
    );
    const judged = judge(graph, soundOf(count), 0);
    expect([judged.accepted, judged.reason]).toEqual([accepted, reason]);
  });
});

describe('what the moment makes likely', () => {
  /** How far "ah" falls short of a sound of it, beside another word, by what the moment gives it for weight. */
  function shortAt(weight: number): number {
    const item = (word: string) => ({ node: 'word', word }) as const;
    const root = { node: 'one-of', branches: [{ item: item('ah'), weight }, { item: item('eh') }] } as const;
    const sounds = new Map([
      ['ah', ['AA']],
      ['eh', ['EH']],
    ]);
    const judged = judge(phoneGraph(wordGraph({ key: `${weight}`, root, rules: {} }), sounds), soundOf(1), 0);
    expect(judged.text).toBe('ah');
    return judged.evidence!.short;
  }

  it('does not make up for a sound that is not there', () => {
    expect(shortAt(100)).toBeCloseTo(shortAt(1), 5);
  });

  it('is wanting where the phrase is unlikely', () => {
    expect(shortAt(0.01)).toBeGreaterThan(shortAt(1) + 1);
  });
});
