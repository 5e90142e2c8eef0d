import { createRoot } from 'react-dom/client';
import { Workbox } from 'workbox-window';
import { Screens } from '../screens/index.ts';
import { askToPersist, browserShelf, describeTaken, holdJob } from '../shelf/index.ts';
import { createAssistant } from './assistant.ts';
import type { Notice } from './assistantState.ts';
import { followBack } from './browserBack.ts';
import { deciding, reading } from './conversation.ts';
import { createFaultLog } from './faultLog.ts';
import { lateHandOver } from './lateHandOver.ts';
import { noticesOf } from './notices.ts';
import { offerUpdate } from './update.ts';

const place = document.getElementById('root');
if (place === null) throw new Error('index.html has no #root');

const base = new URL('./', document.baseURI).href;
const tick = (): number => performance.now();
const now = (): number => Date.now();
const later = (work: () => void, ms: number): void => void setTimeout(work, ms);

/** The first press of anything. The browser's own word for it also counts what a tool that looks at the page evaluates there. */
const pressed = new Promise<void>((once) => {
  for (const press of ['pointerup', 'keydown'])
    addEventListener(press, () => once(), { once: true, capture: true, passive: true });
});

/** Lets the browser paint and take input first; in order, and not held back where the page is hidden, as a timer would be. */
const afterPainting = (): Promise<void> =>
  new Promise((go) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      go();
    };
    port2.postMessage(null);
  });

/** The browser draws within a frame or two; where it does not, as in a hidden page, nothing waits for it longer than this. */
const DRAWN_WITHIN_MS = 100;

/** Waits until what has changed has been drawn; in order. */
async function drawn(): Promise<void> {
  if (document.visibilityState === 'visible')
    await new Promise<void>((done) => {
      const late = setTimeout(done, DRAWN_WITHIN_MS);
      requestAnimationFrame(() => {
        clearTimeout(late);
        done();
      });
    });
  // What is sent from within a frame is taken after it.
  await afterPainting();
}

/** Until the store has been read and there is a page to show. */
function opened(): Promise<void> {
  return new Promise((done) => {
    const look = (): void => {
      if (assistant.getState().page === 'starting') return;
      stop();
      done();
    };
    const stop = assistant.subscribe(look);
    look();
  });
}

/** Until the first page has been drawn and there is nothing more to do at the moment, a second later at most. */
async function firstPageDrawn(): Promise<void> {
  await opened();
  await new Promise((done) => setTimeout(done, 100));
  if ('requestIdleCallback' in window) await new Promise((done) => requestIdleCallback(done, { timeout: 1_000 }));
}

const faults = createFaultLog(now);
addEventListener('error', ({ error, message }) => faults.note('page', error ?? message));
addEventListener('unhandledrejection', ({ reason }) => faults.note('page', reason));

const together = lateHandOver({
  shelf: browserShelf(now),
  openReplica: async (edges) => {
    const { openReplica } = await import('./replica.ts');
    return openReplica({ ...edges, url: new URL('share', base).href.replace(/^http/, 'ws') });
  },
  newId: () => crypto.randomUUID(),
  now,
  later,
  onTaken: (taken) => {
    const shown = assistant.getState();
    // Asking for the page that is shown reads its list again.
    if (shown.page === 'jobs') shown.goTo('jobs');
    if (taken.as !== 'new' && !(taken.as === 'merged' && taken.both.length > 0)) return;
    const remedy = { label: 'Open it', run: () => void assistant.getState().openJob(taken.id) };
    tell('hand-over', `From the other device: ${describeTaken(taken)}`, remedy);
  },
  onStored: (job) => {
    // Windows that have the job open, this one included, read it again as if another window had written it.
    const channel = new BroadcastChannel(`swarfside-job:${job}`);
    channel.postMessage({ type: 'stored', seq: 0 });
    channel.close();
  },
  onRefused: (line) => tell('hand-over', line, null),
});

const assistant = createAssistant({
  shelf: together.shelf,
  holdJob: (job, edges) =>
    holdJob(job, {
      ...edges,
      locks: 'locks' in navigator ? navigator.locks : null,
      channel: (name) => new BroadcastChannel(name),
      window: crypto.randomUUID(),
      patienceMs: 2_000,
    }),
  // Fetched after the page rather than before it: nothing is heard or said until something has been pressed.
  openEar: async () => (await import('./openEar.ts')).openPageEar(base),
  openVoice: async () => {
    // The assistant asks for it while it is made; its sounds are most of what is fetched, and the page comes first.
    await Promise.resolve();
    await unhurried;
    return (await import('./openVoice.ts')).openVoice(base, tick, pressed);
  },
  now,
  tick,
  afterPainting,
  drawn,
  newId: () => crypto.randomUUID(),
  demos: {
    inch: async () => (await import('../shelf/demos/inch.job.json?raw')).default,
    metric: async () => (await import('../shelf/demos/metric.job.json?raw')).default,
  },
  // Browsers may clear what a page stores when the disk runs low, unless the page has asked to keep it.
  keepStored: async () => void (await askToPersist(navigator.storage)),
  mark: (name, start, end, detail) => void performance.measure(name, { start, end, detail }),
});

function tell(id: string, text: string, remedy: Notice['remedy'], part: Notice['part'] = 'shelf'): void {
  noticesOf(assistant).notify({ id, part, text, remedy });
}

// Much is fetched after the first screen. Where some of it does not come, a press of what needs it would do nothing, in silence.
addEventListener('vite:preloadError', () =>
  tell(
    'page',
    'A part of it could not be fetched, so some presses may do nothing. What was read is kept. Load the page again.',
    { label: 'Load again', run: () => location.reload() },
    'page',
  ),
);

assistant.setState({ handOver: together.store });
followBack(assistant, { history, onMoved: (moved) => window.addEventListener('popstate', ({ state }) => moved(state)) });

// A part of the page that fails is kept to itself by its boundary; what failed is noted for the diagnostic file.
const root = createRoot(place, { onCaughtError: (error) => faults.note('screen', error) });
// Until there is something else to show, index.html shows it.
void opened().then(() => root.render(<Screens store={assistant} />));

/** Resolves once what the first press and the first words need has been fetched too; nothing else is fetched before. */
const readyToHand = firstPageDrawn().then(() => Promise.allSettled([deciding(), reading()]));

/** How long the page is left to the eyes and the first press alone before it fetches what nobody has asked for yet. */
const FIRST_LOOK_MS = 4_000;
const lookedAt = readyToHand.then(() => new Promise<void>((done) => setTimeout(done, FIRST_LOOK_MS)));
/** After the first look, or with the first press: that one is answered aloud. */
const unhurried = Promise.race([lookedAt, Promise.all([pressed, readyToHand])]);

// A backup is written some seconds after a change, and a page without it loses nothing.
void unhurried.then(async () => {
  try {
    const { openSafekeeping } = await import('./openSafekeeping.ts');
    const edges = { shelf: together.shelf, assistant, faults, now, tick, newId: () => crypto.randomUUID(), later, afterPainting };
    assistant.setState({ safekeeping: openSafekeeping(edges) });
  } catch (error) {
    faults.note('backup', error);
  }
});

if (import.meta.env.PROD && 'serviceWorker' in navigator) {
  const worker = new Workbox('./sw.js');
  offerUpdate(assistant, worker, () => location.reload());
  // At once where a version is kept already, since a newer one may be waiting. The very first one fetches all there is, with the
  // same network and processor as the page that somebody looks at for the first time.
  const kept = navigator.serviceWorker.controller !== null;
  void (kept ? Promise.resolve() : lookedAt).then(() => worker.register());
}
