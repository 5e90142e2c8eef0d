import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clipFingerprint } from '../../scripts/clips/fingerprint.ts';
import { wantedClips } from '../../scripts/clips/wanted.ts';
import { PHRASES, type PhraseId, type Piece } from '../../src/job/index.ts';
import { nanometres } from '../../src/measure/index.ts';
import { speakReply } from '../../src/phrasebook/index.ts';
import { clipListSchema, openClips, planAnswer, VOICE_RATE_HZ } from '../../src/voice/index.ts';

const list: unknown = JSON.parse(readFileSync(new URL('../../public/voice/clips.json', import.meta.url), 'utf8'));
const sprite = new Uint8Array(readFileSync(new URL('../../public/voice/clips.bin', import.meta.url)));
const { clips, sha256 } = clipListSchema.parse(list);
const wanted = wantedClips();

describe('the committed clips', () => {
  it('hold every phrase, number word, caution, spoken line of the demo jobs and trade word, as they read today', () => {
    const missing = wanted.filter((clip) => clips[clip.key]?.made !== clipFingerprint(clip)).map((clip) => `${clip.key} (${clip.reason})`);
    expect(missing, 'render them with: npm run clips').toEqual([]);
  });

  it('hold nothing that is not wanted', () => {
    const keys = new Set(wanted.map((clip) => clip.key));
    expect(Object.keys(clips).filter((key) => !keys.has(key)), 'drop them with: npm run clips').toEqual([]);
  });

  it('are the sprite that the list was written for', () => {
    expect(createHash('sha256').update(sprite).digest('hex')).toBe(sha256);
    expect(openClips(list, sprite).ok).toBe(true);
  });

  it('are spelled out: no figures, for those are read differently at every machine', () => {
    expect(wanted.filter((clip) => /[0-9]/.test(clip.key))).toEqual([]);
  });

  it('sound: each is loud, below full scale, at rest at both ends, and shorter than five seconds', () => {
    const book = openClips(list, sprite);
    if (!book.ok) throw new Error(book.error.fault);
    for (const key of Object.keys(clips)) {
      const sound = book.value.sound(key)!;
      const peak = sound.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
      expect(peak, key).toBeGreaterThan(0.2);
      expect(peak, key).toBeLessThan(0.999);
      expect(Math.abs(sound[0]!), key).toBeLessThan(0.02);
      expect(Math.abs(sound.at(-1)!), key).toBeLessThan(0.02);
      expect(sound.length, key).toBeLessThan(5 * VOICE_RATE_HZ);
    }
  });
});

describe('every answer can be spoken without a voice of the device', () => {
  const book = openClips(list, sprite);
  const unspoken = (pieces: readonly Piece[], unit: 'inch' | 'millimetre'): readonly string[] => {
    if (!book.ok) throw new Error(book.error.fault);
    const steps = planAnswer(speakReply({ tone: null, pieces, unit }), book.value, false);
    return steps.flatMap((step) => (step.step === 'unspoken' ? [step.text] : []));
  };

  it.each(Object.keys(PHRASES) as PhraseId[])('the phrase %s, as one clip', (phrase) => {
    if (!book.ok) throw new Error(book.error.fault);
    expect(planAnswer(speakReply({ tone: null, pieces: [{ say: 'phrase', phrase }], unit: 'inch' }), book.value, false)).toHaveLength(1);
  });

  it('sizes, amounts and counts in either unit (seed 22)', () => {
    const length = fc.integer({ min: 0, max: 1_000_000 }).map((tenths) => nanometres(tenths * 2_540));
    const piece = fc.oneof(
      fc.record({ say: fc.constantFrom('size' as const, 'amount' as const, 'bare-amount' as const), length }),
      fc.record({ say: fc.constant('count' as const), count: fc.integer({ min: 0, max: 9999 }) }),
    );
    fc.assert(
      fc.property(piece, fc.constantFrom('inch' as const, 'millimetre' as const), (said, unit) => {
        expect(unspoken([said], unit)).toEqual([]);
      }),
      { seed: 22, numRuns: 300 },
    );
  });
});
