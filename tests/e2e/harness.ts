import { spawn, type ChildProcess } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { chromium, type BrowserContext, type Page } from 'playwright-core';
import { findChromium } from '../../scripts/setup/chromium.mjs';
import { serve } from '../../scripts/setup/serve.mjs';
import { root } from '../../scripts/setup/root.mjs';
import { QUIET_FLAGS } from './quiet-flags.ts';

/** The built page on a free port of this machine. `npm test` builds before; by hand, `npm run build` first. */
export type Served = { readonly port: number; readonly url: string; readonly close: () => Promise<void> };

/** Serves dist/, or another build, with the headers of `npm start`; name a port to come back to the same origin later. */
export async function servePage(port = 0, folder = join(root, 'dist')): Promise<Served> {
  if (!existsSync(join(folder, 'index.html'))) throw new Error('dist/ is not built: npm run build');
  return await serve(port, folder);
}

/** A folder for a browser profile that does not exist yet. Kept between launches it is one person's browser. */
export const freshProfile = (): string => mkdtempSync(join(tmpdir(), 'swarfside-profile-'));

export const forgetProfile = (profile: string): void => rmSync(profile, { recursive: true, force: true, maxRetries: 5 });

export type LaunchOptions = {
  readonly profile: string;
  /** A WAV that is heard once from the moment the page opens the microphone; without it there is silence. */
  readonly microphone?: string;
  readonly size?: { readonly width: number; readonly height: number };
  /** Further flags for Chromium. */
  readonly flags?: readonly string[];
};

export type Browser = {
  readonly context: BrowserContext;
  readonly page: Page;
  /** Hosts, other than this machine, that anything in the browser tried to reach: page, worker or service worker. */
  readonly reachedOut: readonly string[];
  /** Every request of page, worker and service worker that could give something away: with a body, or no GET. */
  readonly sent: readonly string[];
  /** Errors on the console and uncaught exceptions of the page, in order. */
  readonly errors: readonly string[];
  /** Ends the whole browser at once, as a power cut would: nothing gets to say goodbye. */
  readonly kill: () => Promise<void>;
  readonly close: () => Promise<void>;
};

/** Whom Chromium asks on its own account (updates, its sign-in), whatever flags it is given; nothing that a page could want. */
const BROWSERS_OWN = new Set([
  'optimizationguide-pa.googleapis.com',
  'update.googleapis.com',
  'clients2.google.com',
  'accounts.google.com',
]);

/** A proxy that lets nothing through and notes who was asked for. Chromium goes to localhost without it. */
async function recordingProxy(): Promise<{ readonly hosts: string[]; readonly port: number; readonly server: Server }> {
  const hosts: string[] = [];
  const note = (host: string): void => {
    if (!BROWSERS_OWN.has(host)) hosts.push(host);
  };
  const server = createServer((request, response) => {
    note(new URL(request.url ?? '', 'http://unknown').hostname);
    response.writeHead(502).end();
  });
  server.on('connect', (request, socket) => {
    // A browser that is killed leaves its connections broken.
    socket.on('error', () => undefined);
    note((request.url ?? 'unknown').replace(/:\d+$/, ''));
    socket.end('HTTP/1.1 502 Bad Gateway\r\n\r\n');
  });
  const port = await new Promise<number>((done) => {
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      done(typeof address === 'object' && address !== null ? address.port : 0);
    });
  });
  return { hosts, port, server };
}

const ended = (child: ChildProcess): Promise<void> =>
  child.exitCode !== null || child.signalCode !== null
    ? Promise.resolve()
    : new Promise((done) => child.once('exit', () => done()));

/** The address of the browser's debugger, which it writes into its profile once it is up. */
async function debuggerAddress(profile: string, child: ChildProcess): Promise<string> {
  const file = join(profile, 'DevToolsActivePort');
  for (let waitedMs = 0; waitedMs < 30_000; waitedMs += 50) {
    if (child.exitCode !== null) throw new Error(`Chromium ended with code ${child.exitCode} before it was up`);
    const [port] = existsSync(file) ? readFileSync(file, 'utf8').split('\n') : [];
    if (port !== undefined && port !== '') return `http://127.0.0.1:${port}`;
    await pause(50);
  }
  throw new Error('Chromium did not come up within 30 s');
}

