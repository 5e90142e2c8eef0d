import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { WebSocket as NodeSocket } from 'ws';
import { root } from '../../scripts/setup/root.mjs';
import { createHandOver, type HandOver } from '../../src/app/index.ts';
import { openReplica } from '../../src/app/replica.ts';
import { nanometres } from '../../src/measure/index.ts';
import type { JobEvent } from '../../src/job/index.ts';
import { memoryShelf, momentAfter, readJobFile, type Shelf } from '../../src/shelf/index.ts';
import { forgetProfile, freshProfile, launch, screenshot, type Browser } from './harness.ts';
import { seeded } from '../seeded.ts';
import { handAtRest, press, repliedWith } from './machine-page.ts';
import { sharingDesk, storedIn, wire, type Wire } from './wire.ts';

const demo = readJobFile(readFileSync(join(root, 'src/shelf/demos/inch.job.json'), 'utf8'));
if (!demo.ok) throw new Error('the demo does not read');
const { plan } = demo.value;
const operation = plan.route.operations[1]?.id ?? '';
const JOB = 'shared-1';

/** A device without a page: shelf and hand-over as in the page, over a wire of its own. */
class Device {
  readonly shelf: Shelf;
  readonly said: string[] = [];
  readonly refused: string[] = [];
  readonly #together: ReturnType<typeof createHandOver>;
  readonly #name: string;
  #lastAt = 0;
  #seq = 1;

  constructor(name: string, port: number) {
    this.#name = name;
    this.#together = createHandOver({
      shelf: memoryShelf(() => Date.now()),
      openReplica: (edges) =>
        Promise.resolve(
          openReplica({ ...edges, url: `ws://127.0.0.1:${port}/share`, socket: NodeSocket as unknown as typeof WebSocket }),
        ),
      newId: () => crypto.randomUUID(),
      now: () => Date.now(),
      later: (work, ms) => void setTimeout(work, ms),
      onTaken: () => undefined,
      onStored: () => undefined,
      onRefused: (line) => this.refused.push(line),
    });
    this.shelf = this.#together.shelf;
  }
  get standing(): HandOver['standing'] {
    return this.#together.store.getState().standing;
  }
  start = (code: string): Promise<void> => this.#together.store.getState().start(code);
  stop = (): void => this.#together.store.getState().stop();

  async log(): Promise<readonly string[]> {
    const copy = await this.shelf.copy(JOB);
    return copy.ok ? copy.value.kept.events : [];
  }

  /** Logs one reading as the page does, with what is known here at the moment. */
  async read(count: number): Promise<void> {
    this.#lastAt = momentAfter(this.#lastAt, Date.now());
    const event: JobEvent = {
      id: `${this.#name}-${count}`,
      seq: this.#seq,
      at: this.#lastAt,
      v: 1,
      body: {
        type: 'ReadingLogged',
        operation,
        quantity: 'diameter',
        value: nanometres(32_000_000 - 2_540 * (count % 500)),
        instrument: 'micrometer',
        place: null,
        words: `reading ${count}`,
        confirmed: false,
      },
    };
    const stored = await this.shelf.append(JOB, event);
    if (!stored.ok) throw new Error(JSON.stringify(stored.error));
    this.said.push(event.id);
    this.#seq += 1;
  }
}

const idsOf = (log: readonly string[]): string[] => log.map((text) => (JSON.parse(text) as { id: string }).id);

