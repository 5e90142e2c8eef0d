import { readFileSync } from 'node:fs';
import { createServer, type IncomingMessage } from 'node:http';
import { join } from 'node:path';
import { build } from 'vite';
import { root } from '../../../scripts/setup/root.mjs';
import { HEADERS } from '../../../scripts/setup/serve.mjs';

/**
 * What was seen of one job: what the page acknowledged, what was wrong whenever its log was opened again, and how many events
 * were put back from the second copy in all.
 */
type Watched = {
  readonly acknowledged: string[];
  readonly wrong: string[];
  stored: number;
  refused: number;
  putBack: number;
  /** Whether the log was kept twice when it was last opened. */
  copy: string;
};

/** What a page tells of a log that it has opened. */
type Opened = {
  readonly ids: string[];
  readonly putBack: number;
  readonly damage: number;
  readonly setAside: number;
  readonly copy: string;
};

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

/** The scripts of the page, by their address: the page's own, and the worker that keeps the second copy. */
async function scripts(): Promise<ReadonlyMap<string, string>> {
  const built = await build({
    root,
    configFile: false,
    logLevel: 'error',
    worker: { format: 'es' },
    build: { write: false, lib: { entry: join(root, 'tests/e2e/kills/page.ts'), formats: ['es'], fileName: 'page' } },
  });
  const output = Array.isArray(built) ? built[0] : built;
  if (output === undefined || !('output' in output)) throw new Error('the page was not built');
  return new Map(
    output.output.map((file) => [
      `/${file.fileName}`,
      file.type === 'chunk' ? file.code : typeof file.source === 'string' ? file.source : new TextDecoder().decode(file.source),
    ]),
  );
}

const bodyOf = async (request: IncomingMessage): Promise<unknown> => {
  let text = '';
  for await (const piece of request) text += String(piece);
  return JSON.parse(text);
};

/** Serves the page of the kill tests, with Swarfside's own headers, and keeps the account of what was acknowledged. */
export async function killServer(): Promise<KillServer> {
  const code = await scripts();
  const plan = readFileSync(join(root, 'src/shelf/demos/inch.job.json'), 'utf8');
  const jobs = new Map<string, Watched>();
  const waiting = new Map<string, () => void>();
  const listening = new Set<{ readonly names: readonly string[]; readonly heard: () => void }>();
  let workersEnded = 0;
  const job = (name: string): Watched => {
    const found = jobs.get(name) ?? { acknowledged: [], wrong: [], stored: 0, refused: 0, putBack: 0, copy: '' };
    jobs.set(name, found);
    return found;
  };
  function compare(watched: Watched, log: Opened): void {
    const stored = new Map(log.ids.map((id, index) => [id, index]));
    const missing = watched.acknowledged.filter((id) => !stored.has(id));
    if (missing.length > 0) watched.wrong.push(`${missing.length} acknowledged and missing`);
    if (log.damage > 0 || log.setAside > 0) watched.wrong.push(`${log.damage} damaged, ${log.setAside} set aside`);
    watched.copy = log.copy;
    watched.stored = log.ids.length;
    watched.putBack += log.putBack;
  }
  async function note(what: string, watched: Watched, name: string, body: unknown): Promise<void> {
    switch (what) {
      case '/opened':
        compare(watched, body as Opened);
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
    const script = code.get(pathname);
    const type = script !== undefined ? 'text/javascript' : pathname === '/plan' ? 'application/json' : 'text/html';
    response.writeHead(200, { ...HEADERS, 'Content-Type': type });
    if (script !== undefined) response.end(script);
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
