/**
 * The ear in headless Chromium: work for a second of sound, bytes fetched, start from the cache, memory, and the time from the
 * end of speech to the answer. Wants dist/ (npm run build).
 *
 * Usage: npm run bench -- ear-chromium [--lines N] [--sounds N]
 * Processor time is that of the page's own process, which other work on the machine lengthens little; the other times are by
 * the clock.
 */
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { cpus, loadavg } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { parseArgs } from 'node:util';
import { gzipSync } from 'node:zlib';
import { build } from 'vite';
import { freshProfile, forgetProfile, launch, servePage, type Browser } from '../../tests/e2e/harness.ts';
import { listenAlways, TO_LISTEN_ALWAYS } from '../../tests/e2e/machine-page.ts';
import { speechFile } from '../../tests/e2e/microphone.ts';
import { HEADERS } from '../setup/serve.mjs';
import { root } from '../setup/root.mjs';
import { openBarePage } from './bare-page.ts';
import { benchPhrases } from './ear/phrases.ts';
import { speak } from './ear/speech.ts';
import { quantileOf } from './ear/statistics.ts';
import type { EarPage } from './ear-chromium-page.ts';

declare const earPage: EarPage;

const { values } = parseArgs({
  options: { lines: { type: 'string', default: '24' }, sounds: { type: 'string', default: '60' } },
});
const say = (line: string): void => void process.stdout.write(`${line}\n`);
const kB = (bytes: number): string => `${(bytes / 1000).toFixed(0)} kB`;
/** Until the page has nothing more to do of itself, and how long after the ear opened it is looked at again. */
const [SETTLE_MS, LATER_MS] = [6_000, 10_000];
const quantiles = (times: readonly number[]): string =>
  `median ${quantileOf(times, 0.5).toFixed(0)} ms, 95th percentile ${quantileOf(times, 0.95).toFixed(0)} ms, of ${times.length}`;

/** Processor seconds of the browser's pages, all together. */
async function workedS({ context }: Browser): Promise<number> {
  const session = await context.browser()!.newBrowserCDPSession();
  const { processInfo } = await session.send('SystemInfo.getProcessInfo');
  return processInfo.filter(({ type }) => type === 'renderer').reduce((sum, { cpuTime }) => sum + cpuTime, 0);
}

