import type { CDPSession } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
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
let finger: CDPSession;

beforeAll(async () => {
  served = await servePage();
});
afterAll(() => served.close());

/** Touches the middle of a button, found by how its name begins. */
async function tap(name: RegExp, within = 'body'): Promise<void> {
  const button = browser.page.locator(within).getByRole('button', { name }).first();
  await button.scrollIntoViewIfNeeded();
  const box = await button.boundingBox();
  if (box === null) throw new Error(`${name.source} is not there to be touched`);
  const touchPoints = [{ x: box.x + box.width / 2, y: box.y + box.height / 2 }];
  await finger.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints });
  await finger.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
}

/** Goes through buttons that come one after the other: each is touched once what it should bring is there. */
async function tapThrough(...steps: readonly (readonly [name: RegExp, brings: RegExp])[]): Promise<void> {
  for (const [name, brings] of steps) {
    await tap(name);
    await browser.page.getByRole('button', { name: brings }).first().waitFor();
  }
}

/** From the first row of buttons to the pages. */
const toPages = (): Promise<void> =>
  tapThrough([/^More/, /^Scratch that/], [/^More/, /^Ask/], [/^More/, /^Set-up/], [/^Pages, sound/, /^Record/]);

/** Enters a reading on the number pad. */
async function read(size: string, answer: RegExp): Promise<void> {
  await tap(/^Reading/);
  await browser.page.getByRole('dialog').waitFor();
  for (const key of size) await tap(key === '.' ? /^point/ : new RegExp(`^${key}\\b`), '.pad');
  await browser.page.locator('.pad-number', { hasText: size }).waitFor();
  await tap(/^Enter/, '.pad');
  await repliedWith(browser.page, answer);
}

test.each(ROOMS)('the demo on a %s, by touch only, ends in the record of two readings', async (name, room) => {
  const profile = freshProfile();
  browser = await launch({ profile, size: room });
  try {
    const { page } = browser;
    finger = await browser.context.newCDPSession(page);
    await finger.send('Emulation.setTouchEmulationEnabled', { enabled: true });
    await page.goto(served.url);
    await page.getByText(/Step 1 of/).waitFor();
    await tap(/^Next/);
    await repliedWith(page, /Step 2\. Turn the collar/);
    await read('1.26', /1\.260\. 10 thou to go/);
    await read('1.255', /1\.255\. 5 thou to go/);
    await tapThrough([/^More/, /^Scratch that/]);
    await tap(/^Scratch that/);
    await repliedWith(page, /Scratched 1\.255/);
    await read('1.25', /1\.250\. At size/);
    await screenshot(page, `touch-only-${name}`);
    await toPages();
    await tap(/^Record/);
    expect(await recordedSizes(page)).toEqual(['1.260', '1.250']);
    expect(browser.errors).toEqual([]);
  } finally {
    await browser.close();
    forgetProfile(profile);
  }
});
