import { afterAll, beforeAll, expect, test } from 'vitest';
import { fingerOn, type Finger } from './finger.ts';
import { forgetProfile, freshProfile, launch, screenshot, servePage, type Browser, type Served } from './harness.ts';
import { recordedSizes, repliedWith } from './machine-page.ts';

/*
 * The demo job by a finger alone, on a phone and on a tablet: the same readings as by voice
 * (job-by-voice.test.ts), and the same record. No key is pressed and no mouse is moved.
 */

const ROOMS = [
  ['phone', { width: 390, height: 844 }],
  ['tablet', { width: 1280, height: 800 }],
] as const;

let served: Served;
let browser: Browser;
let finger: Finger;

beforeAll(async () => {
  served = await servePage();
});
afterAll(() => served.close());

/** Enters a reading on the number pad. */
async function read(size: string, answer: RegExp): Promise<void> {
  await finger.tap(/^Reading/);
  await browser.page.getByRole('dialog').waitFor();
  for (const key of size) await finger.tap(key === '.' ? /^point/ : new RegExp(`^${key}\\b`), '.pad');
  await browser.page.locator('.pad-number', { hasText: size }).waitFor();
  await finger.tap(/^Enter/, '.pad');
  await repliedWith(browser.page, answer);
}

test.each(ROOMS)('the demo on a %s, by touch only, ends in the record of two readings', async (name, room) => {
  const profile = freshProfile();
  browser = await launch({ profile, size: room });
  try {
    const { page } = browser;
    finger = await fingerOn(page);
    await page.goto(served.url);
    await page.getByText(/Step 1 of/).waitFor();
    await finger.tap(/^Next/);
    await repliedWith(page, /Step 2\. Turn the collar/);
    await read('1.26', /1\.260\. 10 thou to go/);
    await read('1.255', /1\.255\. 5 thou to go/);
    await finger.tapThrough([/^More/, /^Scratch that/]);
    await finger.tap(/^Scratch that/);
    await repliedWith(page, /Scratched 1\.255/);
    await read('1.25', /1\.250\. At size/);
    await screenshot(page, `touch-only-${name}`);
    await finger.toPages();
    await finger.tap(/^Record/);
    expect(await recordedSizes(page)).toEqual(['1.260', '1.250']);
    expect(browser.errors).toEqual([]);
  } finally {
    await browser.close();
    forgetProfile(profile);
  }
});

test('a part of one’s own is laid out by touch only, from an empty page to its route', async () => {
  const profile = freshProfile();
  browser = await launch({ profile, size: { width: 1180, height: 820 } });
  try {
    const { page } = browser;
    finger = await fingerOn(page);
    await page.goto(served.url);
    await page.getByText(/Step 1 of/).waitFor();
    await finger.toPages();
    await finger.tap(/^Jobs/);
    await finger.tap(/^In millimetres/);
    await page.getByRole('heading', { name: 'Turned, from the left end to the right' }).waitFor();
    /** Touches a field and types on the keyboard of the device, which gives the page whole words and no keys. */
    const fill = async (label: RegExp, text: string, within = 'body'): Promise<void> => {
      await finger.tap(label, within, 'textbox');
      await expect.poll(() => page.evaluate(() => document.activeElement?.tagName)).toBe('INPUT');
      await page.keyboard.insertText(text);
      await expect.poll(() => page.locator(within).getByRole('textbox', { name: label }).first().inputValue()).toBe(text);
    };
    await fill(/^Name$/, 'Touched pin');
    await fill(/^Size across$/, '30');
    await fill(/^Length$/, '120');
    await fill(/^Material$/, 'steel C45');
    await finger.tap(/^Add: Collar$/);
    await fill(/^Name$/, 'Head', 'section.row >> nth=0');
    await fill(/^Diameter$/, '28', 'section.row >> nth=0');
    await fill(/^Length$/, '12', 'section.row >> nth=0');
    await finger.tap(/^Add: Journal$/);
    await fill(/^Name$/, 'Shank', 'section.row >> nth=1');
    await fill(/^Diameter$/, '20h7', 'section.row >> nth=1');
    await fill(/^Length$/, '40', 'section.row >> nth=1');
    await page
      .getByText(/20h7: |19\.979/)
      .first()
      .waitFor();
    await finger.tap(/^Machines/);
    await fill(/^Name$/, 'Lathe');
    await fill(/^Cross-slide, one division$/, '.02');
    await fill(/^Cross-slide, one turn$/, '2');
    await fill(/^Spindle speeds/, '70 150 280 560');
    await page.getByText('Everything reads.').waitFor();
    await finger.tap(/^The route/);
    await screenshot(page, 'touch-only-desk');
    await finger.tap(/^Begin the job$/);
    await page.getByText(/Step 1 of/).waitFor();
    expect(browser.errors).toEqual([]);
  } finally {
    await browser.close();
    forgetProfile(profile);
  }
});
