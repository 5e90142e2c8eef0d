import { tsImport } from 'tsx/esm/api';
import type { Plugin } from 'vite';
import type * as ModelFiles from '../../src/cli/modelFiles.ts';
import type { ModelManifest } from '../../src/ear/index.ts';
import type * as Phrasebook from '../../src/phrasebook/index.ts';

/**
 * The rooms' own sources, loaded as they are: whoever reads the build's configuration would otherwise bundle them into it, the
 * page's worklets and workers included.
 */
const sources = async (): Promise<typeof ModelFiles & Pick<typeof Phrasebook, 'vocabulary'>> => {
  const [files, phrasebook] = await Promise.all([
    tsImport('../../src/cli/modelFiles.ts', import.meta.url) as Promise<typeof ModelFiles>,
    tsImport('../../src/phrasebook/index.ts', import.meta.url) as Promise<typeof Phrasebook>,
  ]);
  return { ...files, vocabulary: phrasebook.vocabulary };
};

/** The folder of the page where the recogniser's files lie: `models/manifest.json` and `models/ENGINE/FILE`. */
const FOLDER = 'models/';

type Built = ReadonlyMap<string, Uint8Array>;

/** The default engine as the page gets it, by path under the page; the others are for the terminal and the bench alone. */
async function build(): Promise<Built> {
  const { assembleModel, packagedManifest, vocabulary } = await sources();
  const packaged = await packagedManifest();
  const [engine] = packaged.engines;
  if (engine === undefined) throw new Error('models/manifest.json names no engine');
  const { files, model } = await assembleModel(engine, vocabulary());
  const manifest: ModelManifest = { ...packaged, engines: [model] };
  return new Map([
    ...[...files].map(([name, bytes]): [string, Uint8Array] => [`${FOLDER}${engine.name}/${name}`, bytes]),
    [`${FOLDER}manifest.json`, new TextEncoder().encode(`${JSON.stringify(manifest, null, 1)}\n`)],
  ]);
}

/** Puts the recogniser's files beside the page: served while developing, emitted by a build, as models/manifest.json says. */
export function modelFiles(): Plugin {
  return {
    name: 'swarfside-models',
    configureServer(server) {
      const built = build();
      // A failure is told at the first request, and not as an unhandled rejection.
      built.catch(() => undefined);
      server.middlewares.use((request, response, next) => {
        const path = (request.url ?? '').replace(/^\//u, '').replace(/[?#].*$/u, '');
        if (!path.startsWith(FOLDER)) return next();
        built.then(
          (files) => {
            const bytes = files.get(path);
            if (bytes === undefined) return next();
            response.setHeader('content-type', path.endsWith('.json') ? 'application/json' : 'application/octet-stream');
            response.end(bytes);
          },
          (error: unknown) => next(error),
        );
      });
    },
    async generateBundle() {
      for (const [fileName, source] of await build()) this.emitFile({ type: 'asset', fileName, source });
    },
  };
}
