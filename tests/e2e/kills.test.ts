import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { forgetProfile, freshProfile, launch } from './harness.ts';
import { killAgainAndAgain, killAndTear } from './kills/again-and-again.ts';
import { seeded } from '../seeded.ts';
import { killServer, type KillServer } from './kills/server.ts';

/*
 * Readings without end, and the power cut in between, as often as a run of all tests has time for.
 * `npm run bench -- kills` does the same a thousand times.
 */
const ROOM_BYTES = 250_000;

describe('what was acknowledged is there after', () => {
  let server: KillServer;
  const profiles: string[] = [];
  const profile = (): string => {
    const fresh = freshProfile();
    profiles.push(fresh);
    return fresh;
  };

  beforeAll(async () => {
    server = await killServer();
  });
  afterAll(async () => {
    await server.close();
    profiles.forEach(forgetProfile);
  });

  test('200 kills of the whole browser (seeds 71 to 73)', { timeout: 1_200_000 }, async () => {
    // Three browsers side by side: while one waits for its disk the others have the cores.
    const lanes = [67, 67, 66].map((kills, lane) => ({ lane: `lane${lane}`, kills, seed: 71 + lane }));
    const killed = await Promise.all(lanes.map((lane) => killAgainAndAgain(server, profile(), lane)));
    const jobs = killed.flatMap((lane) => lane.jobs).map(server.job);
    expect(jobs.flatMap((job) => job.wrong)).toEqual([]);
    const atRisk = killed.flatMap((lane) => lane.atRisk);
    const acknowledged = atRisk.reduce((sum, each) => sum + each, 0);
    const putBack = jobs.reduce((sum, job) => sum + job.putBack, 0);
    console.log(`kills: ${atRisk.length}, acknowledged ${acknowledged}, put back ${putBack}, missing 0`);
    expect(atRisk).toHaveLength(200);
    // Each kill comes after something was acknowledged; a run in which little was would say little.
    expect(acknowledged).toBeGreaterThan(400);
  });

  test(
    'a database that the browser throws away after a torn write comes back from the second copy',
    { timeout: 180_000 },
    async () => {
      const jobs = (await killAndTear(server, profile(), 'torn')).map(server.job);
      expect(jobs.flatMap((job) => job.wrong)).toEqual([]);
      for (const job of jobs) expect(job.putBack).toBeGreaterThan(0);
    },
  );

  test('60 kills of the worker that stores', { timeout: 180_000 }, async () => {
    const browser = await launch({ profile: profile() });
    await browser.page.goto(server.url(['worker'], 250));
    const job = server.job('worker');
    // A slow machine acknowledges less between two kills: it is killed on until there is something to be lost.
    const enough = (): boolean => server.workersEnded() > 60 && job.acknowledged.length > 20;
    await expect.poll(enough, { timeout: 150_000, interval: 200 }).toBe(true);
    await browser.close();
    expect(job.wrong).toEqual([]);
  });

  test(
    '3 kills with the disk full (seed 73): refused and told so, and what was acknowledged before stays',
    { timeout: 300_000 },
    async () => {
      const pick = seeded(73);
      const full = profile();
      for (let kill = 0; kill < 3; kill += 1) {
        const browser = await launch({ profile: full });
        const { refused } = server.job('full');
        // Room for the plan, some readings and no more: the device runs out of it while they come in.
        const session = await browser.context.newCDPSession(browser.page);
        const { usage } = await session.send('Storage.getUsageAndQuota', { origin: server.origin });
        await session.send('Storage.overrideQuotaForOrigin', { origin: server.origin, quotaSize: usage + ROOM_BYTES });
        await browser.page.goto(server.url(['full']));
        await expect.poll(() => server.job('full').refused, { timeout: 90_000 }).toBeGreaterThan(refused);
        await new Promise((resolve) => setTimeout(resolve, pick(200)));
        await browser.kill();
      }
      const browser = await launch({ profile: full });
      const opened = server.opened('full');
      await browser.page.goto(server.url(['full']));
      await opened;
      await browser.close();
      const { wrong, acknowledged, stored } = server.job('full');
      expect(wrong).toEqual([]);
      expect(acknowledged.length).toBeGreaterThan(0);
      expect(stored).toBeGreaterThan(0);
    },
  );
});
