import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { freshProfile, forgetProfile, launch, screenshot, servePage, type Browser, type Served } from './harness.ts';
import { speechFile, type Said } from './microphone.ts';

/*
 * One person at the demo job, by voice alone once the microphone is on: a synthetic voice in a WAV is the microphone, the
 * browser, the recogniser, the store and the clips are real.
 */

/** The silence after each line is the page's time to answer in: half duplex, it does not hear while it speaks. */
const ANSWER_S = 5;
const said = (words: string): Said => ({ words, thenS: ANSWER_S });

const press = (page: Page, ...labels: readonly RegExp[]): Promise<void> =>
  labels.reduce((before, label) => before.then(() => page.getByRole('button', { name: label }).click()), Promise.resolve());

/** A fresh profile opens on the demo in inches; listens always, where readings need their verb. */
async function beginDemo(page: Page, url: string): Promise<void> {
  await page.goto(url);
  await listenAlways(page);
}

async function listenAlways(page: Page): Promise<void> {
  await press(page, /^More/, /^More/, /^More/, /^Pages, sound/, /^More/, /^More/, /^Listen: always/);
}

/** What the page says that it heard, as soon as it has heard it. */
const heardLine = (page: Page, words: string): Promise<void> =>
  page.getByText(`“${words}”`).first().waitFor({ timeout: 60_000 });

const repliedWith = (page: Page, text: RegExp): Promise<void> => page.getByText(text).first().waitFor({ timeout: 60_000 });

/** The sizes in the table of the record that stand, in order. */
async function recordedSizes(page: Page): Promise<readonly string[]> {
  await page.getByRole('heading', { name: 'Readings that stand' }).waitFor();
  return await page.locator('table.readings:not(.is-struck) td.size').allInnerTexts();
}

describe('the demo job by voice', () => {
  const profile = freshProfile();
  let served: Served;
  let browser: Browser;
  const lines = [
    'next', 'reads one point two six oh', 'how much left', 'reads one point two five five', 'scratch that',
    'reads one point two five oh', "where am i", 'next', "what's next",
  ].map(said);

  beforeAll(async () => {
    served = await servePage();
    browser = await launch({ profile, microphone: await speechFile(lines, 4) });
  });
  afterAll(async () => {
    await browser.close();
    await served.close();
    forgetProfile(profile);
  });

  test('steps, logs three readings, strikes one, and ends with a record of the two that stand', { timeout: 180_000 }, async () => {
    const { page } = browser;
    await beginDemo(page, served.url);
    await repliedWith(page, /Step two\. Turn the collar/);
    await repliedWith(page, /One two sixty\. Ten to go/);
    await repliedWith(page, /Ten to go on the diameter/);
    await repliedWith(page, /One two fifty-five\. Five to go/);
    await repliedWith(page, /Scratched one two fifty-five/);
    await repliedWith(page, /One two fifty\. At size/);
    await screenshot(page, 'voice-at-size');
    await repliedWith(page, /Step two of twenty-five/);
    await repliedWith(page, /Step three\. Measure the arm bore/);
    await heardLine(page, "what's next");
    const answers = await page.evaluate(() =>
      performance.getEntriesByName('answer').map((entry) => ({ ms: entry.duration, ...(entry as PerformanceMeasure).detail })),
    );
    console.log(JSON.stringify(answers, null, 1));
    expect(answers.length).toBeGreaterThanOrEqual(8);
    await press(page, /^More/, /^More/, /^More/, /^Pages, sound/, /^Record/);
    expect(await recordedSizes(page)).toEqual(['1.260', '1.250']);
    await screenshot(page, 'voice-record');
    expect(browser.errors).toEqual([]);
    expect(browser.reachedOut).toEqual([]);
  });
});

describe('the power fails between two readings', () => {
  const profile = freshProfile();
  let served: Served;

  beforeAll(async () => {
    served = await servePage();
  });
  afterAll(async () => {
    await served.close();
    forgetProfile(profile);
  });

  test('what was acknowledged is there when the browser comes back', { timeout: 240_000 }, async () => {
    const before = ['next', 'reads one point two six oh', 'reads one point two five five'].map(said);
    const first = await launch({ profile, microphone: await speechFile(before, 4) });
    await beginDemo(first.page, served.url);
    await repliedWith(first.page, /One two fifty-five\. Five to go/);
    await first.kill();

    const after = ['scratch that', 'reads one point two five oh', 'next', 'where am i', "what's next"].map(said);
    const second = await launch({ profile, microphone: await speechFile(after, 4) });
    await second.page.goto(served.url);
    await second.page.getByText(/Step 2 of 25/).waitFor();
    await listenAlways(second.page);
    await repliedWith(second.page, /Scratched one two fifty-five/);
    await repliedWith(second.page, /One two fifty\. At size/);
    await repliedWith(second.page, /Step three\. Measure the arm bore/);
    await heardLine(second.page, "what's next");
    await press(second.page, /^More/, /^More/, /^More/, /^Pages, sound/, /^Record/);
    expect(await recordedSizes(second.page)).toEqual(['1.260', '1.250']);
    expect(second.errors).toEqual([]);
    await second.close();
  });
});