async function workOfTheEngine(): Promise<void> {
  const built = await build({
    root,
    configFile: false,
    logLevel: 'error',
    build: { write: false, lib: { entry: `${root}/scripts/bench/ear-chromium-page.ts`, formats: ['es'], fileName: 'page' } },
  });
  const output = Array.isArray(built) ? built[0] : built;
  if (output === undefined || !('output' in output)) throw new Error('the page was not built');
  const files = new Map<string, readonly [type: string, body: string | Uint8Array]>([
    ['/', ['text/html', '<!doctype html><title>ear</title><body><script type="module" src="./page.js"></script>']],
    [
      '/runtime.wasm',
      ['application/wasm', readFileSync(`${root}/node_modules/onnxruntime-web/dist/ort-wasm-simd-threaded.wasm`)],
    ],
  ]);
  for (const each of output.output)
    files.set(`/${each.fileName}`, ['text/javascript', each.type === 'chunk' ? each.code : each.source]);
  for (const name of ['manifest.json', ...readdirSync(`${root}/dist/models/swarfnet`).map((file) => `swarfnet/${file}`)])
    files.set(`/models/${name}`, ['application/octet-stream', readFileSync(`${root}/dist/models/${name}`)]);
  const server = createServer((request, response) => {
    const file = files.get(request.url ?? '');
    if (file === undefined) response.writeHead(404, HEADERS).end();
    else response.writeHead(200, { ...HEADERS, 'Content-Type': file[0] }).end(file[1]);
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', () => done()));
  const address = server.address();
  const profile = freshProfile();
  const browser = await launch({ profile });
  try {
    const { page } = browser;
    await page.goto(`http://localhost:${typeof address === 'object' && address !== null ? address.port : 0}/`);
    await page.waitForURL('**/#ready');
    const openMs = await page.evaluate(() => earPage.open());
    const phrases = benchPhrases(640)
      .filter(({ kind }) => kind === 'phrase')
      .filter((_, at) => at % Math.ceil(640 / Number(values.sounds)) === 0);
    const spoken = await speak(phrases);
    const sounds = phrases.map((phrase) => ({
      context: phrase.context,
      samples: [...spoken.get(phrase)!].map((x) => Math.round(x * 32_767)),
    }));
    // Once beforehand, so that grammars are laid out and the code is warm, as they are when somebody speaks.
    for (const { samples, context } of sounds.slice(0, 8))
      await page.evaluate(([x, at]) => earPage.hear(x, at), [samples, context] as const);
    const before = await workedS(browser);
    const work: number[] = [];
    for (const { samples, context } of sounds)
      work.push((await page.evaluate(([x, at]) => earPage.hear(x, at), [samples, context] as const)).workMs);
    const after = await workedS(browser);
    const soundS = sounds.reduce((sum, { samples }) => sum + samples.length, 0) / 16_000;
    say(`engine opened in ${openMs.toFixed(0)} ms, from a server on this machine`);
    const clockS = work.reduce((sum, ms) => sum + ms, 0) / 1000;
    say(`work for ${sounds.length} phrases, ${soundS.toFixed(0)} s of sound: ${quantiles(work)}`);
    say(`  real-time factor ${(clockS / soundS).toFixed(3)} by the clock`);
    // The grammars and the hand-over of the samples are in it.
    say(`  at most ${((after - before) / soundS).toFixed(3)} by the processor`);
  } finally {
    await browser.close();
    forgetProfile(profile);
    server.close();
  }
}

/** What the real page fetches for the ear at the first visit. */
async function fetches(): Promise<void> {
  const served = await servePage();
  const profile = freshProfile();
  const browser = await launch({ profile });
  try {
    const { page } = browser;
    await page.goto(served.url);
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
    await page.waitForLoadState('networkidle');
    const fetched: string[] = [];
    page.on('request', (request) => fetched.push(new URL(request.url()).pathname));
    await listenAlways(page);
    await page.waitForFunction(() => performance.getEntriesByName('ear open').length > 0, null, { timeout: 60_000 });
    const sizes = [...new Set(fetched)].flatMap((path) => {
      const file = join(root, 'dist', path);
      return existsSync(file)
        ? [{ path, whole: statSync(file).size, small: gzipSync(readFileSync(file), { level: 9 }).length }]
        : [];
    });
    for (const { path, whole, small } of sizes) say(`  ${path}: ${kB(whole)}, gzip ${kB(small)}`);
    const sum = (of: 'whole' | 'small'): string => kB(sizes.reduce((total, each) => total + each[of], 0));
    say(`fetched for the ear: ${sum('whole')}, gzip ${sum('small')}`);
  } finally {
    await browser.close();
    forgetProfile(profile);
    await served.close();
  }
}

/** How long the real page takes to listen, the first time and from the cache, and what memory it takes, with no driver in it. */
async function start(): Promise<void> {
  const served = await servePage();
  const profile = freshProfile();
  try {
    for (const visit of ['first visit', 'second visit, from the cache', 'third visit']) {
      const page = await openBarePage({ profile });
      await page.go(served.url);
      await page.evaluate('navigator.serviceWorker.ready.then(() => true)');
      await pause(SETTLE_MS);
      const before = page.residentMB();
      for (const label of TO_LISTEN_ALWAYS) await page.press(label);
      await page.until("performance.getEntriesByName('ear open').length > 0");
      const open = page.residentMB();
      const ms = Number(await page.evaluate("performance.getEntriesByName('ear open')[0].duration"));
      await pause(LATER_MS);
      const more = (now: number): string => `${(now - before).toFixed(0)} more`;
      say(
        `${visit}: ear open ${ms.toFixed(0)} ms after it was asked for; memory ${before.toFixed(0)} MB before, ` +
          `${more(open)} once it is open, ${more(page.residentMB())} ${LATER_MS / 1000} s later`,
      );
      await page.close();
    }
  } finally {
    forgetProfile(profile);
    await served.close();
  }
}

const TURNS = ['where am i', 'how much left', 'what do i dial', "what's next", 'speed', 'next', 'last reading', 'back'] as const;

/** Answers of the real page to a voice in its microphone. */
async function answers(): Promise<void> {
  const lines = Array.from({ length: Number(values.lines) }, (_, at) => ({ words: TURNS[at % TURNS.length]!, thenS: 8 }));
  const served = await servePage();
  const profile = freshProfile();
  const browser = await launch({ profile, microphone: await speechFile(lines, 4) });
  try {
    const { page } = browser;
    await page.goto(served.url);
    await listenAlways(page);
    const before = await workedS(browser);
    await page.waitForTimeout(1000 * (6 + 9.2 * lines.length));
    const after = await workedS(browser);
    type Answer = Readonly<
      Record<'ms' | 'endpointMs' | 'recogniserMs' | 'interpretMs' | 'decideMs' | 'storeMs' | 'voiceMs', number>
    >;
    const taken = await page.evaluate(() =>
      performance
        .getEntriesByName('answer')
        .map((entry) => ({ ...(entry as PerformanceMeasure).detail, ms: entry.duration }) as Answer),
    );
    say(`of ${lines.length} things said ${taken.length} were answered`);
    say(`end of speech to the answer: ${quantiles(taken.map(({ ms }) => ms))}`);
    for (const part of ['endpointMs', 'recogniserMs', 'storeMs', 'voiceMs'] as const)
      say(`  ${part.slice(0, -2)}: ${quantiles(taken.map((each) => each[part]))}`);
    const listenedS = 6 + 9.2 * lines.length;
    say(`the page while it listened: ${(after - before).toFixed(1)} s of processor in ${listenedS.toFixed(0)} s`);
  } finally {
    await browser.close();
    forgetProfile(profile);
    await served.close();
  }
}

say(`${cpus().length} cores, load ${loadavg()[0]!.toFixed(1)}`);
await workOfTheEngine();
await fetches();
await start();
await answers();
say(`load at the end ${loadavg()[0]!.toFixed(1)}`);
