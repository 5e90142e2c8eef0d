import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { root } from '../../scripts/setup/root.mjs';

const dist = join(root, 'dist');
/** Imports that are followed before the page runs; `import(…)` is not one. */
const STATIC_IMPORT = /(?:\bfrom|\bimport)\s*["'](\.[^"']+\.js)["']/g;

/** The scripts that the page needs before it shows anything, with what each of them imports. */
function firstLoad(): ReadonlyMap<string, string> {
  const scripts = new Map<string, string>();
  const follow = (path: string): void => {
    if (scripts.has(path)) return;
    const code = readFileSync(join(dist, path), 'utf8');
    scripts.set(path, code);
    for (const [, imported] of code.matchAll(STATIC_IMPORT)) follow(join(dirname(path), imported ?? ''));
  };
  const page = readFileSync(join(dist, 'index.html'), 'utf8');
  for (const [, source] of page.matchAll(/"(\.\/assets\/[^"]+\.js)"/g)) follow(join('.', source ?? ''));
  return scripts;
}

describe('the first load of the built page', () => {
  const scripts = firstLoad();
  const sizes = [...scripts].map(([path, code]) => ({ path, gzipped: gzipSync(code).length }));

  test('is under 180 kB of JavaScript, gzipped', () => {
    expect(scripts.size).toBeGreaterThan(1);
    const all = sizes.reduce((sum, { gzipped }) => sum + gzipped, 0);
    expect(all, sizes.map(({ path, gzipped }) => `${path}: ${gzipped}`).join('\n')).toBeLessThan(180_000);
  });

  test('has the machine page in it, and neither the recogniser nor the desk', () => {
    const code = [...scripts.values()].join('\n');
    expect(code).toContain('Hold to talk');
    expect(code).not.toContain('soundswallower');
    expect(code).not.toContain('Still wanted');
  });

  test('has its styles in the page itself, and nothing fetches them again', () => {
    expect(readFileSync(join(dist, 'index.html'), 'utf8')).toMatch(/<style>[^<]*\.machine\b/);
    const styles = readdirSync(join(dist, 'assets')).filter((file) => file.endsWith('.css'));
    for (const file of styles) expect(readFileSync(join(dist, 'assets', file), 'utf8'), file).not.toMatch(/\.starting\b/);
    const named = [...scripts.values()].flatMap((code) => Array.from(code.matchAll(/"\.\/([\w-]+\.css)"/g), ([, file]) => file));
    expect(styles).toEqual(expect.arrayContaining(named));
  });
});
