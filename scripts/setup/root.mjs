import { dirname, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder of the project, whatever the working directory is. */
export const root = resolve(dirname(fileURLToPath(import.meta.url)), '../..');

/**
 * A line for the person at the terminal. Always on standard error: standard output belongs to results.
 * @param {string} line
 */
export const say = (line) => void process.stderr.write(`${line}\n`);
