import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { forgetProfile, freshProfile, launch, screenshot, servePage, type Browser, type Served } from './harness.ts';
import { press, repliedWith } from './machine-page.ts';

const toJobs = (browser: Browser): Promise<void> => press(browser.page, /^More/, /^More/, /^More/, /^Pages, sound/, /^Jobs/);

/** Keeps the text of what the page hands to the browser to be saved, and gives the last one. */
async function savedBy(browser: Browser, button: RegExp): Promise<string> {
  await browser.page.evaluate(() => {
    const make = URL.createObjectURL.bind(URL);
    URL.createObjectURL = (given: Blob | MediaSource): string => {
      if (given instanceof Blob) void given.text().then((text) => Object.assign(globalThis, { lastSaved: text }));
      return make(given);
    };
  });
  await press(browser.page, button);
  await browser.page.waitForFunction(() => 'lastSaved' in globalThis);
  return await browser.page.evaluate(() => (globalThis as unknown as { lastSaved: string }).lastSaved);
}

describe('keeping the record safe', () => {
  const profile = freshProfile();
  let served: Served;
  let browser: Browser;

  beforeAll(async () => {
    served = await servePage();
    browser = await launch({ profile });
    // The browser's own dialogue cannot be pressed by a test; a folder of the page's private file system stands in.
    await browser.page.addInitScript(() => {
      Object.assign(globalThis, {
        showDirectoryPicker: async () =>
          await (await navigator.storage.getDirectory()).getDirectoryHandle('backups', { create: true }),
      });
    });
    await browser.page.goto(served.url);
  });
  afterAll(async () => {
    await browser.close();
    await served.close();
    forgetProfile(profile);
  });

  /** The files in the folder, by name. */
  const inFolder = (): Promise<Record<string, string>> =>
    browser.page.evaluate(async () => {
      const folder = await (await navigator.storage.getDirectory()).getDirectoryHandle('backups', { create: true });
      const found: Record<string, string> = {};
      for await (const entry of (folder as unknown as { values(): AsyncIterable<FileSystemFileHandle> }).values())
        found[entry.name] = await (await entry.getFile()).text();
      return found;
    });

  test('a job is backed up into the chosen folder by itself, after a reload too', async () => {
    const { page } = browser;
    await toJobs(browser);
    await press(page, /^Back up into a folder/);
    await page.getByText('Backups go into the folder “backups” by themselves.').waitFor();
    await page.getByText(/^Last saved/).waitFor();
    await screenshot(page, 'safe-keeping');
    const before = Object.values(await inFolder());
    expect(before.map((text) => (JSON.parse(text) as { format: string }).format)).toEqual(['swarfside-job']);
    await page.reload();
    await page.getByText(/Step 1 of 25/).waitFor();
    await press(page, /^Next/);
    await repliedWith(page, /Step 2/);
    await expect.poll(async () => Object.values(await inFolder())[0] ?? '', { timeout: 30_000 }).toContain('OperationFinished');
    expect(Object.keys(await inFolder())).toHaveLength(1);
  });

  test('the diagnostic file holds no reading unless it is chosen', async () => {
    const { page } = browser;
    await page.keyboard.type('1.2637');
    await page.keyboard.press('Enter');
    await repliedWith(page, /1\.2637/);
    await toJobs(browser);
    const bare = await savedBy(browser, /^Save a diagnostic file/);
    expect(JSON.parse(bare)).toMatchObject({ format: 'swarfside-diagnostic', jobIsOpen: true, jobs: 1, faults: [] });
    expect(bare).not.toMatch(/1\.2637|ReadingLogged|wav/);
    await page.getByLabel('with the open job and its readings').check();
    await page.evaluate(() => Reflect.deleteProperty(globalThis, 'lastSaved'));
    expect(await savedBy(browser, /^Save a diagnostic file/)).toContain('1.2637in');
  });

  test('a file larger than any job is refused before it is read', async () => {
    const { page } = browser;
    // A file that only says that it is large: were it read, its text would be an import of its own.
    await page.evaluate(() => {
      const file = new File(['{}'], 'huge.job.json');
      Object.defineProperty(file, 'size', { value: 200 * 1024 * 1024 });
      const field = document.querySelector<HTMLInputElement>('input[type=file]');
      Object.defineProperty(field, 'files', { value: [file], configurable: true });
      field?.dispatchEvent(new Event('change', { bubbles: true }));
    });
    await page.getByText(/huge\.job\.json: the whole file: 200 million characters/).waitFor();
  });

  /** What jobs have left in the browser's database and in the folder of the second copies. */
  const leftOnDevice = (page: Page): Promise<{ readonly rows: number; readonly copies: number }> =>
    page.evaluate(async () => {
      const done = <T>(request: IDBRequest<T>): Promise<T> =>
        new Promise((resolve, reject) => {
          request.onsuccess = () => resolve(request.result);
          request.onerror = () => reject(request.error ?? new Error('refused'));
        });
      const db = await done(indexedDB.open('swarfside-shelf'));
      let rows = 0;
      for (const name of ['jobs', 'heads', 'events', 'clips', 'setAside'])
        if (db.objectStoreNames.contains(name)) rows += await done(db.transaction(name).objectStore(name).count());
      db.close();
      let copies = 0;
      const folder = await navigator.storage.getDirectory();
      for await (const entry of (folder as unknown as { values(): AsyncIterable<FileSystemHandle> }).values())
        if (entry.name === 'swarfside-shelf-copies')
          for await (const copy of (entry as unknown as { values(): AsyncIterable<FileSystemHandle> }).values())
            if (copy.kind === 'file') copies += 1;
      return { rows, copies };
    });

  test('wiped, nothing is left in either copy, and the job comes back from the folder', async () => {
    const { page } = browser;
    const before = await leftOnDevice(page);
    expect([before.rows > 0, before.copies]).toEqual([true, 1]);
    await press(page, /^Wipe everything/, /^Wipe it all, for good/);
    await page.getByRole('button', { name: /entries/ }).waitFor({ state: 'detached' });
    expect(await leftOnDevice(page)).toEqual({ rows: 0, copies: 0 });
    await press(page, /^Bring jobs back from a folder/);
    await page.getByText(/1 job came in from the folder/).waitFor();
    await page.getByRole('button', { name: /entries/ }).waitFor();
    expect(browser.errors).toEqual([]);
  });
});

