import { setTimeout as pause } from 'node:timers/promises';
import { bareBrowser, tearDatabase } from './bare-browser.ts';
import { seeded } from '../../seeded.ts';
import type { KillServer } from './server.ts';

/** Jobs that are worked on at once: a conversation and three logs. */
const JOBS_AT_ONCE = 4;
/** After so many kills these jobs are left and others begun, so that logs are of a day's length. */
const KILLS_A_JOB = 10;
/** One kill in so many is of a browser in several processes, as people run it. */
const WHOLE_EVERY = 5;
const PATIENCE_MS = 120_000;
const MOST_OWN_ENDS = 5;

export type Killing = {
  readonly lane: string;
  readonly kills: number;
  readonly seed: number;
  readonly onKill?: (atRisk: number, wrong: readonly string[]) => void;
};

export type Killed = {
  readonly jobs: readonly string[];
  /** How many events were acknowledged between the opening and each kill. */
  readonly atRisk: readonly number[];
};

/**
 * Kills the browser again and again while it takes readings, each time at a moment up to 400 ms after the first reading of this
 * start was acknowledged, and opens every log once more at the end. `lane` names the jobs of this profile; `onKill` is told of
 * every kill how many events it put at risk, and what has been found wrong so far.
 */
export async function killAgainAndAgain(
  server: KillServer,
  profile: string,
  { lane, kills, seed, onKill }: Killing,
): Promise<Killed> {
  const pick = seeded(seed);
  const all = new Set<string>();
  const atRisk: number[] = [];
  const acknowledged = (names: readonly string[]): number =>
    names.reduce((sum, name) => sum + server.job(name).acknowledged.length, 0);

  /** Opens the logs and stays; false where the browser ended by itself, as a Chromium that runs in no one process does. */
  async function visit(names: readonly string[], oneProcess: boolean, stay: () => Promise<void>): Promise<boolean> {
    const stayed = Promise.all(names.map(server.opened))
      .then(stay)
      .then(() => 'stayed' as const);
    const browser = await bareBrowser(profile, server.url(names), { oneProcess });
    const enough = new AbortController();
    const late = pause(PATIENCE_MS, 'late' as const, { signal: enough.signal }).catch(() => 'late' as const);
    const became = await Promise.race([stayed, browser.gone.then(() => 'ended' as const), late]);
    enough.abort();
    await browser.kill();
    if (became === 'late') server.job(names[0] ?? lane).wrong.push('the logs were not opened, or nothing was acknowledged');
    return became !== 'ended';
  }
  let ownEnds = 0;
  for (let kill = 0; kill < kills; kill += 1) {
    const day = Math.floor(kill / KILLS_A_JOB);
    const names = Array.from({ length: JOBS_AT_ONCE }, (_, index) => `${lane}-${day}-${index}`);
    for (const name of names) all.add(name);
    const before = acknowledged(names);
    const whole = kill % WHOLE_EVERY === 0 || ownEnds > 0;
    const killed = await visit(names, !whole, async () => {
      await server.acknowledging(names);
      await pause(pick(400));
    });
    if (killed) {
      const risked = acknowledged(names) - before;
      atRisk.push(risked);
      onKill?.(
        risked,
        [...all].map(server.job).flatMap((job) => job.wrong),
      );
    } else {
      ownEnds += 1;
      kill -= 1;
      if (ownEnds > MOST_OWN_ENDS) throw new Error('Chromium ends by itself again and again');
    }
  }
  await visit([...all], false, () => Promise.resolve());
  for (const { copy, wrong } of [...all].map(server.job)) if (copy !== 'kept') wrong.push(`the second copy: ${copy}`);
  return { jobs: [...all], atRisk };
}

/**
 * Kills the browser, tears its database, and opens the logs twice more: at the second opening the browser has thrown the
 * database away. Gives the names of the jobs.
 */
export async function killAndTear(server: KillServer, profile: string, lane: string): Promise<readonly string[]> {
  const names = [`${lane}-0`, `${lane}-1`];
  for (let start = 0; start < 3; start += 1) {
    const opened = Promise.all(names.map(server.opened));
    const browser = await bareBrowser(profile, server.url(names), { oneProcess: false });
    await opened;
    if (start < 2) await Promise.all(names.map((name) => server.acknowledging([name])));
    await browser.kill();
    if (start === 0) tearDatabase(profile);
  }
  return names;
}
