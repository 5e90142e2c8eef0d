import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { root } from '../../scripts/setup/root.mjs';
import { forgetProfile, freshProfile, launch, screenshot } from './harness.ts';
import { servedBrowser } from './served-browser.ts';

describe('the page on a fresh profile', () => {
  const opened = servedBrowser();

  test('shows itself without an error', async () => {
    await opened.browser.page.goto(opened.served.url);
    await opened.browser.page.locator('#root > *').first().waitFor();
    expect(await opened.browser.page.title()).toContain('Swarfside');
    await screenshot(opened.browser.page, 'first-look');
    expect(opened.browser.errors).toEqual([]);
  });

  test('is kept for use without a network, every file of it', async () => {
    const cached = await opened.browser.page.evaluate(async () => {
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
    await other.page.goto(opened.served.url);
    await other.page.getByText(/could not be fetched.*Load the page again/).waitFor();
    await screenshot(other.page, 'first-look-part-missing');
    await other.close();
    forgetProfile(without);
  });

  test('says so on its first screen where what it begins with does not come', async () => {
    const without = freshProfile();
    const other = await launch({ profile: without });
    await other.page.route(/\/assets\/job-/, (route) => route.abort());
    await other.page.goto(opened.served.url);
    await other.page.getByRole('status').filter({ hasText: /did not come.*Load the page again/ }).waitFor();
    expect(await other.page.getByRole('heading', { name: /Stop the spindle/ }).isVisible()).toBe(true);
    await other.close();
    forgetProfile(without);
  });

  test('asks nothing of any other machine', () => {
    expect(opened.browser.reachedOut).toEqual([]);
  });
});
