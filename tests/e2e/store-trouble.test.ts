import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright-core';
import { screenshot } from './harness.ts';
import { openRecord, press, recordedSizes, repliedWith } from './machine-page.ts';
import { servedBrowser } from './served-browser.ts';

async function typed(page: Page, size: string): Promise<void> {
  await page.keyboard.type(size);
  await page.keyboard.press('Enter');
}

/** What the next press of a button saves, as text. */
async function savedBy(page: Page, button: RegExp): Promise<string> {
  const saved = page.waitForEvent('download');
  await press(page, button);
  return readFileSync(await (await saved).path(), 'utf8');
}

describe('a store that is shared, denied or damaged', () => {
  const opened = servedBrowser();

  test('two windows on one job: one writes, the other shows, and it is handed over', async () => {
    const { page: first, context } = opened.browser;
    await first.goto(opened.served.url);
    await first.getByText(/Step 1 of 25/).waitFor();
    const second = await context.newPage();
    await second.goto(opened.served.url);
    await second.getByText(/this one only shows it/).waitFor();
    await press(first, /^Next/);
    await repliedWith(first, /Step 2/);
    // What the first writes is shown in the second.
    await second.getByText(/Step 2 of 25/).waitFor();
    await press(second, /^Go on here/);
    await first.getByText(/this one only shows it/).waitFor();
    await second.getByText(/this one only shows it/).waitFor({ state: 'detached' });
    await typed(second, '1.2637');
    await repliedWith(second, /1\.2637/);
    await first
      .getByText(/1\.2637/)
      .first()
      .waitFor();
    // The window that writes goes: the other may write, without being asked.
    await second.close();
    await first.getByText(/this one only shows it/).waitFor({ state: 'detached' });
    await typed(first, '1.2632');
    await repliedWith(first, /1\.2632/);
  });

  /** Changes the last reading in the browser's database, with or without the second copy, while no window has the job open. */
  async function alterLast(page: Page, copyToo: boolean): Promise<void> {
    await page.goto(`${opened.served.url}manifest.webmanifest`);
    await page.evaluate(async (copies) => {
      const root = await navigator.storage.getDirectory();
      if (copies) await root.removeEntry('swarfside-shelf-copies', { recursive: true });
      const db = await new Promise<IDBDatabase>((done, failed) => {
        const opening = indexedDB.open('swarfside-shelf');
        opening.onsuccess = () => done(opening.result);
        opening.onerror = () => failed(new Error(String(opening.error)));
      });
      const events = db.transaction('events', 'readwrite').objectStore('events');
      await new Promise<void>((done) => {
        events.openCursor(null, 'prev').onsuccess = ({ target }) => {
          const cursor = (target as IDBRequest<IDBCursorWithValue>).result;
          const row = cursor.value as { text: string };
          cursor.update({ ...row, text: row.text.replace('1.2632', '1.2732') }).onsuccess = () => done();
        };
      });
      db.close();
    }, copyToo);
    await page.goto(opened.served.url);
  }

  test('a reading that was altered in the database is put back from the second copy, and told', async () => {
    const { page } = opened.browser;
    await alterLast(page, false);
    await page.getByText(/1 event of this job was lost or damaged in the browser's store and was put back/).waitFor();
    await page
      .getByText(/1\.2632/)
      .first()
      .waitFor();
    expect(await page.getByText(/1\.2732/).count()).toBe(0);
  });

  test('altered where there is no second copy, it is set aside, told, and never shown as a reading', async () => {
    const { page } = opened.browser;
    await alterLast(page, true);
    await page.getByText(/is not as it was stored: 1 event from there on was set aside/).waitFor();
    await page
      .getByText(/1\.2637/)
      .first()
      .waitFor();
    expect(await page.getByText(/1\.2732/).count()).toBe(0);
  });

  async function toJobs(page: Page): Promise<void> {
    await press(page, /^More/, /^More/, /^More/, /^Pages, sound/, /^Jobs/);
    await page.getByRole('button', { name: /^Open a job file/ }).waitFor();
  }
  const imported = (page: Page, name: string, text: string): Promise<void> =>
    page.locator('input[type=file]').setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });

  test('the same file twice is recognised; one that another device went on with is merged, and where both were busy is told', async () => {
    const { page } = opened.browser;
    await typed(page, '1.2629');
    await repliedWith(page, /1\.2629/);
    await toJobs(page);
    const file = await savedBy(page, /^Save the open job as a file/);
    await imported(page, 'twice.job.json', file);
    await page.getByText(/twice\.job\.json: This job is here already; nothing was changed\./).waitFor();

    // The other device took the same job from the file and read once; this one reads once too.
    const job = JSON.parse(file) as { events: { id: string; seq: number; at: number; body: { value: string } }[] };
    const last = job.events.at(-1);
    if (last === undefined) throw new Error('the file has no event');
    expect(last.body.value).toBe('1.2629in');
    const there = { ...last, id: 'of-the-tablet', seq: last.seq + 1, at: last.at + 1, body: { ...last.body, value: '1.2627in' } };
    await typed(page, '1.2628');
    await repliedWith(page, /1\.2628/);
    await toJobs(page);
    await imported(page, 'tablet.job.json', JSON.stringify({ ...job, events: [...job.events, there] }));
    await page.getByText(/tablet\.job\.json: The job was here already and both had gone on: 1 event from the file/).waitFor();
    await page.getByText(/Look at the readings of "Turn the collar to 1\.250, past the parting line": both devices had been busy there/).waitFor();
    await screenshot(page, 'merged');
    await openRecord(page);
    const sizes = await recordedSizes(page);
    expect(['1.2629', '1.2627', '1.2628'].map((size) => sizes.filter((each) => each === size).length)).toEqual([1, 1, 1]);
    await press(page, /^Back to the machine/);
  });

  test('where nothing can be stored the work goes on in memory, it is told at once, and the file has it', async () => {
    const { context } = opened.browser;
    const page = await context.newPage();
    await page.addInitScript(() => {
      IDBFactory.prototype.open = () => {
        throw new DOMException('planted', 'SecurityError');
      };
    });
    await page.goto(opened.served.url);
    await page.getByText(/The browser refuses to store/).waitFor();
    await page.getByText(/Step 1 of 25/).waitFor();
    await press(page, /^Next/);
    await page.getByText(/Step 2 of 25/).waitFor();
    await typed(page, '1.2634');
    await page.getByText(/are kept in memory only/).waitFor();
    const saved = page.waitForEvent('download');
    await press(page, /^Save as a file/);
    const path = await (await saved).path();
    expect(readFileSync(path, 'utf8')).toContain('"1.2634in"');
    await page.close();
  });
});

