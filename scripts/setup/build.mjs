import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { executeNode } from './execute.mjs';
import { root, say } from './root.mjs';

/** Everything that the built page is made from. */
const SOURCES = ['index.html', 'src', 'public', 'models', 'config', 'scripts/models', 'package-lock.json'];

/** Outside dist, which is served as it is. */
const MARKER = join(root, 'node_modules/.cache/swarfside/built-from');

/**
 * @param {string} path from the project's folder
 * @returns {string[]} the files at or below it, sorted
 */
function filesAt(path) {
  const full = join(root, path);
  if (!existsSync(full)) return [];
  if (!statSync(full).isDirectory()) return [path];
  return readdirSync(full).sort().flatMap((name) => filesAt(`${path}/${name}`));
}

/** A digest of the names and contents of all sources. */
function sourceDigest() {
  const hash = createHash('sha256');
  for (const file of SOURCES.flatMap(filesAt)) hash.update(`${file}\0`).update(readFileSync(join(root, file))).update('\0');
  return hash.digest('hex');
}

/** Builds the page into dist/. Throws with one line, after the builder's own output, when that fails. */
export async function build() {
  rmSync(MARKER, { force: true });
  const digest = sourceDigest();
  const { code, output } = await executeNode(
    'node_modules/vite/bin/vite.js',
    ['build', '--config', 'config/vite.config.ts', '--logLevel', 'warn'],
    { capture: true },
  );
  if (code !== 0) throw new Error(`${output.trim()}\nBuilding the page failed.`);
  mkdirSync(dirname(MARKER), { recursive: true });
  writeFileSync(MARKER, digest);
}

/** Builds the page unless dist/ was built from exactly these sources. */
export async function ensureBuild() {
  const current = existsSync(join(root, 'dist/index.html')) && existsSync(MARKER);
  if (current && readFileSync(MARKER, 'utf8') === sourceDigest()) return;
  say('Building the page …');
  await build();
}
