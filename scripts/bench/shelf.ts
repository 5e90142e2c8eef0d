/**
 * The store: reading, writing, folding and checking of logs in Node, then appending, opening and importing in Chromium on a
 * profile on disk, and Chromium killed at random moments while it stores. Run: npx tsx scripts/bench/shelf.ts
 * [--kills N] [--seed N] [--largest EVENTS] [--node-only] [--imports EVENTS,EVENTS…]: the last imports files of so many
 * events in the browser, and does nothing else.
 */
import { readFileSync, rmSync } from 'node:fs';
import { createServer } from 'node:http';
import { setTimeout as pause } from 'node:timers/promises';
import { parseArgs } from 'node:util';
import { build } from 'vite';
import { nanometres } from '../../src/measure/index.ts';
import { folded, type JobEvent, type Plan } from '../../src/job/index.ts';
import { jobFileOf, readJobFile, writeJobFile } from '../../src/shelf/index.ts';
import { freshProfile, forgetProfile, launch, type Browser } from '../../tests/e2e/harness.ts';
import { HEADERS } from '../setup/serve.mjs';
import { root } from '../setup/root.mjs';
import type { ShelfPage } from './shelf-page.ts';

declare const shelfPage: ShelfPage;

const { values: options } = parseArgs({
  options: {
    kills: { type: 'string', default: '20' },
    seed: { type: 'string', default: '1' },
    largest: { type: 'string', default: '180000' },
    'node-only': { type: 'boolean', default: false },
    imports: { type: 'string' },
  },
});
const say = (line: string): void => void process.stdout.write(`${line}\n`);
const planText = readFileSync(`${root}/src/shelf/demos/inch.job.json`, 'utf8');

/** Times in Node are of the processor, so that what else runs on the machine does not show in them. */
function timed<T>(work: () => T): { readonly value: T; readonly ms: number } {
  const began = process.cpuUsage();
  const value = work();
  const { user, system } = process.cpuUsage(began);
  return { value, ms: (user + system) / 1000 };
}
const sorted = (times: readonly number[]): number[] => times.toSorted((a, b) => a - b);
const share = (times: readonly number[], part: number): string =>
  (sorted(times)[Math.min(times.length - 1, Math.floor(times.length * part))] ?? NaN).toFixed(1);

/** A long day: readings at every operation in turn, one in ten struck. */
function eventsOf(plan: Plan, count: number): JobEvent[] {
  const operations = plan.route.operations;
  return Array.from({ length: count }, (_, index): JobEvent => {
    const seq = index + 1;
    const event = { id: `bench-${seq}`, seq, at: 1_750_000_000_000 + seq, v: 1 as const };
    if (seq % 10 === 0) return { ...event, body: { type: 'EventStruck', event: `bench-${seq - 1}` } };
    return {
      ...event,
      body: {
        type: 'ReadingLogged',
        operation: operations[seq % operations.length]?.id ?? '',
        quantity: 'diameter',
        value: nanometres(16_000_000 - 2_540 * (seq % 1000)),
        instrument: 'micrometer',
        place: null,
        words: 'six twenty seven and three tenths',
        confirmed: false,
      },
    };
  });
}

function demoPlan(): Plan {
  const demo = readJobFile(planText);
  if (!demo.ok) throw new Error('the demo job does not read');
  return demo.value.plan;
}
/** The text of a job file with so many events, which names the job. */
const fileOf = (count: number): string =>
  writeJobFile(jobFileOf({ id: `bench-${count}`, startedAt: 0, plan: demoPlan(), events: eventsOf(demoPlan(), count) }));

function inNode(): string {
  const plan = demoPlan();
  let text = '';
  say('events | file MB | write ms | read and check ms | fold ms');
  for (const count of [1_000, 10_000, 100_000, Number(options.largest)]) {
    const job = jobFileOf({ id: 'bench', startedAt: 0, plan, events: eventsOf(plan, count) });
    const written = timed(() => writeJobFile(job));
    text = written.value;
    const read = timed(() => readJobFile(text));
    if (!read.value.ok) throw new Error('what was written does not read');
    const { events } = read.value.value;
    const state = timed(() => folded(plan, events));
    say([count, (text.length / 1e6).toFixed(1), written.ms.toFixed(0), read.ms.toFixed(0), state.ms.toFixed(0)].join(' | '));
  }
  return text;
}

