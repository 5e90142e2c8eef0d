import { readPronunciations } from './lexicon.ts';
import type { EngineModel, ModelFiles } from './manifest.ts';
import { EngineFault, type Recogniser } from './recogniser.ts';

/** What an engine needs besides its model: where the page keeps the network runtime's WebAssembly; null in Node. */
export type EngineSurroundings = { readonly networkRuntimeUrl: string | null };

/**
 * The recogniser that a model is for, loaded only when it is asked for. A new engine is one more branch here and one more name in
 * the manifest.
 */
export async function openEngine(
  model: EngineModel,
  files: ModelFiles,
  { networkRuntimeUrl }: EngineSurroundings = { networkRuntimeUrl: null },
): Promise<Recogniser> {
  switch (model.engine) {
    case 'soundswallower':
      return (await import('./soundswallower.ts')).openSoundswallower(files);
    case 'swarfnet': {
      const { openSwarfnet } = await import('./network/index.ts');
      const pronunciations = readPronunciations(new TextDecoder().decode(fileOf(files, 'dict.txt')));
      return openSwarfnet({ model: fileOf(files, 'swarfnet.onnx'), pronunciations, wasmUrl: networkRuntimeUrl });
    }
  }
}

function fileOf(files: ModelFiles, name: string): Uint8Array {
  const bytes = files.get(name);
  if (bytes === undefined) throw new EngineFault('model', `the recogniser's file "${name}" is missing`);
  return bytes;
}
