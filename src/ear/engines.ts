import type { EngineModel, ModelFiles } from './manifest.ts';
import type { Recogniser } from './recogniser.ts';
import { openSoundswallower } from './soundswallower.ts';

/** The recogniser that a model is for. A new engine is one more branch here and one more name in the manifest. */
export function openEngine(model: EngineModel, files: ModelFiles): Promise<Recogniser> {
  switch (model.engine) {
    case 'soundswallower':
      return openSoundswallower(files);
  }
}
