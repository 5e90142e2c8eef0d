/**
 * Writes models/manifest.json: the sizes and sums of the files of each engine, the default engine first. Run it after an engine's
 * files change (`npx tsx scripts/models/manifest.ts`), and look at what changed before it is committed.
 */
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

const PACKAGE = 'soundswallower';
const FILES = ['mdef', 'means', 'variances', 'sendump', 'transition_matrices', 'feat_params.json', 'noisedict.txt', 'dict.txt'];
const MODELS = new URL('../../models/', import.meta.url);
const NETWORK = 'swarfnet/swarfnet.onnx';

const folder = dirname(createRequire(import.meta.url).resolve(PACKAGE));
const { version } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as { version: string };

const entry = (name: string, bytes: Buffer, from: { readonly package?: string; readonly path: string }) => ({
  name,
  bytes: bytes.length,
  sha256: createHash('sha256').update(bytes).digest('hex'),
  from,
  ...(name === 'dict.txt' ? { made: 'cut to the vocabulary' } : {}),
});

function packaged(name: string) {
  const path = `model/en-us/${name}`;
  return entry(name, readFileSync(join(folder, path)), { package: PACKAGE, path });
}

const network = existsSync(new URL(NETWORK, MODELS))
  ? [
      {
        name: 'swarfnet',
        engine: 'swarfnet',
        engineVersion: '1',
        language: 'en-US',
        licence: 'MIT; what it was trained on is in models/training/README.md; dictionary: CMU Pronouncing Dictionary, BSD-2-Clause',
        source: 'trained by models/training',
        files: [entry('swarfnet.onnx', readFileSync(new URL(NETWORK, MODELS)), { path: NETWORK }), packaged('dict.txt')],
      },
    ]
  : [];

const manifest = {
  version: 1,
  engines: [
    ...network,
    {
      name: 'soundswallower',
      engine: 'soundswallower',
      engineVersion: version,
      language: 'en-US',
      licence:
        'engine MIT; acoustic model BSD-2-Clause (Alpha Cephei Inc.); dictionary: CMU Pronouncing Dictionary, BSD-2-Clause',
      source: 'the npm package soundswallower, folder model/en-us: CMU Sphinx en-us ptm 8 kHz 5.2',
      files: FILES.map(packaged),
    },
  ],
};

writeFileSync(new URL('manifest.json', MODELS), `${JSON.stringify(manifest, null, 2)}\n`);
