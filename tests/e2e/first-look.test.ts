import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { root } from '../../scripts/setup/root.mjs';
import { forgetProfile, freshProfile, launch, screenshot, servePage, type Browser, type Served } from './harness.ts';

describe('the page on a fresh profile', () => {
  const profile = freshProfile();
  let served: Served;
  let browser: Browser;

  beforeAll(async () => {
    served = await servePage();
    browser = await launch({ profile });
  });

  afterAll(async () => {
    await browser.close();
    await served.close();
    forgetProfile(profile);
  });

  test('shows itself without an error', async () => {
    await browser.page.goto(served.url);
    await browser.page.locator('#root > *').first().waitFor();
    expect(await browser.page.title()).toContain('Swarfside');
    await screenshot(browser.page, 'first-look');
    expect(browser.errors).toEqual([]);
  });

  test('is kept for use without a network, every file of it', async () => {
    const cached = await browser.page.evaluate(async () => {
      await navigator.serviceWorker.ready;
      const names = await caches.keys();
      const lists = await Promise.all(names.map(async (name) => (await (await caches.open(name)).keys()).map(({ url }) => url)));
      return lists.flat().map((url) => new URL(url).pathname.slice(1));
    });
    const built = readdirSync(join(root, 'dist'), { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name).slice(join(root, 'dist/').length))
      // The service worker does not keep itself: the browser does.
      .filter((path) => path !== 'sw.js' && !/^workbox-[^/]*\.js$/.test(path));
    expect(cached.sort()).toEqual(built.sort());
  });

  test('says so where a part of it does not come, and does not let a press come to nothing in silence', async () => {
    const without = freshProfile();
    const other = await launch({ profile: without });
    await other.page.route(/\/assets\/(deciding|reading)-/, (route) => route.abort());
    await other.page.goto(served.url);
    await other.page.getByText(/could not be fetched.*Load the page again/).waitFor();
    await screenshot(other.page, 'first-look-part-missing');
    await other.close();
    forgetProfile(without);
  });

  test('asks nothing of any other machine', () => {
    expect(browser.reachedOut).toEqual([]);
  });
});
