import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { cutDictionary, loadFiles, readManifest, readPronunciations, sha256 } from '../ear/index.ts';
import type { EngineModel, ModelFiles, ModelManifest } from '../ear/index.ts';

const MODELS = new URL('../../models/', import.meta.url);

/** The repository's own manifest, which names the packaged files. */
export async function packagedManifest(): Promise<ModelManifest> {
  return readManifest(JSON.parse(await readFile(new URL('manifest.json', MODELS), 'utf8')));
}

/** Bytes of a file inside an installed package, whatever the package exports. */
async function packaged(name: string, path: string): Promise<Uint8Array<ArrayBuffer>> {
  const folder = dirname(createRequire(import.meta.url).resolve(name));
  return new Uint8Array(await readFile(join(folder, path)));
}

/** Bytes of a file that lies under models/. */
async function own(path: string): Promise<Uint8Array<ArrayBuffer>> {
  return new Uint8Array(await readFile(new URL(path, MODELS)));
}

/**
 * An engine's files as they are used: each packaged file held against the manifest, the dictionary cut to `words`; and the
 * manifest of what results. Throws where a word has no pronunciation.
 */
export async function assembleModel(
  model: EngineModel,
  words: readonly string[],
): Promise<{ readonly files: ModelFiles; readonly model: EngineModel }> {
  const sources = await loadFiles(model, (name) => {
    const from = model.files.find((file) => file.name === name)?.from;
    if (from === undefined) return Promise.reject(new Error(`${name} has no source`));
    return from.package === undefined ? own(from.path) : packaged(from.package, from.path);
  });
  const files = new Map(sources);
  for (const file of model.files) {
    if (file.made !== 'cut to the vocabulary') continue;
    const text = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);
    const own = readPronunciations(await readFile(new URL('pronunciations.txt', MODELS), 'utf8'));
    const cut = cutDictionary(readPronunciations(text(sources.get(file.name) ?? new Uint8Array())), own, words);
    if (cut.missing.length > 0)
      throw new Error(`words without a pronunciation; add them to models/pronunciations.txt: ${cut.missing.join(', ')}`);
    files.set(file.name, new TextEncoder().encode(cut.text));
  }
  const built = await Promise.all(
    model.files.map(async ({ name }) => {
      const bytes = new Uint8Array(files.get(name) ?? []);
      return { name, bytes: bytes.length, sha256: await sha256(bytes) };
    }),
  );
  return { files, model: { ...model, files: built } };
}
