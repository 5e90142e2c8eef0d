import { readFile } from 'node:fs/promises';
import { basename } from 'node:path';
import { describeFileFault, readJobFile, type JobFile } from '../shelf/index.ts';
import { InputFault } from './fault.ts';

/** The demo jobs by the names that the terminal knows them by. */
const DEMOS: Readonly<Record<string, URL>> = {
  'demo:inch': new URL('../shelf/demos/inch.job.json', import.meta.url),
  'demo:metric': new URL('../shelf/demos/metric.job.json', import.meta.url),
};

/** Why the operating system would not give a file, in plain words. */
function whyNot(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  if (code === 'ENOENT') return 'there is no such file; check the path';
  if (code === 'EISDIR') return 'that is a folder; name a file';
  if (code === 'EACCES') return 'it may not be read; check its permissions';
  return `it cannot be read (${code === '' ? String(error) : code})`;
}

/** The bytes of a file named on the command line, or an `InputFault` that names it. */
export async function readInput(path: string): Promise<Buffer> {
  try {
    return await readFile(path);
  } catch (error) {
    throw new InputFault(`${path}: ${whyNot(error)}`);
  }
}

/** A job by name (`demo:inch`, `demo:metric`) or from a file; nothing is written. */
export async function openJob(name: string): Promise<JobFile> {
  const demo = DEMOS[name];
  if (demo === undefined && name.startsWith('demo:'))
    throw new InputFault(`${name}: no demo is called that; there are ${Object.keys(DEMOS).join(' and ')}`);
  const text = demo === undefined ? (await readInput(name)).toString('utf8') : await readFile(demo, 'utf8');
  const read = readJobFile(text);
  if (!read.ok) throw new InputFault(describeFileFault(read.error, demo === undefined ? basename(name) : name));
  return read.value;
}