const SIZE = { width: 1280, height: 800 };

/** A browser that runs, whom it asked for, and where its debugger answers. */
export type Started = {
  readonly child: ChildProcess;
  readonly proxy: Awaited<ReturnType<typeof recordingProxy>>;
  readonly debuggerUrl: string;
};

/**
 * Starts Chromium on a profile, with a fake microphone that is granted without asking. It is a process of ours rather than of
 * the driver, so that a test can take it down without warning.
 */
export async function startChromium({ profile, microphone, size = SIZE, flags = [] }: LaunchOptions): Promise<Started> {
  const program = await findChromium();
  if (program === null) throw new Error('No Chromium: set SWARFSIDE_CHROMIUM to the browser program');
  rmSync(join(profile, 'DevToolsActivePort'), { force: true });
  const proxy = await recordingProxy();
  const child = spawn(
    program,
    [
      ...QUIET_FLAGS,
      '--disable-component-extensions-with-background-pages',
      '--disable-client-side-phishing-detection',
      '--disable-features=OptimizationHints,MediaRouter,Translate,AutofillServerCommunication',
      `--proxy-server=http://127.0.0.1:${proxy.port}`,
      `--window-size=${size.width},${size.height}`,
      '--remote-debugging-port=0',
      // Driven through the port; the pipe is there because Chromium ends when it breaks, so none outlives a test that is killed.
      '--remote-debugging-pipe',
      `--user-data-dir=${profile}`,
      '--autoplay-policy=document-user-activation-required',
      '--use-fake-ui-for-media-stream',
      '--use-fake-device-for-media-stream',
      ...(microphone === undefined ? [] : [`--use-file-for-fake-audio-capture=${microphone}%noloop`]),
      ...flags,
      'about:blank',
    ],
    { stdio: ['ignore', 'ignore', 'ignore', 'pipe', 'pipe'], detached: true },
  );
  return { child, proxy, debuggerUrl: await debuggerAddress(profile, child) };
}

/** Ends a browser and all its children. */
export async function takeDown({ child, proxy }: Started): Promise<void> {
  // The negative id is the whole group: the browser's own children must not outlive it.
  if (child.pid !== undefined && child.exitCode === null) process.kill(-child.pid, 'SIGKILL');
  await ended(child);
  await new Promise((done) => proxy.server.close(done));
}

/** Starts Chromium and drives it. */
export async function launch(options: LaunchOptions): Promise<Browser> {
  const started = await startChromium(options);
  const { child, proxy, debuggerUrl } = started;
  const driver = await chromium.connectOverCDP(debuggerUrl);
  const context = driver.contexts()[0] ?? (await driver.newContext());
  const page = context.pages()[0] ?? (await context.newPage());
  await page.setViewportSize(options.size ?? SIZE);

  const errors: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(`${message.text()} (${message.location().url})`);
  });
  page.on('pageerror', (error) => errors.push(error.message));

  const sent: string[] = [];
  context.on('request', (request) => {
    const { method, body } = { method: request.method(), body: request.postDataBuffer() };
    if (method !== 'GET' || body !== null) sent.push(`${method} ${request.url()}`);
  });

  const end = async (): Promise<void> => {
    await takeDown(started);
    await driver.close();
  };
  return {
    context,
    page,
    reachedOut: proxy.hosts,
    sent,
    errors,
    kill: end,
    close: async () => {
      // Asked politely, Chromium writes its profile out before it goes.
      const session = await driver.newBrowserCDPSession();
      await session.send('Browser.close').catch(() => undefined);
      await Promise.race([ended(child), pause(5_000)]);
      await end();
    },
  };
}

/** Keeps a picture of the page for people to look at: in the folder SWARFSIDE_SCREENSHOTS, or nowhere. */
export async function screenshot(page: Page, name: string): Promise<void> {
  const folder = process.env['SWARFSIDE_SCREENSHOTS'];
  if (folder === undefined || folder === '') return;
  mkdirSync(folder, { recursive: true });
  await page.screenshot({ path: join(folder, `${name}.png`) });
}
