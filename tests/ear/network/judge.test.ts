import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isUnsettled, judgeTogether, type Judged } from '../../../src/ear/network/judge.ts';

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
