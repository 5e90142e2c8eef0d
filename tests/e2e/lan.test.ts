import { spawn, type ChildProcess } from 'node:child_process';
import { createHash, X509Certificate } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { root } from '../../scripts/setup/root.mjs';
import { headersFor } from '../../scripts/setup/serve.mjs';
import { forgetProfile, freshProfile, launch, type Browser } from './harness.ts';
import { press, repliedWith } from './machine-page.ts';

const home = mkdtempSync(join(tmpdir(), 'swarfside-home-'));
const profile = freshProfile();
let child: ChildProcess;
let browser: Browser;
let url: string;

/** `npm start -- --lan` as a process of its own, until it has said all. */
async function started(): Promise<string> {
  const own = { PORT: '0', LAN_PORT: '0', SWARFSIDE_HOME: home };
  const process_ = spawn(process.execPath, [join(root, 'scripts/start.mjs'), '--lan'], {
    env: { ...process.env, ...own },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  child = process_;
  let said = '';
  process_.stdout.on('data', (piece) => (said += String(piece)));
  while (!said.includes('keep it on this computer')) {
    if (process_.exitCode !== null) throw new Error(`npm start ended with code ${process_.exitCode}`);
    await pause(50);
  }
  return said;
}

beforeAll(async () => {
  const said = await started();
  url = /On this network: (\S+)/.exec(said)?.[1] ?? '';
  const certificate = new X509Certificate(readFileSync(join(home, 'swarfside-certificate.pem')));
  const key = certificate.publicKey.export({ type: 'spki', format: 'der' });
  browser = await launch({
    profile,
    // What a person does who compares the fingerprint and goes on: this key is trusted, and no other.
    flags: [
      `--ignore-certificate-errors-spki-list=${createHash('sha256').update(key).digest('base64')}`,
      `--proxy-bypass-list=${new URL(url).hostname}`,
    ],
  });
}, 240_000);
afterAll(async () => {
  await browser.close();
  child.kill('SIGTERM');
  forgetProfile(profile);
  rmSync(home, { recursive: true, force: true });
});

test('the page on the network works in a browser that trusts its key, kept for offline use and all', async () => {
  const { page } = browser;
  const answer = await page.goto(url);
  expect(url).toMatch(/^https:\/\/[\d.]+:\d+\/$/);
  for (const [name, value] of Object.entries(headersFor(join(root, 'dist')))) expect(answer?.headers()[name.toLowerCase()]).toBe(value);
  await press(page, /^Next/);
  await repliedWith(page, /Step 2\. Turn the collar/);
  expect(await page.evaluate(() => [isSecureContext, 'mediaDevices' in navigator, 'locks' in navigator])).toEqual([
    true,
    true,
    true,
  ]);
  await page.evaluate(async () => void (await navigator.serviceWorker.ready));
  expect(browser.reachedOut).toEqual([]);
  expect(browser.errors).toEqual([]);
});

test.each(['package.json', '../package.json', '%2e%2e/package.json', '..%2fpackage.json', 'swarfside-key.pem', 'share'])(
  '%s is not served',
  async (path) => {
    const status = await browser.page.evaluate(async (asked) => (await fetch(`/${asked}`)).status, path);
    expect(status).toBe(404);
  },
);
