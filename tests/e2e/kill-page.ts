import { Conversation } from '../../src/app/index.ts';
import { browserShelf, openLog, readJobFile, type Shelf } from '../../src/shelf/index.ts';

/*
 * The page of the kill tests, and the worker that it starts: one job, worked through by the same conversation, log and store as
 * in Swarfside, a typed reading after the other without end. Whatever was acknowledged is told to the test's server at once.
 * `?job=` names the job; `?stint=` is how long, at most, the page lets a worker live, in milliseconds: then it does the work in
 * workers and ends one after the other. Without it the page works by itself until it is killed.
 */
const params = new URLSearchParams(location.search);
const job = params.get('job') ?? 'job';
const stint = Number(params.get('stint') ?? '0');

const tell = (what: string, body: unknown): Promise<unknown> =>
  fetch(`./${what}?job=${job}`, { method: 'POST', body: JSON.stringify(body) });

async function opened(shelf: Shelf): Promise<Conversation> {
  let stored = await shelf.open(job);
  if (!stored.ok && stored.error.key === 'no-such-job') {
    const plan = readJobFile(await (await fetch('./plan')).text());
    if (!plan.ok) throw new Error('the plan does not read');
    stored = await shelf.start(job, plan.value.plan, Date.now());
  }
  if (!stored.ok) throw new Error(JSON.stringify(stored.error));
  const { events, damage, setAside } = stored.value;
  await tell('opened', { ids: events.map((event) => event.id), damage: damage.length, setAside });
  return new Conversation(stored.value, {
    log: openLog(shelf, stored.value),
    now: () => Date.now(),
    tick: () => performance.now(),
    newId: () => {
      const id = crypto.randomUUID();
      fresh.push(id);
      return id;
    },
    bareReadings: () => true,
  });
}

/** The ids of the events of the turn that is being taken. */
let fresh: string[] = [];

/** One reading or its striking, as a person would type it; what looks wrong to the page is confirmed. */
async function turn(talk: Conversation, words: string): Promise<void> {
  fresh = [];
  let taken = await talk.type(words);
  if (taken.outcome === 'asked') taken = await talk.press({ type: 'yes' });
  if (fresh.length === 0) return;
  // Not awaited: the next reading does not wait for the network, as speech would not.
  void tell(taken.fault === null ? 'acknowledged' : 'refused', fresh);
}

async function work(): Promise<void> {
  const talk = await opened(browserShelf(() => Date.now()));
  // The first step is facing; the second has a diameter to read.
  if (talk.state.open === talk.state.plan.route.operations[0]?.id) await turn(talk, 'next');
  for (let count = 0; ; count += 1) await turn(talk, count % 4 === 3 ? 'scratch that' : `1.26${count % 4}`);
}

/** Ends workers at moments that nobody chose, without a word to them. */
async function killWorkers(): Promise<void> {
  for (let ended = 0; ; ended += 1) {
    const worker = new Worker(`./page.js?job=${job}`, { type: 'module' });
    await new Promise((resolve) => {
      // Its first message says that it is at work.
      worker.onmessage = resolve;
    });
    await new Promise((resolve) => setTimeout(resolve, Math.random() * stint));
    worker.terminate();
    await tell('worker-ended', ended);
  }
}

const failed = (error: unknown): void => void tell('failed', error instanceof Error ? error.message : String(error));
if (typeof document === 'undefined') {
  (globalThis as unknown as { postMessage: (message: string) => void }).postMessage('at work');
  work().catch(failed);
} else if (stint > 0) killWorkers().catch(failed);
else work().catch(failed);
