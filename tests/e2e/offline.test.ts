import { afterAll, beforeAll, expect, test } from 'vitest';
import { forgetProfile, freshProfile, launch, servePage, type Browser, type Served } from './harness.ts';
import { listenAlways, repliedWith } from './machine-page.ts';
import { speechFile } from './microphone.ts';

const profile = freshProfile();
let served: Served;
let browser: Browser;

beforeAll(async () => {
  served = await servePage();
  browser = await launch({
    profile,
    // Said three times, for a machine that is short of time may drop one; the first that is heard steps on.
    microphone: await speechFile(
      ['next', 'next', 'next'].map((words) => ({ words, thenS: 9 })),
      4,
    ),
  });
});
afterAll(async () => {
  await browser.close();
  forgetProfile(profile);
});

test('with the server gone and the network off the page reloads and hears', { timeout: 180_000 }, async () => {
  const { page, context } = browser;
  await page.goto(served.url);
  // Kept whole before the network goes: the worker that serves the page from its cache is in charge.
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
  await served.close();
  await context.setOffline(true);
  await page.reload();
  await page.getByText(/Step 1 of 25/).waitFor();
  await listenAlways(page);
  await repliedWith(page, /Step 2\. Turn the collar/);
  expect(browser.errors).toEqual([]);
});
