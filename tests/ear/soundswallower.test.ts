import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { assembleModel, packagedManifest } from '../../src/cli/modelFiles.ts';
import { engineNamed, hearSound, openEngine, readWav, utterancesOf, type Recogniser } from '../../src/ear/index.ts';
import { fullGrammar, vocabulary, type Grammar } from '../../src/phrasebook/index.ts';

/** Synthetic speech; see the README beside it. */
function fixture(name: string): Float32Array {
  const read = readWav(readFileSync(new URL(`../fixtures/wav/${name}.wav`, import.meta.url)));
  if (!read.ok) throw new Error(read.error.key);
  return read.value.samples;
}

const oneOf = (key: string, ...phrases: string[]): Grammar => ({
  key,
  root: {
    node: 'one-of',
    branches: phrases.map((phrase) => ({
      item: { node: 'sequence', items: phrase.split(' ').map((word) => ({ node: 'word', word })) },
    })),
  },
  rules: {},
});

let ear: Recogniser;
beforeAll(async () => {
  const { model, files } = await assembleModel(engineNamed(await packagedManifest(), 'soundswallower'), vocabulary());
  ear = await openEngine(model, files);
}, 60_000);
afterAll(() => ear.close());

describe('the packaged recogniser on synthetic speech', () => {
  test.each([
    ['synthetic-next', 'next'],
    ['synthetic-reads-627', 'reads six twenty seven'],
    ['synthetic-how-much-left', 'how much left'],
  ])(
    '%s among everything that can be said',
    async (name, text) => {
      const [heard] = await hearSound(ear, fixture(name), fullGrammar, 'by-ear');
      expect(heard?.text).toBe(text);
      expect(heard?.accepted).toBe(true);
    },
    60_000,
  );

  test('three things in one file are three hypotheses, in order, with times inside their utterance', async () => {
    const grammar = oneOf('three', 'next', 'reads six twenty seven', 'how much left', 'done');
    const heard = await hearSound(ear, fixture('synthetic-three-things'), grammar, 'by-ear');
    expect(heard.map((each) => each.text)).toEqual(['next', 'reads six twenty seven', 'how much left']);
    for (const { words } of heard) for (const { startS, endS } of words) expect(endS).toBeGreaterThan(startS);
  }, 60_000);

  test('a grammar is what is listened for: the same sound, other phrases', async () => {
    const [heard] = await hearSound(ear, fixture('synthetic-next'), oneOf('other', 'how much left', 'done'), 'whole');
    expect(heard?.text).not.toBe('next');
  }, 60_000);

  test('silence is refused as silence', async () => {
    const [heard] = await hearSound(ear, new Float32Array(16_000), fullGrammar, 'whole');
    expect(heard).toMatchObject({ accepted: false, reason: 'silence', text: '' });
  });

  test('a word without a pronunciation is a fault of the grammar, told by name', async () => {
    await expect(ear.open(oneOf('odd', 'next grommet'))).rejects.toThrow(/"odd" cannot be compiled/u);
    // The engine is not spoilt by it.
    const [heard] = await hearSound(ear, fixture('synthetic-next'), oneOf('plain', 'next', 'done'), 'whole');
    expect(heard?.text).toBe('next');
  }, 60_000);

  test('sound without an utterance is our own mistake', async () => {
    await ear.open(fullGrammar);
    ear.accept(new Float32Array(160));
    await ear.finish();
    expect(() => ear.accept(new Float32Array(160))).toThrow(/before an utterance was opened/u);
  }, 60_000);
});

test('utterances in a file are found with a little sound around them', () => {
  const found = utterancesOf(fixture('synthetic-three-things'));
  expect(found.length).toBe(3);
  found.forEach(({ from, to }, at) => {
    expect((to - from) / 16_000).toBeGreaterThan(0.3);
    if (at > 0) expect(from).toBeGreaterThanOrEqual(found[at - 1]!.to);
  });
});
