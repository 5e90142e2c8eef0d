import type { Plugin } from 'vite';

const SETTINGS = /\/zod\/v4\/core\/core\.js$/;
const WRITER = /\/zod\/v4\/core\/doc\.js$/;

/**
 * Tells zod beforehand that the page allows no code made from text, and leaves out what would write it. It would find out by
 * trying, which the browser's rules for the page refuse and note as an issue; its checks are the same either way.
 */
export const withoutEval = (): Plugin => ({
  name: 'swarfside-without-eval',
  apply: 'build',
  enforce: 'pre',
  load: (id) =>
    WRITER.test(id) ? "export class Doc { constructor() { throw new Error('No code is made from text here.'); } }\n" : null,
  transform: (code, id) => (SETTINGS.test(id) ? { code: `${code}\nglobalConfig.jitless = true;\n`, map: null } : null),
});
