import { createRoot } from 'react-dom/client';
import { Workbox } from 'workbox-window';
import { Screens } from '../screens/index.ts';
import { askToPersist, browserShelf, holdJob } from '../shelf/index.ts';
import { createAssistant } from './assistant.ts';
import { openPageEar } from './openEar.ts';
import { openVoice } from './openVoice.ts';
import { offerUpdate } from './update.ts';

const place = document.getElementById('root');
if (place === null) throw new Error('index.html has no #root');

const base = new URL('./', document.baseURI).href;
const tick = (): number => performance.now();
const assistant = createAssistant({
  shelf: browserShelf(() => Date.now()),
  holdJob: (job, edges) =>
    holdJob(job, {
      ...edges,
      locks: 'locks' in navigator ? navigator.locks : null,
      channel: (name) => new BroadcastChannel(name),
      window: crypto.randomUUID(),
      patienceMs: 2_000,
    }),
  openEar: () => openPageEar(base),
  openVoice: () => openVoice(base, tick),
  now: () => Date.now(),
  tick,
  newId: () => crypto.randomUUID(),
  demos: {
    inch: async () => (await import('../shelf/demos/inch.job.json?raw')).default,
    metric: async () => (await import('../shelf/demos/metric.job.json?raw')).default,
  },
  // Browsers may clear what a page stores when the disk runs low, unless the page has asked to keep it.
  keepStored: async () => void (await askToPersist(navigator.storage)),
  mark: (name, start, end, detail) => void performance.measure(name, { start, end, detail }),
});

createRoot(place).render(<Screens store={assistant} />);

if (import.meta.env.PROD && 'serviceWorker' in navigator) {
  const worker = new Workbox('./sw.js');
  offerUpdate(assistant, worker);
  void worker.register();
}
