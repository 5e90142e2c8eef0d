import type { Plugin } from 'vite';

/** The pieces of the first load, the lowest first: what each may import is in those before it. */
const PIECES: readonly (readonly [name: string, files: RegExp])[] = [
  ['react', /\/node_modules\/(react|react-dom|scheduler|zustand)\//],
  ['zod-core', /\/node_modules\/zod\/v4\/core\//],
  ['zod', /\/node_modules\/zod\//],
  ['libraries', /\/node_modules\//],
  ['measure', /\/src\/measure\//],
  ['trade', /\/src\/trade\//],
  ['fields', /\/src\/part\/(fields|limits|datum)\.ts/],
  ['features', /\/src\/part\/(chain|turned|milled|endFeature)\.ts/],
  ['part', /\/src\/part\//],
  ['route', /\/src\/route\//],
  ['coach', /\/src\/(coach|setups)\//],
  ['job', /\/src\/job\//],
  ['phrasebook', /\/src\/phrasebook\//],
  ['shelf', /\/src\/(shelf|ear)\//],
  ['screens', /\/src\/screens\//],
];

/** The first load cut into one script a room, so that no one of them keeps the browser from drawing for long. */
export const pieces = {
  groups: PIECES.map(([name, files], at) => ({
    name,
    test: files,
    priority: PIECES.length - at,
    tags: ['$initial' as const],
  })),
};

/** Resolves in a task of its own, after what the browser has to do has been done. */
const PAUSE = `await new Promise((go) => {
  const { port1, port2 } = new MessageChannel();
  port1.onmessage = () => go(port1.close());
  port2.postMessage(null);
});`;

/**
 * Lets the browser draw and take input before each piece of the first load is run: they are one graph of modules, which it would
 * else run through in one go.
 */
export const pauses = (): Plugin => ({
  name: 'swarfside-pauses',
  apply: 'build',
  renderChunk: (code, { name }) => (PIECES.some(([piece]) => piece === name) ? { code: `${PAUSE}\n${code}`, map: null } : null),
});
