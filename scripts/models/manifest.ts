/**
 * Writes models/manifest.json: the sizes and sums of the packaged files of each engine. Run it after the version of an engine
 * changes (`npx tsx scripts/models/manifest.ts`), and look at what changed before it is committed.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { createHash } from 'node:crypto';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

const NAME = 'soundswallower';
const FILES = ['mdef', 'means', 'variances', 'sendump', 'transition_matrices', 'feat_params.json', 'noisedict.txt', 'dict.txt'];

const folder = dirname(createRequire(import.meta.url).resolve(NAME));
const { version } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as { version: string };

const files = FILES.map((name) => {
  const path = `model/en-us/${name}`;
  const bytes = readFileSync(join(folder, path));
  return {
    name,
    bytes: bytes.length,
    sha256: createHash('sha256').update(bytes).digest('hex'),
    from: { package: NAME, path },
    ...(name === 'dict.txt' ? { made: 'cut to the vocabulary' } : {}),
  };
});

const manifest = {
  version: 1,
  engines: [
    {
      name: 'soundswallower',
      engine: 'soundswallower',
      engineVersion: version,
      language: 'en-US',
      licence: 'engine MIT; acoustic model BSD-2-Clause (Alpha Cephei Inc.); dictionary: CMU Pronouncing Dictionary, BSD-2-Clause',
      source: 'the npm package soundswallower, folder model/en-us: CMU Sphinx en-us ptm 8 kHz 5.2',
      files,
    },
  ],
};

writeFileSync(new URL('../../models/manifest.json', import.meta.url), `${JSON.stringify(manifest, null, 2)}\n`);
