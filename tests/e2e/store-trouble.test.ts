import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright-core';
import { press, repliedWith } from './machine-page.ts';
import { servedBrowser } from './served-browser.ts';

async function typed(page: Page, size: string): Promise<void> {
  await page.keyboard.type(size);
  await page.keyboard.press('Enter');
}

describe('a store that is shared, full, denied or damaged', () => {
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
