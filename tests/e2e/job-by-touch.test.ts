import { beforeAll, describe, expect, test } from 'vitest';
import { screenshot } from './harness.ts';
import { openRecord, press, recordedSizes, repliedWith } from './machine-page.ts';
import { servedBrowser } from './served-browser.ts';

/*
 * The same demo without a word spoken: touch and keys, on a tablet's size. Each test goes on where the one before left off, as
 * a person would.
 */
describe('the demo job by touch and keys', () => {
  const opened = servedBrowser();
  beforeAll(async () => {
    await opened.browser.page.goto(opened.served.url);
  });

  test('steps with a button, takes a reading from the number pad', async () => {
    const { page } = opened.browser;
    await press(page, /^Next/);
    await repliedWith(page, /Step 2\. Turn the collar/);
    await press(page, /^Reading/);
    for (const key of ['1', 'point', '2', '6'])
      await page
        .getByRole('dialog')
        .getByRole('button', { name: new RegExp(`^${key}\\b`) })
        .click();
    await press(page, /^Enter/);
    await repliedWith(page, /1\.260\. 10 thou to go/);
  });

  test('asks about a size that cannot be with two halves, and stores nothing after no', async () => {
    const { page } = opened.browser;
    await page.keyboard.type('1.6');
    await page.keyboard.press('Enter');
    await page.getByText('It is outside the stock.').waitFor();
    await screenshot(page, 'touch-question');
    await press(page, /^No/);
    await repliedWith(page, /Say it again/);
  });

  test('takes readings typed by a caliper or a keyboard, and strikes one', async () => {
    const { page } = opened.browser;
    for (const [size, answer] of [
      ['1.255', /1\.255\. 5 thou to go/],
      ['1.250', /1\.250\. At size/],
    ] as const) {
      await page.keyboard.type(size);
      await page.keyboard.press('Enter');
      await repliedWith(page, answer);
    }
    await page.keyboard.press('Backspace');
    await repliedWith(page, /Scratched 1\.250/);
  });

  test('a pedal steps on, and the page asks before a step is left without a size', async () => {
    const { page } = opened.browser;
    await page.keyboard.press('PageDown');
    await page.getByText('No reading is in the window.').waitFor();
    await page.keyboard.press('Escape');
    await page.getByText(/Step 2 of 25/).waitFor();
  });

  test('the record shows what stands, and comes back after a reload', async () => {
    const { page } = opened.browser;
    await openRecord(page);
    expect(await recordedSizes(page)).toEqual(['1.260', '1.255']);
    // The browser's own way back leads to the step, not away from the work.
    await page.goBack();
    await page.getByText(/Step 2 of 25/).waitFor();
    await page.reload();
    await page.getByText(/Step 2 of 25/).waitFor();
    await openRecord(page);
    expect(await recordedSizes(page)).toEqual(['1.260', '1.255']);
  });

  test('a damaged file gives one line that says what and where, and changes nothing', async () => {
    const { page } = opened.browser;
    await press(page, /^Back to the machine/, /^More/, /^More/, /^More/, /^Pages, sound/, /^Jobs/);
    // The page of jobs is fetched when it is opened.
    await page.locator('.choices').first().getByRole('button').first().waitFor();
    const jobs = await page.locator('.choices').first().getByRole('button').count();
    const file = {
      name: 'torn.job.json',
      mimeType: 'application/json',
      buffer: Buffer.from('{\n "format": "swarfside-job",\n "version": 1,\n "pl'),
    };
    await page.locator('input[type=file]').setInputFiles(file);
    await page.getByText(/torn\.job\.json: line 4, column \d+/).waitFor();
    await screenshot(page, 'touch-bad-file');
    expect(await page.locator('.choices').first().getByRole('button').count()).toBe(jobs);
    expect(opened.browser.errors).toEqual([]);
    expect([opened.browser.reachedOut, opened.browser.sent]).toEqual([[], []]);
  });
});