describe('a part that fails', () => {
  const profile = freshProfile();
  let served: Served;
  let browser: Browser;
  beforeAll(async () => {
    served = await servePage();
    browser = await launch({ profile });
    // Without its worker for offline use the page asks for each file when it wants it, and a test can withhold it.
    await browser.page.addInitScript(() => {
      Reflect.deleteProperty(Navigator.prototype, 'serviceWorker');
    });
  });
  afterAll(async () => {
    await browser.close();
    await served.close();
    forgetProfile(profile);
  });

  /** Whether stepping and typed readings work, whatever else does not. */
  async function works(step: RegExp, size: string, answer: RegExp): Promise<void> {
    await repliedWith(browser.page, step);
    await browser.page.keyboard.type(size);
    await browser.page.keyboard.press('Enter');
    await repliedWith(browser.page, answer);
  }

  test('the recogniser without its files: stepping and typing go on, it says what is off, and starts again', async () => {
    const { page } = browser;
    await page.route('**/models/**', (route) => route.abort());
    await page.goto(served.url);
    await press(page, /^Start listening/);
    await page.getByRole('button', { name: 'Start the ear again' }).waitFor({ timeout: 30_000 });
    await press(page, /^Next/);
    await works(/Step 2/, '1.262', /1\.262/);
    await page.unroute('**/models/**');
    await press(page, /^Start the ear again/);
    await page.getByText('Microphone ready').first().waitFor({ timeout: 60_000 });
  });

  test('a crash in the workers of the ear and of the second copy: the same', async () => {
    const { page } = browser;
    for (const name of ['ear.worker', 'copy.worker']) {
      const worker = page.workers().find((each) => each.url().includes(name));
      if (worker === undefined) throw new Error(`there is no ${name}`);
      await worker.evaluate(() => {
        setTimeout(() => {
          throw new Error('planted');
        });
      });
    }
    await page.getByRole('button', { name: 'Start the ear again' }).waitFor({ timeout: 30_000 });
    await works(/Step 2/, '1.261', /1\.261/);
    await press(page, /^Start the ear again/);
    await page.getByText('Microphone ready').first().waitFor({ timeout: 60_000 });
  });

  test('the worklet and the voice without their files: the same', async () => {
    const { page } = browser;
    await page.route('**/voice/**', (route) => route.abort());
    await page.reload();
    await page.getByRole('button', { name: 'Start the voice again' }).waitFor({ timeout: 30_000 });
    await screenshot(page, 'voice-off');
    await page.unroute('**/voice/**');
    await press(page, /^Start the voice again/);
    await page.getByRole('button', { name: 'Start the voice again' }).waitFor({ state: 'detached', timeout: 30_000 });
    // The worklet's file was fetched before and may come from the browser's cache: its loading is what fails.
    await page.evaluate(() => {
      AudioWorklet.prototype.addModule = () => Promise.reject(new DOMException('planted', 'AbortError'));
    });
    await press(page, /^Start listening/);
    await page.getByRole('button', { name: 'Start the ear again' }).waitFor({ timeout: 30_000 });
    await works(/Step 2/, '1.26', /1\.260/);
    // What was put over it is taken away: the browser's own comes back.
    await page.evaluate(() => Reflect.deleteProperty(AudioWorklet.prototype, 'addModule'));
    await press(page, /^Start the ear again/);
    await page.getByText('Microphone ready').first().waitFor({ timeout: 60_000 });
  });

  test('a component of the page: the same, and it is drawn again', async () => {
    const { page } = browser;
    // No picture can be drawn any more; going away and coming back draws it anew.
    await page.evaluate(() => {
      const make = document.createElementNS.bind(document);
      document.createElementNS = ((space: string, name: string) => {
        if (name === 'svg') throw new Error('planted');
        return make(space, name);
      }) as typeof make;
    });
    await toJobs(browser);
    await press(page, /entries/);
    await page.getByText('The pictures: this part of the page failed. The rest goes on.').waitFor();
    await works(/Step 2/, '1.259', /1\.259/);
    await page.evaluate(() => Reflect.deleteProperty(document, 'createElementNS'));
    await press(page, /^Try again/);
    await page.getByText('this part of the page failed').waitFor({ state: 'detached' });
    await page.locator('.beside svg').first().waitFor();
  });
});
