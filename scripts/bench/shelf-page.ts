import { nanometres, type Result } from '../../src/measure/index.ts';
import type { JobEvent } from '../../src/job/index.ts';
import { browserShelf, holdJob, inSlices, readingJobFile, readJobFile, writeJobFile, type JobHold, type Shelf } from '../../src/shelf/index.ts';
import { browserPages } from '../../src/shelf/browserPages.ts';
import { shelfOver } from '../../src/shelf/shelfOver.ts';

/** The page of the store's bench and of its kill test: calls on the real store of a browser. Times are milliseconds. */
const shelf = browserShelf(() => Date.now());
const holds = new Map<string, JobHold>();

/** The longest task since `longest` was asked last, in which the page is neither drawn nor pressed; told from 50 ms on. */
let longestMs = 0;
new PerformanceObserver((list) => {
  for (const { duration } of list.getEntries()) longestMs = Math.max(longestMs, duration);
}).observe({ type: 'longtask' });
async function longest(): Promise<number> {
  // What is observed comes a little later.
  await new Promise((resolve) => setTimeout(resolve, 200));
  const ms = longestMs;
  longestMs = 0;
  return ms;
}
/** As the page pauses: after 30 ms of work, until the browser has taken what else there is. */
let pausedAt = 0;
async function pause(): Promise<void> {
  if (performance.now() - pausedAt < 30) return;
  await new Promise((resolve) => setTimeout(resolve));
  pausedAt = performance.now();
}

function reading(seq: number, operation: string): JobEvent {
  return {
    id: `bench-${seq}`, seq, at: 1_750_000_000_000 + seq, v: 1,
    body: {
      type: 'ReadingLogged', operation, quantity: 'diameter', value: nanometres(16_000_000 - 2_540 * (seq % 1000)),
      instrument: 'micrometer', place: null, words: 'six twenty seven and three tenths', confirmed: false,
    },
  };
}

async function value<T>(result: Promise<Result<T, unknown>>): Promise<T> {
  const got = await result;
  if (!got.ok) throw new Error(JSON.stringify(got.error));
  return got.value;
}

export const shelfPage = {
  /** Starts `count` jobs from the text of a plan file. */
  async start(text: string, count: number): Promise<void> {
    const file = readJobFile(text);
    if (!file.ok) throw new Error('the plan does not read');
    for (let number = 1; number <= count; number += 1) await value(shelf.start(`job-${number}`, file.value.plan, number));
  },
  /** How long each of `count` appends takes, after those that are there. */
  async append(job: string, count: number): Promise<readonly number[]> {
    const { nextSeq, plan } = await value(shelf.open(job));
    const operation = plan.route.operations[0]?.id ?? '';
    const times: number[] = [];
    for (let seq = nextSeq; seq < nextSeq + count; seq += 1) {
      const began = performance.now();
      await value(shelf.append(job, reading(seq, operation)));
      times.push(performance.now() - began);
    }
    return times;
  },
  /** The same appends into a shelf that keeps one copy and into this one, turn about: what the second copy costs. */
  async turnAbout(text: string, count: number): Promise<{ readonly once: readonly number[]; readonly twice: readonly number[] }> {
    const file = readJobFile(text);
    if (!file.ok) throw new Error('the plan does not read');
    const { plan } = file.value;
    const single = shelfOver(browserPages('bench-once'), () => 0);
    const shelves = { once: single, twice: shelf };
    const times: { once: number[]; twice: number[] } = { once: [], twice: [] };
    for (const each of Object.values(shelves)) await value(each.start('turns', plan, 0));
    const operation = plan.route.operations[0]?.id ?? '';
    for (let seq = 1; seq <= count; seq += 1)
      for (const [name, each] of Object.entries(shelves) as ['once' | 'twice', Shelf][]) {
        const began = performance.now();
        await value(each.append('turns', reading(seq, operation)));
        times[name].push(performance.now() - began);
      }
    return times;
  },
  /** Appends without end; `acknowledged` hears of each event once it is on the disk. */
  async appendForEver(job: string, acknowledged: (seq: number) => Promise<void>): Promise<void> {
    const { nextSeq, plan } = await value(shelf.open(job));
    const operation = plan.route.operations[0]?.id ?? '';
    for (let seq = nextSeq; ; seq += 1) {
      await value(shelf.append(job, reading(seq, operation)));
      void acknowledged(seq);
    }
  },
  async take(text: string): Promise<{ readonly as: string; readonly ms: number; readonly longestMs: number }> {
    await longest();
    const began = performance.now();
    const file = await inSlices(readingJobFile(text), pause);
    if (!file.ok) throw new Error(JSON.stringify(file.error));
    const taken = await value(shelf.take(file.value, { newId: 'taken', at: 0, pace: { pause, added: () => undefined } }));
    const ms = performance.now() - began;
    return { as: taken.as, ms, longestMs: await longest() };
  },
  async open(job: string): Promise<Readonly<Record<'events' | 'damage' | 'setAside' | 'ms' | 'longestMs', number>>> {
    await longest();
    const began = performance.now();
    const { events, damage, setAside } = await value(shelf.open(job));
    const ms = performance.now() - began;
    return { events: events.length, damage: damage.length, setAside, ms, longestMs: await longest() };
  },
  async list(): Promise<{ readonly jobs: number; readonly ms: number }> {
    const began = performance.now();
    const jobs = await value(shelf.jobs());
    return { jobs: jobs.length, ms: performance.now() - began };
  },
  async exported(job: string): Promise<{ readonly length: number; readonly ms: number }> {
    const began = performance.now();
    const text = writeJobFile(await value(shelf.copy(job)));
    return { length: text.length, ms: performance.now() - began };
  },
  async hold(job: string, window: string): Promise<string> {
    const hold = await holdJob(job, {
      locks: navigator.locks, channel: (name) => new BroadcastChannel(name), window, patienceMs: 500,
      settled: () => Promise.resolve(), onStanding: () => undefined, onStored: () => undefined,
    });
    holds.set(job, hold);
    return hold.standing();
  },
  standing: (job: string): string => holds.get(job)?.standing() ?? 'none',
  async takeOver(job: string): Promise<string> {
    await holds.get(job)?.takeOver();
    return shelfPage.standing(job);
  },
};
export type ShelfPage = typeof shelfPage;

Object.assign(globalThis, { shelfPage });
