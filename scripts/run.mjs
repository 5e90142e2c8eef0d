import { spawn } from 'node:child_process';
import { resolve } from 'node:path';
import { ensurePackages } from './setup/packages.mjs';
import { root, say } from './setup/root.mjs';

/*
 * `node scripts/run.mjs FILE ARGS…` runs a TypeScript file of the project after installing what is missing. Paths among the
 * arguments are the caller's, so the working directory is the one that npm was called in.
 */
const [file, ...args] = process.argv.slice(2);
if (file === undefined) throw new Error('Usage: node scripts/run.mjs FILE [ARGUMENT]…');

try {
  await ensurePackages();
  const child = spawn(process.execPath, [resolve(root, 'node_modules/tsx/dist/cli.mjs'), resolve(root, file), ...args], {
    cwd: process.env['INIT_CWD'] ?? process.cwd(),
    stdio: 'inherit',
  });
  child.on('close', (code) => (process.exitCode = code ?? 1));
} catch (error) {
  say(error instanceof Error ? error.message : String(error));
  process.exitCode = 1;
}
