import { spawn } from 'node:child_process';
import { readFileSync, rmSync } from 'node:fs';
import { createServer, type IncomingMessage } from 'node:http';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { build } from 'vite';
import { findChromium } from '../../scripts/setup/chromium.mjs';
import { root } from '../../scripts/setup/root.mjs';
import { HEADERS } from '../../scripts/setup/serve.mjs';

/** What was seen of one job: what the page acknowledged, and what was wrong whenever its log was opened again. */
type Watched = { readonly acknowledged: string[]; readonly wrong: string[]; stored: number; refused: number };

export type KillServer = {
  readonly url: (job: string, stintMs?: number) => string;
  readonly origin: string;
  readonly job: (name: string) => Watched;
  /** Resolves when this job has been opened once more, and its log held against all that was acknowledged before. */
  readonly opened: (name: string) => Promise<void>;
  readonly workersEnded: () => number;
  readonly close: () => Promise<void>;
};

async function script(): Promise<string> {
  const built = await build({
    root,
    configFile: false,
    logLevel: 'error',
    build: { write: false, lib: { entry: join(root, 'tests/e2e/kill-page.ts'), formats: ['es'], fileName: 'page' } },
  });
  const output = Array.isArray(built) ? built[0] : built;
  if (output === undefined || !('output' in output)) throw new Error('the page was not built');
  return output.output[0].code;
}

const bodyOf = async (request: IncomingMessage): Promise<unknown> => {
  let text = '';
  for await (const piece of request) text += String(piece);
  return JSON.parse(text);
};

/** Serves the page of the kill tests, with Swarfside's own headers, and keeps the account of what was acknowledged. */
export async function killServer(): Promise<KillServer> {
  const page = await script();
  const plan = readFileSync(join(root, 'src/shelf/demos/inch.job.json'), 'utf8');
  const jobs = new Map<string, Watched>();
  const waiting = new Map<string, () => void>();
  let workersEnded = 0;
  const job = (name: string): Watched => {
    const found = jobs.get(name) ?? { acknowledged: [], wrong: [], stored: 0, refused: 0 };
    jobs.set(name, found);
    return found;
  };
  function compare(watched: Watched, log: { ids: string[]; damage: number; setAside: number }): void {
    const stored = new Map(log.ids.map((id, index) => [id, index]));
    const missing = watched.acknowledged.filter((id) => !stored.has(id));
    if (missing.length > 0) watched.wrong.push(`${missing.length} acknowledged and missing`);
    if (log.damage > 0 || log.setAside > 0) watched.wrong.push(`${log.damage} damaged, ${log.setAside} set aside`);
    watched.stored = log.ids.length;
  }
  async function note(what: string, watched: Watched, name: string, body: unknown): Promise<void> {
    switch (what) {
      case '/opened':
        compare(watched, body as { ids: string[]; damage: number; setAside: number });
        waiting.get(name)?.();
        break;
      case '/acknowledged':
        watched.acknowledged.push(...(body as string[]));
        break;
      case '/refused':
        watched.refused += 1;
        break;
      case '/worker-ended':
        workersEnded += 1;
        break;
      case '/failed':
        watched.wrong.push(String(body));
        waiting.get(name)?.();
    }
    await Promise.resolve();
  }
  const server = createServer((request, response) => {
    const { pathname, searchParams } = new URL(request.url ?? '/', 'http://localhost');
    const type = pathname === '/page.js' ? 'text/javascript' : pathname === '/plan' ? 'application/json' : 'text/html';
    response.writeHead(200, { ...HEADERS, 'Content-Type': type });
    if (pathname === '/page.js') response.end(page);
    else if (pathname === '/plan') response.end(plan);
    else if (request.method === 'POST') {
      const name = searchParams.get('job') ?? '';
      // A page that is killed leaves its last message cut short: then nothing was acknowledged by it.
      bodyOf(request)
        .then((body) => note(pathname, job(name), name, body))
        .then(
          () => response.end(),
          () => response.destroy(),
        );
    } else response.end('<!doctype html><title>kills</title><script type="module" src="./page.js' + '"></script>');
  });
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', () => listening()));
  const address = server.address();
  const origin = `http://localhost:${typeof address === 'object' && address !== null ? address.port : 0}`;
  return {
    origin,
    url: (name, stintMs = 0) => `${origin}/?job=${name}&stint=${stintMs}`,
    job,
    opened: (name) => new Promise((resolve) => waiting.set(name, resolve)),
    workersEnded: () => workersEnded,
    close: () => {
      server.closeAllConnections();
      return new Promise((closed) => server.close(() => closed()));
    },
  };
}

/** Flags that leave out what a killed page does not need, so that a start costs a second and a half of one core. */
const FLAGS = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  '--in-process-gpu',
  '--no-zygote',
  '--disable-quic',
  '--disable-dev-shm-usage',
  '--no-first-run',
  '--no-default-browser-check',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-default-apps',
  '--disable-domain-reliability',
  '--disable-sync',
  '--disable-extensions',
  '--disable-breakpad',
  '--disable-component-extensions-with-background-pages',
  '--password-store=basic',
  '--mute-audio',
  '--disable-features=OptimizationHints,MediaRouter,Translate',
  '--enable-features=NetworkServiceInProcess2',
];

/** Opens an address in a Chromium of its own process group; `kill` ends all of it at once, as a power cut would. */
export async function bareBrowser(profile: string, url: string): Promise<{ readonly kill: () => Promise<void> }> {
  const program = await found();
  // Left behind by the browser that was killed before; it names a process that is gone.
  rmSync(join(profile, 'SingletonLock'), { force: true });
  const child = spawn(program, [...FLAGS, `--user-data-dir=${profile}`, url], { stdio: 'ignore', detached: true });
  const gone = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  return {
    kill: async () => {
      if (child.pid !== undefined && child.exitCode === null) process.kill(-child.pid, 'SIGKILL');
      await gone;
    },
  };
}

let program: Promise<string> | null = null;
const found = (): Promise<string> =>
  (program ??= findChromium().then((file) => {
    if (file === null) throw new Error('No Chromium: set SWARFSIDE_CHROMIUM to the browser program');
    return file;
  }));

/** Pseudo-random whole numbers below a bound: 32-bit xorshift (Marsaglia, 2003), the same for the same seed. */
export function random(seed: number): (below: number) => number {
  let state = seed | 0 || 1;
  return (below) => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) % below;
  };
}

/** After so many kills a job is left and another begun, so that logs are of a day's length. */
const KILLS_A_JOB = 25;

/**
 * Kills the browser again and again while it takes readings, each time at a moment 20 to 400 ms after its log was opened, and
 * opens every log once more at the end. `lane` names the jobs of this profile. Gives the names of the jobs.
 */
export async function killAgainAndAgain(
  server: KillServer,
  profile: string,
  { lane, kills, seed }: { readonly lane: string; readonly kills: number; readonly seed: number },
): Promise<readonly string[]> {
  const pick = random(seed);
  const names = new Set<string>();
  const visit = async (name: string, stayMs: number): Promise<void> => {
    const opened = server.opened(name);
    const browser = await bareBrowser(profile, server.url(name));
    const inTime = await Promise.race([opened.then(() => true), pause(60_000, false)]);
    if (!inTime) server.job(name).wrong.push('the log was not opened within 60 s');
    await pause(stayMs);
    await browser.kill();
  };
  for (let kill = 0; kill < kills; kill += 1) {
    const name = `${lane}-${Math.floor(kill / KILLS_A_JOB)}`;
    names.add(name);
    await visit(name, 20 + pick(380));
  }
  for (const name of names) await visit(name, 0);
  return [...names];
}
