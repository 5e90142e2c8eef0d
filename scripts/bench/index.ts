/**
 * Lists the measurements in this folder, or runs the ones that are named: `npm run bench -- NAME…`. A measurement is a file of
 * this folder that runs by itself (`*-page.ts` is what one puts into a browser); the first sentence of its opening comment says
 * what it measures.
 */
import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const folder = fileURLToPath(new URL('.', import.meta.url));
const names = readdirSync(folder)
  .filter((file) => file.endsWith('.ts') && !file.endsWith('-page.ts') && file !== 'index.ts')
  .map((file) => file.slice(0, -'.ts'.length))
  .sort();

/** What a measurement says that it is: the first sentence of its opening comment. */
function purpose(name: string): string {
  const comment = /^\/\*\*?([\s\S]*?)\*\//.exec(readFileSync(`${folder}${name}.ts`, 'utf8'))?.[1] ?? '';
  return /^[^.:]*/.exec(comment.replace(/\s*\n\s*\*?\s*/g, ' ').trim())?.[0] ?? '';
}

const words = process.argv.slice(2);
/** What follows the names from the first option on is the measurement's own. */
const options = words.findIndex((word) => word.startsWith('-'));
const asked = options < 0 ? words : words.slice(0, options);
const unknown = asked.filter((name) => !names.includes(name));
if (unknown.length > 0) {
  process.stderr.write(`No such measurement: ${unknown.join(', ')}. There are: ${names.join(', ')}.\n`);
  process.exitCode = 2;
} else if (asked.length === 0) {
  process.stdout.write('npm run bench -- NAME… runs a measurement; docs/benchmarks.md says how to read it.\n');
  for (const name of names) process.stdout.write(`  ${name.padEnd(16)} ${purpose(name)}\n`);
} else {
  for (const name of asked) {
    const { status } = spawnSync(
      process.execPath,
      [...process.execArgv, `${folder}${name}.ts`, ...(options < 0 ? [] : words.slice(options))],
      { stdio: 'inherit' },
    );
    if (status !== 0) process.exitCode = status ?? 1;
  }
}