describe('a device that fills up while readings are typed', () => {
  const opened = servedBrowser();
  /** Room for the demo, some readings and no more. */
  const ROOM_BYTES = 60_000;

  test('it is told at once, they are kept in memory and in a file, and stored once there is room again', async () => {
    const { page, context } = opened.browser;
    // Kept for offline use, the page itself would take the room first.
    await page.addInitScript(() => {
      Reflect.deleteProperty(Navigator.prototype, 'serviceWorker');
    });
    const session = await context.newCDPSession(page);
    const origin = new URL(opened.served.url).origin;
    await session.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: ROOM_BYTES });
    await page.goto(opened.served.url);
    await page.getByText(/Step 1 of 25/).waitFor();
    await press(page, /^Next/);
    await repliedWith(page, /Step 2/);
    const unstored = page.getByText(/kept in memory only/);
    /** Each a tenth smaller than the one before. */
    const size = (number: number): string => `1.${2701 - number}`;
    let count = 0;
    const next = async (): Promise<void> => {
      count += 1;
      await typed(page, size(count));
      await page.getByText(`Typed “${size(count)}”`).waitFor();
    };
    while ((await unstored.count()) === 0 && count < 150) await next();
    await page.getByText(/The device is full: this is not stored\. It is kept in memory/).waitFor();
    await screenshot(page, 'device-full');
    await next();
    await page.getByText(/2 entries are kept in memory only/).waitFor();
    const file = await savedBy(page, /^Save as a file/);
    for (let number = 1; number <= count; number += 1) expect(file).toContain(`"${Number(size(number))}in"`);

    await session.send('Storage.overrideQuotaForOrigin', { origin });
    await next();
    await unstored.waitFor({ state: 'detached' });
    await page.reload();
    await page.getByText(/Step 2 of 25/).waitFor();
    await openRecord(page);
    const stored = (await recordedSizes(page)).map(Number);
    expect(stored).toEqual(Array.from({ length: count }, (_, index) => Number(size(index + 1))));
  });
});
