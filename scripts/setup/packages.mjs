import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { execute } from './execute.mjs';
import { root, say } from './root.mjs';

/** @typedef {{ readonly packages: Readonly<Record<string, { version?: string, optional?: boolean, link?: boolean }>> }} Lock */

/**
 * Whether the installed packages are the locked ones. npm keeps a copy of the lock file inside node_modules, so no marker of
 * our own is needed; packages for other machines (optional ones) may be absent.
 * @param {Lock} lock what package-lock.json asks for
 * @param {Lock} installed what node_modules/.package-lock.json says is there
 */
export function packagesMatch(lock, installed) {
  return Object.entries(lock.packages).every(([path, wanted]) => {
    if (path === '') return true;
    const found = installed.packages[path];
    return found === undefined ? wanted.optional === true : found.version === wanted.version;
  });
}

/**
 * @param {string} file
 * @returns {Lock}
 */
const readLock = (file) => JSON.parse(readFileSync(join(root, file), 'utf8'));

/**
 * Whether a version of Node is the oldest that will do, or a later one.
 * @param {string} version as `process.versions.node` gives it
 * @param {string} oldest major and minor
 */
export function nodeWillDo(version, oldest) {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  const [oldestMajor = 0, oldestMinor = 0] = oldest.split('.').map(Number);
  return major > oldestMajor || (major === oldestMajor && minor >= oldestMinor);
}

/** Installs the locked packages where they are missing or differ from the lock file. Throws with one line when that fails. */
export async function ensurePackages() {
  /** @type {{ engines: { node: string } }} */
  const { engines } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  const oldest = engines.node.replace('>=', '');
  if (!nodeWillDo(process.versions.node, oldest)) {
    throw new Error(`Swarfside needs Node ${oldest} or later; this is Node ${process.versions.node}.`);
  }
  const installedLock = 'node_modules/.package-lock.json';
  if (existsSync(join(root, installedLock)) && packagesMatch(readLock('package-lock.json'), readLock(installedLock))) return;
  say('Installing packages …');
  const args = ['ci', '--include=dev', '--loglevel=error', '--no-fund', '--no-audit'];
  // Under npm, its own script is known and needs no shell; otherwise npm is looked for on the path.
  const npmScript = process.env['npm_execpath'];
  const { code } =
    npmScript !== undefined && npmScript.endsWith('.js')
      ? await execute(process.execPath, [npmScript, ...args])
      : await execute('npm', args);
  if (code !== 0) throw new Error(`Installing packages failed: npm ended with code ${code}.`);
}
