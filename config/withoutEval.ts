import type { Plugin } from 'vite';

const SETTINGS = /\/zod\/v4\/core\/core\.js$/;

/**
 * Tells zod beforehand that the page allows no code made from text. It would find out by trying, which the browser's rules for
 * the page refuse and note as an issue; its checks are the same either way.
 */
export const withoutEval = (): Plugin => ({
  name: 'swarfside-without-eval',
  apply: 'build',
  transform: (code, id) => (SETTINGS.test(id) ? { code: `${code}\nglobalConfig.jitless = true;\n`, map: null } : null),
});
