import { describe, expect, test } from 'vitest';
import { assembleModel, packagedManifest } from '../../src/cli/modelFiles.ts';
import { engineNamed, loadFiles, readManifest, sha256, type EngineModel } from '../../src/ear/index.ts';

const bytes = new Uint8Array([1, 2, 3]);
const engine: EngineModel = {
  name: 'e',
  engine: 'soundswallower',
  engineVersion: '1',
  language: 'en-US',
  licence: 'MIT',
  source: 'a test',
  // sha256 of the bytes 01 02 03, from the command sha256sum.
  files: [{ name: 'f', bytes: 3, sha256: '039058c6f2c0cb492c533b0a4d14ef77cc0f78abccced5287d84a1a2011cfb81' }],
};

describe('loadFiles', () => {
  test('gives files that are what the manifest says', async () => {
    expect((await loadFiles(engine, () => Promise.resolve(bytes))).get('f')).toEqual(bytes);
  });
  test.each([
    ['one that is changed', () => Promise.resolve(new Uint8Array([1, 2, 4])), /"f" is not the one of the manifest/u],
    ['one that is cut off', () => Promise.resolve(new Uint8Array([1, 2])), /"f" has 2 bytes and should have 3/u],
    ['one that is absent', () => Promise.reject(new Error('404')), /"f" could not be read/u],
  ])('refuses %s, by name', async (_, fetchFile, message) => {
    await expect(loadFiles(engine, fetchFile)).rejects.toThrow(message);
    await expect(loadFiles(engine, fetchFile)).rejects.toMatchObject({ part: 'model' });
  });
});

describe('readManifest', () => {
  test.each([
    ['no engines', { version: 1, engines: [] }, /"engines"/u],
    [
      'a sum that is none',
      { version: 1, engines: [{ ...engine, files: [{ name: 'f', bytes: 3, sha256: 'abc' }] }] },
      /engines\.0\.files\.0\.sha256/u,
    ],
    ['a later version', { version: 2, engines: [engine] }, /"version"/u],
  ])('refuses %s and says where', (_, json, message) => {
    expect(() => readManifest(json)).toThrow(message);
  });
  test('an engine that does not exist is answered with those that do', () => {
    expect(() => engineNamed({ version: 1, engines: [engine] }, 'x')).toThrow('no recogniser is called "x"; there are: e');
  });
});

test("the repository's manifest holds for the installed packages, and the built one for what is built", async () => {
  for (const model of (await packagedManifest()).engines) {
    const built = await assembleModel(model, ['next']);
    for (const { name, sha256: sum, bytes: length } of built.model.files) {
      const file = new Uint8Array(built.files.get(name)!);
      expect(file.length).toBe(length);
      expect(await sha256(file)).toBe(sum);
    }
  }
});
