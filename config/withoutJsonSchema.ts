import { readFileSync } from 'node:fs';
import type { Plugin } from 'vite';

const LEFT_OUT = /\/zod\/v4\/core\/(json-schema-processors|to-json-schema)\.js$/;

/**
 * Leaves out of the page zod's writing of JSON Schema, which every schema refers to and nothing here calls: 5.6 kB gzipped of
 * the first load. Whoever calls it all the same is told so.
 */
export const withoutJsonSchema = (): Plugin => ({
  name: 'swarfside-without-json-schema',
  apply: 'build',
  enforce: 'pre',
  load(id) {
    if (!LEFT_OUT.test(id)) return null;
    const names = [...readFileSync(id, 'utf8').matchAll(/^export (?:const|function) (\w+)/gm)].map(([, name]) => name ?? '');
    const none = "const none = () => { throw new Error('This page is built without JSON Schema.'); };";
    return `${none}\nexport { ${names.map((name) => `none as ${name}`).join(', ')} };\n`;
  },
});
