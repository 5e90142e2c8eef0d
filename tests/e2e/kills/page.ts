import { Conversation } from '../../../src/app/index.ts';
import { deciding, reading } from '../../../src/app/conversation.ts';
import type { JobEvent } from '../../../src/job/index.ts';
import { nanometres } from '../../../src/measure/index.ts';
import { browserShelf, openLog, readJobFile, type Shelf, type StoredJob } from '../../../src/shelf/index.ts';

/*
 * The page of the kill tests, and the worker that it starts. `?jobs=` names jobs that are worked on at the same time without end.
 * The first goes through the same conversation, log and store as in Swarfside, a typed reading after the other; the others put
 * readings into their logs as fast as the store takes them, so that every kill finds one on its way. Whatever was acknowledged
 * is told to the test's server at once. `?stint=` is how long, at most, the page lets a worker live, in milliseconds: then it
 * does the work in workers and ends one after the other. Without it the page works by itself until it is killed.
 */
const params = new URLSearchParams(location.search);
const jobs = (params.get('jobs') ?? 'job').split(',');
const stint = Number(params.get('stint') ?? '0');

const tell = (what: string, job: string, body: unknown): Promise<unknown> =>
  fetch(`./${what}?job=${job}`, { method: 'POST', body: JSON.stringify(body) });

/** Tells what was acknowledged, with all that has been since the last telling was under way. */
function teller(job: string): (ids: readonly string[]) => void {
  let waiting: string[] = [];
  let telling = false;
  async function send(): Promise<void> {
    telling = true;
    while (waiting.length > 0) {
      const ids = waiting;
      waiting = [];
      await tell('acknowledged', job, ids);
    }
    telling = false;
  }
  return (ids) => {
    waiting.push(...ids);
    // Not awaited: the next reading does not wait for the network, as speech would not.
    if (!telling) void send();
  };
}

let plan: Promise<string> | null = null;
const planText = (): Promise<string> => (plan ??= fetch('./plan').then((response) => response.text()));

async function opened(shelf: Shelf, job: string): Promise<StoredJob> {
  let stored = await shelf.open(job);
  if (!stored.ok && stored.error.key === 'no-such-job') {
    const file = readJobFile(await planText());
    if (!file.ok) throw new Error('the plan does not read');
    stored = await shelf.start(job, file.value.plan, Date.now());
  }
  if (!stored.ok) throw new Error(JSON.stringify(stored.error));
  const { events, damage, setAside } = stored.value;
  const back = damage.flatMap((each) => (each.key === 'put-back' ? [each] : []));
  await tell('opened', job, {
    ids: events.map((event) => event.id),
    putBack: back.reduce((sum, each) => sum + each.events, 0),
    damage: damage.length - back.length,
    setAside: setAside - back.reduce((sum, each) => sum + each.setAside, 0),
    copy: shelf.secondCopy().as,
  });
  return stored.value;
}

/** Works through a job as a person would who types: three readings and a striking, again and again. */
async function talkThrough(shelf: Shelf, stored: StoredJob): Promise<void> {
  const acknowledged = teller(stored.id);
  let fresh: string[] = [];
  const talk = new Conversation(stored, {
    log: openLog(shelf, stored),
    now: () => Date.now(),
    tick: () => performance.now(),
    newId: () => {
      const id = crypto.randomUUID();
      fresh.push(id);
      return id;
    },
    bareReadings: () => true,
  });
  async function turn(words: string): Promise<void> {
    fresh = [];
    let taken = await talk.type(words);
    // What looks wrong to the page is confirmed.
    if (taken.outcome === 'asked') taken = await talk.press({ type: 'yes' });
    if (fresh.length === 0) return;
    if (taken.fault === null) acknowledged(fresh);
    else void tell('refused', stored.id, fresh);
  }
  // The first step is facing; the second has a diameter to read.
  if (talk.state.open === talk.state.plan.route.operations[0]?.id) await turn('next');
  for (let count = 0; ; count += 1) await turn(count % 4 === 3 ? 'scratch that' : `1.26${count % 4}`);
}

/** Puts one reading after the other into the log of a job. */
async function logReadings(shelf: Shelf, stored: StoredJob): Promise<void> {
  const acknowledged = teller(stored.id);
  const log = openLog(shelf, stored);
  const operation = stored.plan.route.operations[1]?.id ?? '';
  for (let seq = stored.nextSeq; ; seq += 1) {
    const event: JobEvent = {
      id: crypto.randomUUID(),
      seq,
      at: Date.now(),
      v: 1,
      body: {
        type: 'ReadingLogged',
        operation,
        quantity: 'diameter',
        value: nanometres(32_000_000 - 2_540 * (seq % 500)),
        instrument: 'micrometer',
        place: null,
        words: `reading ${seq}`,
        confirmed: false,
      },
    };
    const done = await log.append(event);
    if (!done.ok) throw new Error(JSON.stringify(done.error));
    acknowledged([event.id]);
  }
}

/** The parts of the conversation that it fetches at the first words; a short stint would be spent on them. */
const fetched = (): Promise<unknown> => Promise.all([reading(), deciding()]);

async function work(): Promise<void> {
  await fetched();
  const shelf = browserShelf(() => Date.now());
  const stored: StoredJob[] = [];
  for (const job of jobs) stored.push(await opened(shelf, job));
  await Promise.all(stored.map((job, index) => (index === 0 ? talkThrough : logReadings)(shelf, job)));
}

/** Ends workers at moments that nobody chose, without a word to them. */
async function killWorkers(job: string): Promise<void> {
  for (let ended = 0; ; ended += 1) {
    const worker = new Worker(`./page.js?jobs=${job}`, { type: 'module' });
    await new Promise((resolve) => {
      // Its first message says that it is at work.
      worker.onmessage = resolve;
    });
    await new Promise((resolve) => setTimeout(resolve, Math.random() * stint));
    worker.terminate();
    await tell('worker-ended', job, ended);
  }
}

const [first = 'job'] = jobs;
const failed = (error: unknown): void => void tell('failed', first, error instanceof Error ? error.message : String(error));
if (typeof document === 'undefined') {
  fetched()
    .then(() => {
      (globalThis as unknown as { postMessage: (message: string) => void }).postMessage('at work');
      return work();
    })
    .catch(failed);
} else if (stint > 0) killWorkers(first).catch(failed);
else work().catch(failed);
