import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { forgetProfile, freshProfile, launch, screenshot, servePage, type Browser, type Served } from './harness.ts';
import { recordedSizes, repliedWith } from './machine-page.ts';

/*
 * A part of one's own from an empty page to its record on paper, by the keyboard alone: nothing here touches the mouse. The part
 * and its lathe are invented.
 */

/** What has the focus: the text of a button, the label of a field. */
const focused = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const at = document.activeElement;
    if (at instanceof HTMLInputElement || at instanceof HTMLSelectElement)
      return at.labels?.[0]?.textContent ?? at.getAttribute('aria-label') ?? '';
    return at?.getAttribute('aria-label') ?? at?.textContent ?? '';
  });

/** Goes on with Tab until what is named has the focus; fails after once round the page. */
async function tabTo(page: Page, name: RegExp): Promise<void> {
  const met: string[] = [];
  for (let presses = 0; presses < 160; presses += 1) {
    await page.keyboard.press('Tab');
    const now = await focused(page);
    if (name.test(now)) return;
    met.push(now);
  }
  throw new Error(`Tab never reached ${name.source}; it met: ${met.join(' | ')}`);
}

async function pressOn(page: Page, name: RegExp): Promise<void> {
  await tabTo(page, name);
  await page.keyboard.press('Enter');
}

/** Types into fields in their order, each reached by Tab. */
async function fill(page: Page, ...fields: readonly (readonly [label: RegExp, text: string])[]): Promise<void> {
  for (const [label, text] of fields) {
    await tabTo(page, label);
    await page.keyboard.type(text);
  }
}

describe('a part of one’s own, by keyboard alone', () => {
  const profile = freshProfile();
  let served: Served;
  let browser: Browser;

  beforeAll(async () => {
    served = await servePage();
    browser = await launch({ profile });
    await browser.page.goto(served.url);
    await browser.page.evaluate(() => {
      const counted = window as unknown as { printed: number };
      counted.printed = 0;
      window.print = () => void (counted.printed += 1);
    });
  });
  afterAll(async () => {
    await browser.close();
    await served.close();
    forgetProfile(profile);
  });

  test('is laid out from an empty table', { timeout: 180_000 }, async () => {
    const { page } = browser;
    await page.getByText(/Step 1 of/).waitFor();
    for (const label of [/^More$/, /^More$/, /^More$/, /^Pages, sound/, /^Jobs/]) await pressOn(page, label);
    await pressOn(page, /^In inches/);
    await page.getByRole('heading', { name: 'Turned, from the left end to the right' }).waitFor();
    await fill(page, [/^Name$/, 'Test pin'], [/^Size across$/, '1 1/4'], [/^Length$/, '6'], [/^Material$/, 'steel 1018']);

    await page.keyboard.press('Alt+3');
    await fill(
      page,
      [/^Name$/, 'Lathe'],
      [/^Cross-slide, one division$/, '.001'],
      [/^Cross-slide, one turn$/, '.1'],
      [/^Spindle speeds/, '70 150 280 560'],
    );

    await page.keyboard.press('Alt+1');
    await pressOn(page, /^Add: Bore$/);
    await page.keyboard.type('Arm bore');
    await fill(page, [/^Called$/, '3/4'], [/^Readings$/, '.7504, .7502, .7503']);

    await page.keyboard.press('Alt+2');
    await pressOn(page, /^Add: Collar$/);
    await page.keyboard.type('Head');
    await fill(page, [/^Diameter$/, '1.000'], [/^Length$/, '1/2']);
    await pressOn(page, /^Add: Journal$/);
    await page.keyboard.type('Shank');
    await tabTo(page, /^Fits into$/);
    await page.keyboard.press('A');
    await fill(page, [/^Diameter$/, 'slide'], [/^Length$/, '1 1/2']);
    await page.getByText('Everything reads.').waitFor();
    await screenshot(page, 'own-part-laid-out');
  });

  test('takes a change back and makes it again, and keeps what cannot be read', async () => {
    const { page } = browser;
    await page.keyboard.type('x');
    await page.getByText(/1 thing is still wanted|things are still wanted/).waitFor();
    await page.keyboard.press('Control+z');
    // One run of typing in one field is taken back at once, so the length is empty now.
    await page.getByText(/still wanted/).waitFor();
    await page.keyboard.press('Control+y');
    await page.keyboard.press('Backspace');
    await page.getByText('Everything reads.').waitFor();
    await page.getByText('Kept on this device').waitFor();
    await page.reload();
    await page
      .getByText(/Parts being laid out|Step 1 of/)
      .first()
      .waitFor();
  });

  test('its draft is there after the page was left, and becomes a job', { timeout: 120_000 }, async () => {
    const { page } = browser;
    await page.evaluate(() => {
      window.print = () => void ((window as unknown as { printed: number }).printed = 1);
    });
    if (await page.getByText(/Step 1 of/).isVisible())
      for (const label of [/^More$/, /^More$/, /^More$/, /^Pages, sound/, /^Jobs/]) await pressOn(page, label);
    await pressOn(page, /^Test pin/);
    await page.getByText('Everything reads.').waitFor();
    await page.keyboard.press('Alt+4');
    await page.getByRole('button', { name: 'Begin the job' }).waitFor();
    await screenshot(page, 'own-part-route');
    await pressOn(page, /^Begin the job$/);
    await page.getByText(/Step 1 of/).waitFor();
  });

  test('is measured at the machine, and its record printed', { timeout: 120_000 }, async () => {
    const { page } = browser;
    // On to the first step that wants a diameter; a step that was not measured is left after a question.
    const target = page.getByText('Target diameter');
    for (let step = 1; step < 12 && !(await target.isVisible()); step += 1) {
      await page.getByText(`Step ${step} of`).first().waitFor();
      await page.keyboard.press('PageDown');
      const goOn = page.getByText('Go on anyway?', { exact: true });
      await goOn
        .or(page.getByText(`Step ${step + 1} of`).first())
        .first()
        .waitFor();
      if (await goOn.isVisible()) await page.keyboard.press('Enter');
      await page
        .getByText(`Step ${step + 1} of`)
        .first()
        .waitFor();
    }
    await target.waitFor();
    await page.keyboard.type('1.060');
    await page.keyboard.press('Enter');
    await repliedWith(page, /1\.060/);
    for (const label of [/^More$/, /^More$/, /^More$/, /^Pages, sound/, /^Record/]) await pressOn(page, label);
    expect(await recordedSizes(page)).toEqual(['1.060']);
    await screenshot(page, 'own-part-record');
    await pressOn(page, /^Print$/);
    expect(await page.evaluate(() => (window as unknown as { printed: number }).printed)).toBe(1);
    expect(browser.errors).toEqual([]);
  });
});
