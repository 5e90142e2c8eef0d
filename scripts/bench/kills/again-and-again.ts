import { readFileSync } from 'node:fs';
import { createServer, type IncomingMessage } from 'node:http';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { build } from 'vite';
import { root } from '../../setup/root.mjs';
import { HEADERS } from '../../setup/serve.mjs';
import { random } from '../../../tests/e2e/kills.ts';
import { bareBrowser } from './bare-browser.ts';

/** What was seen of one job: what the page acknowledged, and what was wrong whenever its log was opened again. */
type Watched = { readonly acknowledged: string[]; readonly wrong: string[]; stored: number; refused: number };

export type KillServer = {
  readonly url: (jobs: readonly string[], stintMs?: number) => string;
  readonly origin: string;
  readonly job: (name: string) => Watched;
  /** Resolves when this job has been opened once more, and its log held against all that was acknowledged before. */
  readonly opened: (name: string) => Promise<void>;
  /** Resolves when an event of one of these jobs is acknowledged from now on. */
  readonly acknowledging: (names: readonly string[]) => Promise<void>;
  readonly workersEnded: () => number;
  readonly close: () => Promise<void>;
};

async function script(): Promise<string> {
  const built = await build({
    root,
    configFile: false,
    logLevel: 'error',
    build: { write: false, lib: { entry: join(root, 'scripts/bench/kills/page.ts'), formats: ['es'], fileName: 'page' } },
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
  const listening = new Set<{ readonly names: readonly string[]; readonly heard: () => void }>();
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
        for (const { names, heard } of listening) if (names.includes(name)) heard();
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
    url: (names, stintMs = 0) => `${origin}/?jobs=${names.join(',')}&stint=${stintMs}`,
    job,
    opened: (name) => new Promise((resolve) => waiting.set(name, resolve)),
    acknowledging: (names) =>
      new Promise((resolve) => {
        const one = {
          names,
          heard: () => {
            listening.delete(one);
            resolve();
          },
        };
        listening.add(one);
      }),
    workersEnded: () => workersEnded,
    close: () => {
      server.closeAllConnections();
      return new Promise((closed) => server.close(() => closed()));
    },
  };
}

/** Jobs that are worked on at once: a conversation and three logs. */
const JOBS_AT_ONCE = 4;
/** After so many kills these jobs are left and others begun, so that logs are of a day's length. */
const KILLS_A_JOB = 10;
/** One kill in so many is of a browser in several processes, as people run it. */
const WHOLE_EVERY = 5;
const PATIENCE_MS = 120_000;
const MOST_OWN_ENDS = 5;

export type Killed = {
  readonly jobs: readonly string[];
  /** How many events were acknowledged between the opening and each kill. */
  readonly atRisk: readonly number[];
};

/**
 * Kills the browser again and again while it takes readings, each time at a moment up to 400 ms after the first reading of this
 * start was acknowledged, and opens every log once more at the end. `lane` names the jobs of this profile.
 */
export async function killAgainAndAgain(
  server: KillServer,
  profile: string,
  { lane, kills, seed }: { readonly lane: string; readonly kills: number; readonly seed: number },
): Promise<Killed> {
  const pick = random(seed);
  const all = new Set<string>();
  const atRisk: number[] = [];
  const acknowledged = (names: readonly string[]): number =>
    names.reduce((sum, name) => sum + server.job(name).acknowledged.length, 0);

  /** Opens the logs and stays; false where the browser ended by itself, as a Chromium that runs in no one process does. */
  async function visit(names: readonly string[], oneProcess: boolean, stay: () => Promise<void>): Promise<boolean> {
    const stayed = Promise.all(names.map(server.opened))
      .then(stay)
      .then(() => 'stayed' as const);
    const browser = await bareBrowser(profile, server.url(names), { oneProcess });
    const enough = new AbortController();
    const late = pause(PATIENCE_MS, 'late' as const, { signal: enough.signal }).catch(() => 'late' as const);
    const became = await Promise.race([stayed, browser.gone.then(() => 'ended' as const), late]);
    enough.abort();
    await browser.kill();
    if (became === 'late') server.job(names[0] ?? lane).wrong.push('the logs were not opened, or nothing was acknowledged');
    return became !== 'ended';
  }
  let ownEnds = 0;
  for (let kill = 0; kill < kills; kill += 1) {
    const day = Math.floor(kill / KILLS_A_JOB);
    const names = Array.from({ length: JOBS_AT_ONCE }, (_, index) => `${lane}-${day}-${index}`);
    for (const name of names) all.add(name);
    const before = acknowledged(names);
    const whole = kill % WHOLE_EVERY === 0 || ownEnds > 0;
    const killed = await visit(names, !whole, async () => {
      await server.acknowledging(names);
      await pause(pick(400));
    });
    if (killed) atRisk.push(acknowledged(names) - before);
    else {
      ownEnds += 1;
      kill -= 1;
      if (ownEnds > MOST_OWN_ENDS) throw new Error('Chromium ends by itself again and again');
    }
  }
  await visit([...all], false, () => Promise.resolve());
  return { jobs: [...all], atRisk };
}
