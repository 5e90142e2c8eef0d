import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { readWav, writeWav } from '../../../src/ear/index.ts';
import { openSynthesiser, type Synthesiser } from '../../clips/flite.ts';
import type { BenchPhrase } from './phrases.ts';

const FOLDER = new URL('../../../.cache/bench-ear/', import.meta.url);
const RATE_HZ = 16_000;
/** Silence around a phrase, as a button held a little too long leaves it. */
const AROUND_S = 0.3;
/** The synthesiser reads these words as the language has them; the shop says them so. */
const SHOP = '"thou" nil : th aw1\n';

/** Renders phrases, or takes them from the cache of an earlier run; a phrase that the synthesiser will not say is left out. */
export async function speak(phrases: readonly BenchPhrase[]): Promise<ReadonlyMap<BenchPhrase, Float32Array>> {
  mkdirSync(FOLDER, { recursive: true });
  const synthesisers = new Map<string, Synthesiser>();
  const spoken = new Map<BenchPhrase, Float32Array>();
  for (const phrase of phrases) {
    const { words, voice, stretch } = phrase;
    const file = new URL(`${createHash('sha256').update(`${voice} ${stretch} ${words}`).digest('hex').slice(0, 24)}.wav`, FOLDER);
    if (!existsSync(file)) {
      const key = `${voice} ${stretch}`;
      const synthesiser = synthesisers.get(key) ?? (await openSynthesiser(voice, stretch, SHOP));
      synthesisers.set(key, synthesiser);
      const { sound, startS, endS } = await synthesiser.render(words);
      const speech = sound.slice(Math.max(0, startS - 0.05) * RATE_HZ, (endS + 0.05) * RATE_HZ);
      const samples = new Float32Array(speech.length + 2 * AROUND_S * RATE_HZ);
      samples.set(
        speech.map((sample) => sample * 0.5),
        AROUND_S * RATE_HZ,
      );
      writeFileSync(file, writeWav({ samples, rateHz: RATE_HZ }));
    }
    const read = readWav(new Uint8Array(readFileSync(file)));
    if (!read.ok) throw new Error(`the cache of the bench is damaged: ${read.error.key}; remove .cache/bench-ear`);
    spoken.set(phrase, read.value.samples);
  }
  synthesisers.forEach((synthesiser) => synthesiser.close());
  return spoken;
}
