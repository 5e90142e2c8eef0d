/**
 * Lighthouse against the served build: performance, accessibility and best practices, as a desktop and as a phone that is held
 * back. Run: npm run bench -- lighthouse [--page FOLDER] [--as desktop|phone]; build first. The pages have one address between
 * them: with --scenes NAME,… each is looked at in the gallery of the screens instead, for accessibility and best practices. Its
 * package is fetched from the registry by npx, at a fixed version, and is no part of this project; its reports stay in a
 * temporary folder. Its times are those of this machine: the load and Lighthouse's own measure of the machine are printed with
 * them, and the same run is judged a second time with each task as long as it had a processor (`lighthouse/processor-time.ts`).
 * Ends with code 1 where a score by the clock is under 95.
 */
import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { findChromium } from '../setup/chromium.mjs';
import { root } from '../setup/root.mjs';
import { serve } from '../setup/serve.mjs';
import { serveGallery } from '../../tests/e2e/gallery-page.ts';
import { byProcessorTime, traceSchema } from './lighthouse/processor-time.ts';

const { values: options } = parseArgs({
  options: {
    page: { type: 'string', default: join(root, 'dist') },
    as: { type: 'string', default: 'desktop,phone' },
    scenes: { type: 'string', default: '' },
  },
});
const VERSION = '12.8.2';
const LEAST = 95;
const CATEGORIES = ['performance', 'accessibility', 'best-practices'] as const;
const FIGURES = ['first-contentful-paint', 'largest-contentful-paint', 'total-blocking-time', 'cumulative-layout-shift'] as const;

type Report = {
  readonly environment: { readonly benchmarkIndex: number };
  readonly categories: Readonly<Partial<Record<(typeof CATEGORIES)[number], { readonly score: number | null }>>>;
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
const folder = mkdtempSync(join(tmpdir(), 'swarfside-lighthouse-'));
const scenes = options.scenes.split(',').filter((scene) => scene !== '');
const low: string[] = [];
try {
  if (scenes.length > 0) await lookAtScenes();
  else await lookAtPage();
} finally {
  rmSync(folder, { recursive: true, force: true });
}
process.exitCode = low.length > 0 ? 1 : 0;

async function lookAtPage(): Promise<void> {
  const served = await serve(0, options.page);
  try {
    for (const [name, flags] of [
      ['desktop', ['--preset=desktop']],
      ['phone', []],
    ] as const)
      if (options.as.includes(name)) await look(name, served.url, CATEGORIES, flags);
  } finally {
    await served.close();
  }
}

async function lookAtScenes(): Promise<void> {
  const gallery = await serveGallery();
  // With the headers that the page itself is served with.
  const served = await serve(0, gallery.folder);
  try {
    const page = new URL(new URL(gallery.url).pathname, served.url);
    for (const scene of scenes)
      await look(scene, `${page.href}#${scene}`, ['accessibility', 'best-practices'], ['--preset=desktop']);
  } finally {
    await served.close();
    await gallery.close();
  }
}

async function look(
  name: string,
  url: string,
  categories: readonly (typeof CATEGORIES)[number][],
  flags: readonly string[],
): Promise<void> {
  const [load = 0] = loadavg();
  const gathered = join(folder, name);
  const asked = [
    url,
    ...flags,
    '--quiet',
    `--only-categories=${categories.join(',')}`,
    // It has no part in the score, and asks the browser for each uncompressed body within a second: the voice's 7 MB are more.
    '--skip-audits=uses-text-compression',
  ];
  // The window's own moving parts (the sign of a page that loads) are drawn by the same processor as the page, sixty times a
  // second: a device has other means for them. What the page moves is not touched.
  const browser =
    '--chrome-flags=--animation-duration-scale=0 --headless --no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking --disable-component-update --disable-sync';
  await run([...asked, `--gather-mode=${gathered}`, browser]);
  const judged = async (): Promise<Report> => {
    const file = join(folder, `${name}.json`);
    await run([...asked, `--audit-mode=${gathered}`, '--output=json', `--output-path=${file}`]);
    return JSON.parse(readFileSync(file, 'utf8')) as Report;
  };
  const report = await judged();
  const machine = `machine ${Math.round(report.environment.benchmarkIndex)}, load before ${load.toFixed(1)}`;
  say(`${name}: ${categories.map((category) => `${category} ${score(report, category)}`).join(', ')} (${machine})`);
  for (const [id, audit] of Object.entries(report.audits))
    if (audit.score !== null && audit.score < 0.9 && audit.scoreDisplayMode !== 'informative')
      say(`  ${id} ${audit.score}: ${audit.title} ${audit.displayValue ?? ''}`);
  if (categories.some((category) => score(report, category) < LEAST)) low.push(name);
  if (!categories.includes('performance')) return;
  say(`  by the clock: ${figures(report)}`);
  const trace = join(gathered, 'defaultPass.trace.json');
  writeFileSync(trace, JSON.stringify(byProcessorTime(traceSchema.parse(JSON.parse(readFileSync(trace, 'utf8'))))));
  const alone = await judged();
  say(`  by processor time of each task: performance ${score(alone, 'performance')}, ${figures(alone)}`);
}

function score(report: Report, category: (typeof CATEGORIES)[number]): number {
  return Math.round((report.categories[category]?.score ?? 0) * 100);
}

function figures(report: Report): string {
  return FIGURES.map((figure) => `${figure} ${report.audits[figure]?.displayValue ?? '-'}`).join(', ');
}

/** Runs it beside the server, which is this process: waiting for it in step would leave its requests unanswered. */
async function run(args: readonly string[]): Promise<void> {
  const child = spawn('npx', ['--yes', '--loglevel=error', `lighthouse@${VERSION}`, ...args], {
    stdio: ['ignore', 'ignore', 'pipe'],
    env: { ...process.env, CHROME_PATH: chromium ?? '' },
  });
  let stderr = '';
  child.stderr.on('data', (piece: Buffer) => (stderr += piece.toString()));
  const status = await new Promise<number | null>((done) => child.on('close', done));
  if (status !== 0) throw new Error(`Lighthouse ended with code ${status}: ${stderr}`);
}
