/**
 * Two browsers with one job, handed over live through the desk's process: readings are typed at both at once while the connection
 * of one or the other is cut and its messages overtake one another; at the end both must hold the same, with nothing missing.
 * Run: npm run bench -- hand-over [--readings N] [--cuts N] [--seed N]; build first. Ends with code 1 where anything is missing.
 */
import { setTimeout as pause } from 'node:timers/promises';
import { parseArgs } from 'node:util';
import { forgetProfile, freshProfile, launch } from '../../tests/e2e/harness.ts';
import { press } from '../../tests/e2e/machine-page.ts';
import { sharingDesk, storedIn, wire } from '../../tests/e2e/wire.ts';
import { seeded } from '../../tests/seeded.ts';

const { values: options } = parseArgs({
  options: {
    readings: { type: 'string', default: '500' },
    cuts: { type: 'string', default: '20' },
    seed: { type: 'string', default: '1' },
  },
});
const READINGS = Number(options.readings);
const CUTS = Number(options.cuts);
const SEED = Number(options.seed);
/** Above what is being turned in this step, and the same each time: nothing to ask about. */
const READING = '1.3';
/** Both must agree within this time after the last reading. */
const AGREED_WITHIN_MS = 300_000;

const say = (line: string): void => void process.stdout.write(`${line}\n`);
type Stored = { readonly id: string; readonly body: { readonly type: string } };

const desk = await sharingDesk();
const ends = await Promise.all(
  ['desk', 'tablet'].map(async (name, at) => {
    const profile = freshProfile();
    const line = await wire(Number(new URL(desk.url).port), seeded(SEED + 1 + at));
    const browser = await launch({ profile });
    return { name, profile, line, browser, page: browser.page };
  }),
);
const [first, second] = ends as [(typeof ends)[number], (typeof ends)[number]];
try {
  for (const { page, line } of ends) {
    await page.goto(`http://127.0.0.1:${line.port}/`);
    await page.getByText(/Step 1 of/).waitFor();
    await press(page, /^More/, /^More/, /^More/, /^Pages, sound/, /^Jobs/);
    await page.getByLabel('Code').fill(desk.code);
    await page.getByRole('button', { name: 'Start', exact: true }).click();
    await page.getByText('Connected. What is logged here appears there.').waitFor({ timeout: 20_000 });
  }
  // Each has a demo of its own; the desk's is the one that both work on.
  await press(first.page, /^At the machine/);
  await press(second.page, /^Open it/);
  await press(first.page, /^Next/);
  for (const { page } of ends) await page.getByText(/Step 2 of/).waitFor();

  const started = Date.now();
  const busy = ends.map(async ({ page }) => {
    for (let count = 1; count <= READINGS; count += 1) {
      await page.keyboard.type(READING);
      await page.keyboard.press('Enter');
      if (count % 100 === 0) await page.locator('.pad.is-open').waitFor({ state: 'detached' });
    }
  });
  const pick = seeded(SEED);
  let cuts = 0;
  const cutting = (async () => {
    for (; cuts < CUTS; cuts += 1) {
      await pause(200 + pick(2_000));
      await ends[cuts % 2]?.line.cut(pick(1_000));
    }
  })();
  await Promise.all([...busy, cutting]);

  const job = await first.page.evaluate(
    () =>
      new Promise<string>((resolve) => {
        const opening = indexedDB.open('swarfside-shelf');
        opening.onsuccess = () => {
          const asked = opening.result.transaction('settings').objectStore('settings').get('last-job');
          asked.onsuccess = () => resolve(String((asked.result as { value: unknown }).value));
        };
      }),
  );
  const logs = async (): Promise<readonly (readonly string[])[]> => Promise.all(ends.map(({ page }) => storedIn(page, job)));
  const readingsIn = (log: readonly string[]): number =>
    log.filter((text) => (JSON.parse(text) as Stored).body.type === 'ReadingLogged').length;
  const all = READINGS * ends.length;
  const until = Date.now() + AGREED_WITHIN_MS;
  let [here = [], there = []] = await logs();
  while ((readingsIn(here) < all || here.join() !== there.join()) && Date.now() < until) {
    await pause(500);
    [here = [], there = []] = await logs();
  }
  const overtaken = ends.reduce((sum, { line }) => sum + line.overtaken(), 0);
  const equal = here.join() === there.join();
  say(
    `two browsers, ${READINGS} readings each, ${cuts} cuts, ${overtaken} messages overtaken, ${Math.round((Date.now() - started) / 1000)} s`,
  );
  say(
    `${readingsIn(here)} and ${readingsIn(there)} readings of ${all} stored, missing ${2 * all - readingsIn(here) - readingsIn(there)}, logs ${equal ? 'equal' : 'NOT equal'}`,
  );
  if (!equal || readingsIn(here) !== all) process.exitCode = 1;
} finally {
  for (const { profile, line, browser } of ends) {
    await browser.close();
    line.close();
    forgetProfile(profile);
  }
  desk.child.kill('SIGTERM');
}
