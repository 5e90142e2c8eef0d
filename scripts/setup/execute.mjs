import { spawn } from 'node:child_process';
import { root } from './root.mjs';

/**
 * How a command ended. `output` is its standard output and standard error together where it was captured, else empty;
 * a command that could not be started at all ends with code 127.
 * @typedef {{ readonly code: number, readonly output: string }} Ending
 */

/**
 * Runs a command in the project's folder to its end. With `capture` its output is kept, otherwise all of it goes to standard
 * error, so that a set-up step never writes on standard output.
 * @param {string} command
 * @param {readonly string[]} args
 * @param {{ capture?: boolean, env?: NodeJS.ProcessEnv, timeoutMs?: number }} [options]
 * @returns {Promise<Ending>}
 */
export function execute(command, args, { capture = false, env = {}, timeoutMs } = {}) {
  return new Promise((done) => {
    let output = '';
    const child = spawn(command, args, {
      cwd: root,
      env: { ...process.env, ...env },
      stdio: ['ignore', capture ? 'pipe' : 2, capture ? 'pipe' : 2],
    });
    // The time limit that spawn offers keeps running after a command that could not be started.
    const limit = timeoutMs === undefined ? undefined : setTimeout(() => child.kill(), timeoutMs);
    const end = (/** @type {Ending} */ ending) => {
      clearTimeout(limit);
      done(ending);
    };
    child.stdout?.on('data', (chunk) => (output += String(chunk)));
    child.stderr?.on('data', (chunk) => (output += String(chunk)));
    child.on('error', (error) => end({ code: 127, output: error.message }));
    child.on('close', (code) => end({ code: code ?? 1, output }));
  });
}

/**
 * Runs a JavaScript file of the project, or of one of its packages, under this same Node.
 * @param {string} file path from the project's folder
 * @param {readonly string[]} args
 * @param {Parameters<typeof execute>[2]} [options]
 */
export const executeNode = (file, args, options) => execute(process.execPath, [file, ...args], options);
