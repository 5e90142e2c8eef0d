import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createHash } from 'node:crypto';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { root } from '../../scripts/setup/root.mjs';
import { forgetProfile, freshProfile, launch, servePage, type Browser, type Served } from './harness.ts';
import { press, repliedWith } from './machine-page.ts';

const OFFER = 'A new version is ready; this one works on until you change.';

/** The next build of the page, which differs in its document, and so in the list of the worker that keeps it for offline use. */
function nextBuild(): string {
  const folder = mkdtempSync(join(tmpdir(), 'swarfside-next-'));
  cpSync(join(root, 'dist'), folder, { recursive: true });
  const at = (name: string): string => join(folder, name);
  const html = readFileSync(at('index.html'), 'utf8').replace('<head>', '<head><meta name="build" content="next" />');
  writeFileSync(at('index.html'), html);
  const revision = createHash('md5').update(html).digest('hex');
  const worker = readFileSync(at('sw.js'), 'utf8');
  const listed = worker.replace(/(url:"index\.html",revision:")\w+/, `$1${revision}`);
  if (listed === worker) throw new Error('sw.js lists no index.html');
  writeFileSync(at('sw.js'), listed);
  return folder;
}

const profile = freshProfile();
let next: string;
let served: Served;
let browser: Browser;

beforeAll(async () => {
  next = nextBuild();
  served = await servePage();
  browser = await launch({ profile });
});
afterAll(async () => {
  await browser.close();
  await served.close();
  forgetProfile(profile);
  rmSync(next, { recursive: true, force: true });
});

/** Whether what is shown is the next build. */
const isNext = (): Promise<boolean> => browser.page.evaluate(() => document.querySelector('meta[name=build]') !== null);

test('a new version is fetched beside the old, offered between steps only, and keeps the job', { timeout: 240_000 }, async () => {
  const { page } = browser;
  await page.goto(served.url);
  await page.evaluate(async () => void (await navigator.serviceWorker.ready));
  await press(page, /^Next/);
  await repliedWith(page, /Step 2\. Turn the collar/);

  // The same address now serves the next build; the page asks for it as it does whenever it is opened.
  await served.close();
  served = await servePage(served.port, next);
  await page.reload();
  await repliedWith(page, /Step 2/);
  await page.waitForFunction(async () => (await navigator.serviceWorker.getRegistration())?.waiting !== null, undefined, {
    timeout: 120_000,
  });
  expect(await isNext()).toBe(false);

  // A step is open: the old version works on, and nothing is offered.
  await page.keyboard.type('1.262');
  await page.keyboard.press('Enter');
  await repliedWith(page, /1\.262/);
  expect(await page.getByText(OFFER).count()).toBe(0);

  await press(page, /^More/, /^More/, /^More/, /^Pages, sound/, /^Jobs/);
  await page.getByText(OFFER).waitFor();
  // Back at the step the offer is gone again; at the desk it is there once more.
  await press(page, /entries/);
  await page
    .getByText(/Step 2/)
    .first()
    .waitFor();
  expect(await page.getByText(OFFER).count()).toBe(0);
  await press(page, /^More/, /^More/, /^More/, /^Pages, sound/, /^Jobs/);
  await press(page, /^Change to it now/);
  // Asked while the page loads anew, it may not answer.
  await expect.poll(() => isNext().catch(() => false), { timeout: 60_000 }).toBe(true);

  await page
    .getByText(/Step 2/)
    .first()
    .waitFor();
  await press(page, /^More/, /^More/, /^More/, /^Pages, sound/, /^Record/);
  await page.locator('table.readings td.size', { hasText: '1.262' }).first().waitFor();
  expect(await page.getByText(OFFER).count()).toBe(0);
  expect(browser.errors).toEqual([]);
});
