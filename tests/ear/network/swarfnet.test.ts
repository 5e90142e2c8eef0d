import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readPronunciations, readWav, type Recogniser } from '../../../src/ear/index.ts';
import { openSwarfnet } from '../../../src/ear/network/index.ts';
import { fullGrammar } from '../../../src/phrasebook/index.ts';

const file = (path: string): Buffer => readFileSync(new URL(`../../../${path}`, import.meta.url));

/** Synthetic speech of voices that training never heard. */
function sound(name: string): Float32Array {
  const read = readWav(new Uint8Array(file(`tests/fixtures/wav/${name}.wav`)));
  if (!read.ok) throw new Error(name);
  return read.value.samples;
}

let ear: Recogniser;
beforeAll(async () => {
  const pronunciations = new Map([
    ...readPronunciations(file('node_modules/soundswallower/model/en-us/dict.txt').toString('latin1')),
    ...readPronunciations(file('models/pronunciations.txt').toString('utf8')),
  ]);
  ear = await openSwarfnet({ model: file('models/swarfnet/swarfnet.onnx'), pronunciations, wasmUrl: null });
}, 120_000);
afterAll(() => ear.close());

async function hear(samples: Float32Array): ReturnType<Recogniser['finish']> {
  await ear.open(fullGrammar);
  for (let at = 0; at < samples.length; at += 1000) ear.accept(samples.subarray(at, at + 1000));
  return ear.finish();
}

describe('the recogniser of our own', () => {
  it.each([
    ['synthetic-next', 'next'],
    ['synthetic-how-much-left', 'how much left'],
    ['synthetic-reads-627', 'reads six twenty seven'],
  ])('hears %s', { timeout: 60_000 }, async (name, said) => {
    const heard = await hear(sound(name));
    expect([heard.text, heard.accepted]).toEqual([said, true]);
    for (const [at, word] of heard.words.entries()) {
      expect(word.startS).toBeLessThan(word.endS);
      expect(word.startS).toBeGreaterThanOrEqual(heard.words[at - 1]?.startS ?? 0);
    }
  });

  it.each([
    ['talk', () => sound('synthetic-talk'), ['not-in-grammar', 'unsure']],
    ['silence', () => new Float32Array(16_000), ['not-speech']],
    ['hardly any sound', () => new Float32Array(100), ['too-short']],
  ])('refuses %s', { timeout: 60_000 }, async (_, samples, reasons) => {
    const heard = await hear(samples());
    expect(heard.accepted).toBe(false);
    expect(reasons).toContain(heard.reason);
  });

  it('wants an utterance opened first', async () => {
    expect(() => ear.accept(new Float32Array(10))).toThrow('before an utterance was opened');
    await expect(ear.finish()).rejects.toThrow('not opened');
  });
});
