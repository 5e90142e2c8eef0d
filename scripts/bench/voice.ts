/**
 * The voice in headless Chromium: time from the call to the first sample, the gap between two words, and the lock before the
 * first touch, under the page's own content policy. Run: npx tsx scripts/bench/voice.ts
 */
import { readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { build } from 'vite';
import type { Spoken } from '../../src/phrasebook/index.ts';
import { freshProfile, forgetProfile, launch } from '../../tests/e2e/harness.ts';
import { HEADERS } from '../setup/serve.mjs';
import { root } from '../setup/root.mjs';
import type { VoicePage } from './voice-page.ts';

declare const voicePage: VoicePage;

const TIMES = 15;

/** On the audio thread: copies what passes, 128 frames a call; the copy is handed over, nothing is kept. */
const RECORDER = `
registerProcessor('recorder', class extends AudioWorkletProcessor {
  process([input]) {
    const samples = input[0] === undefined ? new Float32Array(128) : input[0].slice();
    this.port.postMessage({ frame: currentFrame, samples }, [samples.buffer]);
    return true;
  }
});`;

const words = (text: string): Spoken => ({ say: 'words', words: text.split(' ') });
const stop: Spoken = { say: 'pause', after: 'sentence' };

const ANSWERS: readonly (readonly [string, readonly Spoken[]])[] = [
  ['one word', [words('six')]],
  ['a size', [words('six twenty seven'), stop]],
  ['a whole answer', [words('six twenty seven'), stop, words('two to go'), stop, words('take one thou on the dial'), stop]],
];

async function pageScript(): Promise<string> {
  const built = await build({
    root, configFile: false, logLevel: 'error',
    build: { write: false, lib: { entry: `${root}/scripts/bench/voice-page.ts`, formats: ['es'], fileName: 'page' } },
  });
  const output = Array.isArray(built) ? built[0] : built;
  if (output === undefined || !('output' in output)) throw new Error('the page was not built');
  return output.output[0].code;
}

const middle = (values: readonly number[]): number => values.toSorted((a, b) => a - b)[values.length >> 1] ?? NaN;
const span = (values: readonly number[], digits = 1): string =>
  `${middle(values).toFixed(digits)} (${Math.min(...values).toFixed(digits)} to ${Math.max(...values).toFixed(digits)})`;
const say = (line: string): void => void process.stdout.write(`${line}\n`);

const files = new Map<string, readonly [type: string, body: string | Uint8Array]>([
  ['/', ['text/html', '<!doctype html><title>voice</title><body><script type="module" src="./page.js"></script>']],
  ['/page.js', ['text/javascript', await pageScript()]],
  ['/recorder.js', ['text/javascript', RECORDER]],
  ['/voice/clips.json', ['application/json', readFileSync(`${root}/public/voice/clips.json`)]],
  ['/voice/clips.bin', ['application/octet-stream', readFileSync(`${root}/public/voice/clips.bin`)]],
]);
const server = createServer((request, response) => {
  const file = files.get(request.url ?? '');
  if (file === undefined) response.writeHead(404, HEADERS).end();
  else response.writeHead(200, { ...HEADERS, 'Content-Type': file[0] }).end(file[1]);
});
await new Promise<void>((done) => server.listen(0, '127.0.0.1', () => done()));
const address = server.address();
const port = typeof address === 'object' && address !== null ? address.port : 0;

const profile = freshProfile();
const browser = await launch({ profile });
try {
  const { page } = browser;
  await page.goto(`http://localhost:${port}/`);
  await page.waitForURL('**/#opened');
  const opened = await page.evaluate(() => voicePage.opened());
  say(`clips opened in ${opened.openMs.toFixed(0)} ms, fault ${JSON.stringify(opened.fault)}; before the first touch: ${opened.beforeTouch}`);
  await page.mouse.click(50, 50);
  const tapped = await page.evaluate(() => voicePage.tap());
  say(`after it: ${tapped.unlocked ? 'unlocked' : 'locked'}; ${tapped.rateHz} Hz, output latency ${tapped.outputLatencyMs.toFixed(1)} ms, base ${tapped.baseLatencyMs.toFixed(1)} ms`);
  for (const [name, spoken] of ANSWERS) {
    const runs = [];
    for (let run = 0; run < TIMES; run++) runs.push(await page.evaluate((answer) => voicePage.firstSample(answer), spoken));
    const ends = [...new Set(runs.map((run) => run.end))].join(', ');
    say(`${name} (${ends}, ${middle(runs.map((run) => run.saidMs)).toFixed(0)} ms): first sample ${span(runs.map((run) => run.graphMs))} ms after the call; reported, latency included, ${span(runs.map((run) => run.reportedMs))} ms`);
  }
  for (const way of ['howl', 'buffer'] as const) {
    const starts: number[] = [];
    for (let run = 0; run < TIMES; run++) starts.push(await page.evaluate((by) => voicePage.startMs(by), way));
    say(`five seconds of sound as ${way === 'howl' ? 'a Howl from a data URI' : "a buffer in howler's graph"}: first sample ${span(starts)} ms after the call`);
  }
  const planned = await page.evaluate(() => voicePage.plannedGap());
  const assembled: number[] = [];
  const chained: number[] = [];
  for (let run = 0; run < TIMES; run++) {
    assembled.push(...(await page.evaluate(() => voicePage.assembledGap())));
    chained.push(...(await page.evaluate(() => voicePage.chainedGap())));
  }
  say(`gap in one assembled sound: ${span(assembled, 0)} samples where ${planned.toFixed(0)} were planned`);
  say(`gap between two sprites chained by "end": ${span(chained, 0)} samples (${span(chained.map((gap) => (gap * 1000) / tapped.rateHz))} ms) where 0 were planned`);
  say(`errors on the page: ${browser.errors.length === 0 ? 'none' : browser.errors.join('; ')}`);
} finally {
  await browser.close();
  forgetProfile(profile);
  server.close();
}
