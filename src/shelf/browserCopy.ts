import type { CopyQuestion, FromCopy, ToCopy } from './copy-messages.ts';
import type { CopiedLog } from './copyRecords.ts';
import { PagesError } from './pages.ts';
import type { CopyEnd, SecondCopy } from './secondCopy.ts';

/** A worker that does not answer for so long, nor says that it is busy, has failed; the store then goes on with one copy. */
const PATIENCE_MS = 20_000;

type Waiting = {
  readonly answered: (value: unknown) => void;
  readonly failed: (error: PagesError) => void;
  /** Waits as long again. */
  readonly again: () => void;
};

/**
 * The second copy in the private file system of this origin, kept by a worker of its own; null in a browser that has none. The
 * worker is started at the first call, and again at the next one after it has failed.
 */
export function browserCopy(name: string): SecondCopy | null {
  // Missing in Node, and on pages served without HTTPS.
  const storage = typeof navigator === 'undefined' ? undefined : (navigator.storage as StorageManager | undefined);
  if (typeof Worker === 'undefined' || storage?.getDirectory === undefined) return null;
  const waiting = new Map<number, Waiting>();
  let asked = 0;
  let worker: Worker | null = null;

  function end(detail: string): void {
    worker?.terminate();
    worker = null;
    for (const each of waiting.values()) each.failed(new PagesError('denied', detail));
    waiting.clear();
  }
  function started(): Worker {
    if (worker !== null) return worker;
    const made = new Worker(new URL('./copy.worker.ts', import.meta.url), { type: 'module', name: `${name}-copies` });
    made.onerror = (event) => {
      event.preventDefault();
      end(`the worker of the second copy failed: ${event.message}`);
    };
    made.onmessage = ({ data }: MessageEvent<FromCopy>) => {
      if ('busy' in data) {
        for (const each of waiting.values()) each.again();
        return;
      }
      const one = waiting.get(data.no);
      waiting.delete(data.no);
      if (data.ok) one?.answered(data.value);
      else one?.failed(new PagesError(data.reason, data.detail));
    };
    worker = made;
    return made;
  }
  function ask<T>(question: CopyQuestion): Promise<T> {
    asked += 1;
    const no = asked;
    return new Promise<T>((resolve, reject) => {
      const patience = (): ReturnType<typeof setTimeout> =>
        setTimeout(() => end('the worker of the second copy does not answer'), PATIENCE_MS);
      let late = patience();
      const again = (): void => {
        clearTimeout(late);
        late = patience();
      };
      const over =
        <V>(then: (value: V) => void) =>
        (value: V) => {
          clearTimeout(late);
          then(value);
        };
      waiting.set(no, { answered: over((value) => resolve(value as T)), failed: over(reject), again });
      const message: ToCopy = { no, question };
      started().postMessage(message);
    });
  }
  return {
    jobs: () => ask<readonly string[]>({ ask: 'jobs' }),
    end: (job) => ask<CopyEnd | null>({ ask: 'end', job }),
    read: (job) => ask<CopiedLog | null>({ ask: 'read', job }),
    append: (job, events, before) => ask<'written' | 'behind'>({ ask: 'append', job, events, before }),
    complete: (job, events) => ask<CopyEnd>({ ask: 'complete', job, events }),
    keepClip: async (job, clip, wav) => void (await ask({ ask: 'keepClip', job, clip, wav })),
    wipe: async () => void (await ask({ ask: 'wipe' })),
  };
}
