import { afterEach, describe, expect, it } from 'vitest';
import { holdJob, type JobHold, type Standing } from '../../src/shelf/index.ts';
import { lockManager } from './locks.ts';

const PATIENCE_MS = 60;
const open: JobHold[] = [];
afterEach(() => open.splice(0).forEach((hold) => hold.release()));

let jobs = 0;
const until = async (met: () => boolean): Promise<void> => {
  for (let tries = 0; !met(); tries += 1) {
    if (tries > 200) throw new Error('it never came about');
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
};
const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

/** Windows of one browser on one job; `changes` is what each was told. */
function browser(locks: Pick<LockManager, 'request'> | null = lockManager()) {
  jobs += 1;
  const job = `job-${jobs}`;
  const changes: string[] = [];
  const stored: string[] = [];
  return {
    changes,
    stored,
    window: async (name: string, settled: () => Promise<void> = () => Promise.resolve(), hung = false): Promise<JobHold> => {
      const hold = await holdJob(job, {
        locks, window: name, patienceMs: PATIENCE_MS, settled,
        channel: (channelName) => {
          const channel = new BroadcastChannel(channelName);
          // A hung window gets no messages, but the browser can still take its lock away.
          if (hung) channel.addEventListener = () => undefined;
          return channel;
        },
        onStanding: (standing: Standing) => changes.push(`${name} ${standing}`),
        onStored: (seq) => stored.push(`${name} ${seq}`),
      });
      open.push(hold);
      return hold;
    },
  };
}

describe('two windows on one job', () => {
  it('the first writes, the second shows', async () => {
    const { window } = browser();
    expect((await window('first')).standing()).toBe('writing');
    expect((await window('second')).standing()).toBe('showing');
  });

  it('the second writes once the first has gone', async () => {
    const { window, changes } = browser();
    const first = await window('first');
    const second = await window('second');
    first.release();
    await until(() => second.standing() === 'writing');
    expect(changes).toEqual(['second writing']);
  });

  it('are both told what is stored, but not by themselves', async () => {
    const { window, stored } = browser();
    const first = await window('first');
    await window('second');
    first.announce(7);
    await until(() => stored.length > 0);
    await pause(10);
    expect(stored).toEqual(['second 7']);
  });

  it('a take-over waits until the first has stored what it had in hand', async () => {
    const { window, changes } = browser();
    let done: () => void = () => undefined;
    const inHand = new Promise<void>((resolve) => {
      done = () => {
        changes.push('first settled');
        resolve();
      };
    });
    const first = await window('first', () => inHand);
    const second = await window('second');
    const taken = second.takeOver();
    await until(() => changes.length > 0);
    setTimeout(() => done(), 20);
    await taken;
    expect(changes).toEqual(['first showing', 'first settled', 'second writing']);
    expect([first.standing(), second.standing()]).toEqual(['showing', 'writing']);
  });

  it('goes to and fro', async () => {
    const { window } = browser();
    const first = await window('first');
    const second = await window('second');
    for (let times = 0; times < 3; times += 1) {
      await second.takeOver();
      expect([first.standing(), second.standing()]).toEqual(['showing', 'writing']);
      await first.takeOver();
      expect([first.standing(), second.standing()]).toEqual(['writing', 'showing']);
    }
    first.release();
    await until(() => second.standing() === 'writing');
  });

  it('of three windows the one that asks gets it, not the one that waited longer', async () => {
    const { window } = browser();
    const first = await window('first');
    const second = await window('second');
    const third = await window('third');
    await third.takeOver();
    await pause(3 * PATIENCE_MS);
    expect([first, second, third].map((hold) => hold.standing())).toEqual(['showing', 'showing', 'writing']);
  });

  it('a window that hangs is robbed of it', async () => {
    const { window } = browser();
    const first = await window('first', undefined, true);
    const second = await window('second');
    await second.takeOver();
    expect(second.standing()).toBe('writing');
    await until(() => first.standing() === 'showing');
  });

  it('the first writes on where the asker has gone before it took over', async () => {
    const { window, changes } = browser();
    const first = await window('first', () => pause(PATIENCE_MS / 2));
    const second = await window('second');
    void second.takeOver();
    await until(() => first.standing() === 'showing');
    second.release();
    await until(() => first.standing() === 'writing');
    expect(changes).toEqual(['first showing', 'first writing']);
  });

  it('without locks in the browser every window writes', async () => {
    const { window } = browser(null);
    expect((await window('first')).standing()).toBe('writing');
    expect((await window('second')).standing()).toBe('writing');
  });
});
