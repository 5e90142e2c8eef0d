/**
 * Lighthouse against the served build: performance, accessibility and best practices, as a desktop and as a phone that is held
 * back. Run: npm run bench -- lighthouse [--page FOLDER]; build first. Its package is fetched from the registry by npx, at a
 * fixed version, and is no part of this project; its reports stay in a temporary folder. Ends with code 1 where a score is
 * under 95.
 */
import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { findChromium } from '../setup/chromium.mjs';
import { root } from '../setup/root.mjs';
import { serve } from '../setup/serve.mjs';

const { values: options } = parseArgs({ options: { page: { type: 'string', default: join(root, 'dist') } } });
const VERSION = '12.8.2';
const LEAST = 95;
const CATEGORIES = ['performance', 'accessibility', 'best-practices'] as const;
const FIGURES = ['first-contentful-paint', 'largest-contentful-paint', 'total-blocking-time', 'cumulative-layout-shift'] as const;

type Report = {
  readonly categories: Readonly<Record<(typeof CATEGORIES)[number], { readonly score: number | null }>>;
  readonly audits: Readonly<
    Record<
      string,
      { readonly score: number | null; readonly title: string; readonly displayValue?: string; readonly scoreDisplayMode: string }
    >
  >;
};

const say = (line: string): void => void process.stdout.write(`${line}\n`);
const chromium = await findChromium();
if (chromium === null) throw new Error('No Chromium: set SWARFSIDE_CHROMIUM to the browser program.');
const served = await serve(0, options.page);
const folder = mkdtempSync(join(tmpdir(), 'swarfside-lighthouse-'));
let failed = false;
try {
  for (const [name, flags] of [
    ['desktop', ['--preset=desktop']],
    ['phone', []],
  ] as const) {
    const file = join(folder, `${name}.json`);
    const { status, stderr } = await run([
      served.url,
      ...flags,
      '--quiet',
      `--only-categories=${CATEGORIES.join(',')}`,
      // It has no part in the score, and asks the browser for each uncompressed body within a second: the voice's 7 MB are more.
      '--skip-audits=uses-text-compression',
      '--output=json',
      `--output-path=${file}`,
      '--chrome-flags=--headless --no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking --disable-component-update --disable-sync',
    ]);
    if (status !== 0) throw new Error(`Lighthouse ended with code ${status}: ${stderr}`);
    const report = JSON.parse(readFileSync(file, 'utf8')) as Report;
    const scores = CATEGORIES.map((category) => ({
      category,
      score: Math.round((report.categories[category].score ?? 0) * 100),
    }));
    say(`${name}: ${scores.map(({ category, score }) => `${category} ${score}`).join(', ')}`);
    say(`  ${FIGURES.map((figure) => `${figure} ${report.audits[figure]?.displayValue ?? '-'}`).join(', ')}`);
    for (const [id, audit] of Object.entries(report.audits))
      if (audit.score !== null && audit.score < 0.9 && audit.scoreDisplayMode !== 'informative')
        say(`  ${id} ${audit.score}: ${audit.title} ${audit.displayValue ?? ''}`);
    failed ||= scores.some(({ score }) => score < LEAST);
  }
} finally {
  await served.close();
  rmSync(folder, { recursive: true, force: true });
}
process.exitCode = failed ? 1 : 0;

/** Runs it beside the server, which is this process: waiting for it in step would leave its requests unanswered. */
async function run(args: readonly string[]): Promise<{ readonly status: number | null; readonly stderr: string }> {
  const child = spawn('npx', ['--yes', '--loglevel=error', `lighthouse@${VERSION}`, ...args], {
    stdio: ['ignore', 'ignore', 'pipe'],
    env: { ...process.env, CHROME_PATH: chromium ?? '' },
  });
  let stderr = '';
  child.stderr.on('data', (piece: Buffer) => (stderr += piece.toString()));
  const status = await new Promise<number | null>((done) => child.on('close', done));
  return { status, stderr };
}