describe('jobs handed over live between devices', () => {
  const profile = freshProfile();
  let server: Awaited<ReturnType<typeof sharingDesk>>;
  let browser: Browser;
  const devices: Device[] = [];
  const wires: Wire[] = [];

  beforeAll(async () => {
    server = await sharingDesk();
    browser = await launch({ profile });
    for (const name of ['desk', 'tablet']) {
      const line = await wire(Number(new URL(server.url).port), seeded(92 + wires.length));
      wires.push(line);
      devices.push(new Device(name, line.port));
    }
  });
  afterAll(async () => {
    devices.forEach((device) => device.stop());
    wires.forEach((line) => line.close());
    await browser.close();
    server.child.kill('SIGTERM');
    forgetProfile(profile);
  });

  test('a wrong code is told so and not tried again', async () => {
    const [first] = devices as [Device];
    await first.start('WRONG-WRONG');
    await expect.poll(() => first.standing, { timeout: 10_000 }).toBe('refused');
  });

  test('the page fetches the engine only when it is wanted, and connects with the code', async () => {
    const { page } = browser;
    const asked: string[] = [];
    page.on('request', (request) => asked.push(request.url()));
    await page.goto(server.url);
    await press(page, /^More/, /^More/, /^More/, /^Pages, sound/, /^Jobs/);
    expect(asked.filter((url) => /replica/.test(url) && !/sw\.js/.test(url))).toEqual([]);
    await page.getByLabel('Code').fill(server.code.toLowerCase().replace('-', ' '));
    await page.getByRole('button', { name: 'Start', exact: true }).click();
    await page.getByText('Connected. What is logged here appears there.').waitFor({ timeout: 20_000 });
    await screenshot(page, 'together');
  });

  test(
    'two devices and a browser: 500 readings each, 20 cuts and messages out of order, and all end equal (seeds 91 to 93)',
    { timeout: 240_000 },
    async () => {
      const pick = seeded(91);
      const [first, second] = devices as [Device, Device];
      expect((await first.shelf.start(JOB, plan, Date.now())).ok).toBe(true);
      expect((await first.shelf.open(JOB)).ok).toBe(true);
      await first.start(server.code);
      await second.start(server.code);
      await expect.poll(async () => (await second.shelf.open(JOB)).ok, { timeout: 20_000 }).toBe(true);

      let cuts = 0;
      const busy = devices.map(async (device) => {
        for (let count = 1; count <= 500; count += 1) {
          await device.read(count);
          await pause(pick(12));
        }
      });
      const cutting = (async () => {
        for (; cuts < 20; cuts += 1) {
          await pause(50 + pick(300));
          await wires[cuts % 2]?.cut(pick(400));
        }
      })();
      await Promise.all([...busy, cutting]);

      const said = [...first.said, ...second.said].sort();
      const whole = async (device: Device): Promise<string[]> => idsOf(await device.log()).sort();
      await expect.poll(() => whole(first), { timeout: 60_000, interval: 500 }).toEqual(said);
      await expect.poll(() => whole(second), { timeout: 60_000, interval: 500 }).toEqual(said);
      expect(await first.log()).toEqual(await second.log());
      const inPage = (): Promise<readonly string[]> => storedIn(browser.page, JOB);
      await expect.poll(async () => (await inPage()).length, { timeout: 60_000, interval: 500 }).toBe(said.length);
      expect(await inPage()).toEqual(await first.log());
      for (const { shelf, refused } of devices) {
        const opened = await shelf.open(JOB);
        expect(opened.ok && opened.value.damage).toEqual([]);
        expect(refused).toEqual([]);
      }
      const overtaken = wires.reduce((sum, each) => sum + each.overtaken(), 0);
      // Far more than the cuts, or the messages came in order after all.
      expect(overtaken).toBeGreaterThan(100);
      console.log(`hand-over: ${said.length} events, ${cuts} cuts, ${overtaken} messages overtaken, missing 0`);
    },
  );

  test('a reading typed in the page comes to the devices; with the desk gone the page works on', async () => {
    const { page } = browser;
    const [first] = devices as [Device];
    const before = (await first.log()).length;
    await page
      .getByRole('button', { name: /1000 entries|entries/ })
      .last()
      .click();
    await page
      .getByText(/Step \d+ of 25/)
      .first()
      .waitFor();
    await press(page, /^Next/);
    await repliedWith(page, /Step 2\. Turn the collar/);
    await expect.poll(async () => (await first.log()).length, { timeout: 20_000 }).toBeGreaterThan(before);

    const gone = new Promise((resolve) => server.child.once('exit', resolve));
    server.child.kill('SIGKILL');
    await gone;
    await handAtRest();
    await press(page, /^Next/);
    await repliedWith(page, /Step 3|No reading is in the window/);
    await expect.poll(() => first.standing, { timeout: 20_000 }).toBe('cut');
    await first.read(501);
  });
});