async function inBrowser(largest: string): Promise<void> {
  const built = await build({
    root,
    configFile: false,
    logLevel: 'error',
    worker: { format: 'es' },
    build: { write: false, lib: { entry: `${root}/scripts/bench/shelf-page.ts`, formats: ['es'], fileName: 'page' } },
  });
  const output = Array.isArray(built) ? built[0] : built;
  if (output === undefined || !('output' in output)) throw new Error('the page was not built');
  const scripts = new Map<string, string | Uint8Array>(
    output.output.map((file) => [`/${file.fileName}`, file.type === 'chunk' ? file.code : file.source]),
  );
  const server = createServer((request, response) => {
    const script = scripts.get(request.url ?? '');
    if (script !== undefined) response.writeHead(200, { ...HEADERS, 'Content-Type': 'text/javascript' }).end(script);
    else if (request.url?.startsWith('/events/') === true)
      response.writeHead(200, { ...HEADERS, 'Content-Type': 'application/json' }).end(fileOf(Number(request.url.slice(8))));
    else if (request.url === '/large.json')
      response.writeHead(200, { ...HEADERS, 'Content-Type': 'application/json' }).end(largest);
    else
      response
        .writeHead(200, { ...HEADERS, 'Content-Type': 'text/html' })
        .end('<!doctype html><title>shelf</title><script type="module" src="./page.js"></script>');
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', () => done()));
  const address = server.address();
  const url = `http://localhost:${typeof address === 'object' && address !== null ? address.port : 0}/`;
  const profile = freshProfile();
  try {
    if (options.imports !== undefined) await imports(profile, url, options.imports.split(',').map(Number));
    else {
      await times(profile, url);
      await kills(profile, url);
    }
  } finally {
    forgetProfile(profile);
    server.close();
  }
}

/**
 * The processor seconds of a piece of work, in the page with its workers and in the browser's other processes, where the database
 * is: what else runs on the machine does not show in them.
 */
async function spent<T>(browser: Browser, work: () => Promise<T>): Promise<{ value: T; pageS: number; storeS: number }> {
  const session = await browser.context.browser()?.newBrowserCDPSession();
  if (session === undefined) throw new Error('the browser has no session of its own');
  const processor = async (): Promise<{ page: number; store: number }> => {
    const sums = { page: 0, store: 0 };
    for (const { type, cpuTime } of (await session.send('SystemInfo.getProcessInfo')).processInfo)
      sums[type === 'renderer' ? 'page' : 'store'] += cpuTime;
    return sums;
  };
  const before = await processor();
  const value = await work();
  const after = await processor();
  await session.detach();
  return { value, pageS: after.page - before.page, storeS: after.store - before.store };
}

async function imports(profile: string, url: string, counts: readonly number[]): Promise<void> {
  const browser = await launch({ profile });
  try {
    const { page } = browser;
    await page.goto(url);
    say(
      'events | file MB | import s | page + store s | longest task ms | open and check s | page + store s | longest ms | again s | page + store s',
    );
    for (const count of counts) {
      const taken = await spent(browser, () =>
        page.evaluate(async (address) => {
          const text = await (await fetch(address)).text();
          return { ...(await shelfPage.take(text)), mb: text.length / 1e6 };
        }, `./events/${count}`),
      );
      const open = await spent(browser, () => page.evaluate((id) => shelfPage.open(id), `bench-${count}`));
      const opened = open.value;
      // The database puts its files in order after an import; later it has done so.
      await pause(10_000);
      const again = await spent(browser, () => page.evaluate((id) => shelfPage.open(id), `bench-${count}`));
      const both = ({ pageS, storeS }: { pageS: number; storeS: number }): string => `${pageS.toFixed(1)} + ${storeS.toFixed(1)}`;
      if (opened.events !== count || opened.damage > 0)
        throw new Error(`${opened.events} of ${count} events, damage ${opened.damage}`);
      say(
        [
          count,
          taken.value.mb.toFixed(1),
          (taken.value.ms / 1000).toFixed(1),
          both(taken),
          taken.value.longestMs.toFixed(0),
          (opened.ms / 1000).toFixed(2),
          both(open),
          opened.longestMs.toFixed(0),
          (again.value.ms / 1000).toFixed(2),
          both(again),
        ].join(' | '),
      );
    }
  } finally {
    await browser.close();
  }
}

async function times(profile: string, url: string): Promise<void> {
  const browser = await launch({ profile });
  try {
    const { page } = browser;
    await page.goto(url);
    await page.evaluate((text) => shelfPage.start(text, 1000), planText);
    const list = await page.evaluate(() => shelfPage.list());
    say(`list of ${list.jobs} jobs: ${list.ms.toFixed(0)} ms`);
    const appends = await page.evaluate(() => shelfPage.append('job-1', 1000));
    say(
      `append, strict: median ${share(appends, 0.5)} ms, 95 % ${share(appends, 0.95)} ms, longest ${share(appends, 1)} ms (of ${appends.length})`,
    );
    const { once, twice } = await page.evaluate((text) => shelfPage.turnAbout(text, 500), planText);
    const ratio = (part: number): string => (Number(share(twice, part)) / Number(share(once, part))).toFixed(2);
    say(
      `one copy and two, turn about: median ${share(once, 0.5)} and ${share(twice, 0.5)} ms (${ratio(0.5)} times), ` +
        `95 % ${share(once, 0.95)} and ${share(twice, 0.95)} ms (${ratio(0.95)} times)`,
    );
    const late = await page.evaluate(() => shelfPage.append('job-1', 200));
    say(`append after 1,000 others: median ${share(late, 0.5)} ms`);
    const opened = await page.evaluate(() => shelfPage.open('job-1'));
    say(`open and check ${opened.events} events: ${opened.ms.toFixed(0)} ms`);
    const exported = await page.evaluate(() => shelfPage.exported('job-1'));
    say(`export of it: ${exported.ms.toFixed(0)} ms, ${(exported.length / 1e6).toFixed(2)} MB`);
    const taken = await page.evaluate(async () => shelfPage.take(await (await fetch('./large.json')).text()));
    say(`import of the largest file (${taken.as}): ${(taken.ms / 1000).toFixed(1)} s`);
    const large = await page.evaluate(() => shelfPage.open('bench'));
    say(`open and check ${large.events} events: ${(large.ms / 1000).toFixed(1)} s, damage ${large.damage}`);

    const other = await browser.context.newPage();
    await other.goto(url);
    const first = await page.evaluate(() => shelfPage.hold('job-1', 'first'));
    const second = await other.evaluate(() => shelfPage.hold('job-1', 'second'));
    const taker = await other.evaluate(() => shelfPage.takeOver('job-1'));
    const robbed = await page.evaluate(() => shelfPage.standing('job-1'));
    await other.close();
    await pause(200);
    const back = await page.evaluate(() => shelfPage.standing('job-1'));
    say(`two windows: ${first}, ${second}; after a take-over ${robbed}, ${taker}; after closing the second ${back}`);
    say(`errors on the page: ${browser.errors.length === 0 ? 'none' : browser.errors.join('; ')}`);
  } finally {
    await browser.close();
  }
}

async function kills(profile: string, url: string): Promise<void> {
  let state = Number(options.seed) | 0 || 1;
  const random = (below: number): number => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) % below;
  };
  let acknowledged = 0;
  let missing = 0;
  let damaged = 0;
  for (let kill = 0; kill <= Number(options.kills); kill += 1) {
    rmSync(`${profile}/SingletonLock`, { force: true });
    const browser = await launch({ profile });
    const { page } = browser;
    await page.exposeFunction('heard', (seq: number) => {
      acknowledged = Math.max(acknowledged, seq);
    });
    await page.goto(url);
    const opened = await page.evaluate(() => shelfPage.open('job-2'));
    missing += Math.max(0, acknowledged - opened.events);
    damaged += opened.damage;
    if (kill === Number(options.kills)) {
      say(
        `killed ${kill} times (seed ${options.seed}): ${opened.events} events stored, ${acknowledged} acknowledged, missing ${missing}, damage found ${damaged}`,
      );
      await browser.close();
      return;
    }
    await page.evaluate(() => {
      void shelfPage.appendForEver('job-2', (globalThis as unknown as { heard: (seq: number) => Promise<void> }).heard);
    });
    await pause(50 + random(600));
    await browser.kill();
  }
}

const largest = options.imports === undefined ? inNode() : '';
if (!options['node-only']) await inBrowser(largest);
