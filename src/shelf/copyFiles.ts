import { writeBase64 } from './base64.ts';
import {
  logIn,
  readRecords,
  writeRecords,
  type CopiedEvent,
  type CopiedJob,
  type CopiedLog,
  type CopyRecord,
} from './copyRecords.ts';
import { PagesError } from './pages.ts';
import type { CopyEnd, SecondCopy } from './secondCopy.ts';

/** A file that is written by this window alone, in step. */
export type CopyFile = {
  size(): number;
  read(): Uint8Array;
  writeAt(at: number, bytes: Uint8Array<ArrayBuffer>): void;
  cutTo(size: number): void;
  /** Returns when all that was written is on the disk. */
  flush(): void;
  close(): void;
};

/** The folder of the copies: one file for each job, named after it. */
export type CopyFolder = {
  names(): Promise<readonly string[]>;
  /** The bytes of a file as they are now, whoever has it open; null where there is none. */
  peek(name: string): Promise<Uint8Array | null>;
  /** Null where there is none and `create` is false. Asks the window that has it open to let it go. */
  open(name: string, create: boolean): Promise<CopyFile | null>;
  /** Removes all; asks the windows that have files open to let them go. */
  removeAll(): Promise<void>;
};

/** Files that stay open at once; an event of another job opens its file anew. */
const MOST_OPEN = 8;

type Open = { readonly file: CopyFile; end: number; log: { job: CopiedJob; events: CopiedEvent[]; clips: Set<string> } | null };

/**
 * The second copy over files that only grow. `letGo` closes the file of a job that another window asks for, null for all;
 * `gettingOn` is called now and then in a long reading.
 */
export function copyFiles(
  folder: CopyFolder,
  gettingOn: () => void = () => undefined,
): SecondCopy & { letGo(job: string | null): Promise<void> } {
  const open = new Map<string, Open>();
  let last: Promise<unknown> = Promise.resolve();
  /** One after the other, so that the order of calls is the order in the files. */
  function inTurn<T>(work: () => Promise<T>): Promise<T> {
    const next = last.then(work);
    last = next.catch(() => undefined);
    return next;
  }

  function close(job: string): void {
    open.get(job)?.file.close();
    open.delete(job);
  }
  async function opened(job: string, create: boolean): Promise<Open | null> {
    const known = open.get(job);
    if (known !== undefined) {
      open.delete(job);
      open.set(job, known);
      return known;
    }
    const file = await folder.open(job, create);
    if (file === null) return null;
    const { records, end } = readRecords(file.read(), gettingOn);
    const log = logIn(records);
    const made: Open = {
      file,
      end,
      log: log === null ? null : { job: log.job, events: [...log.events], clips: new Set(log.clips.keys()) },
    };
    // What was cut off is taken away at once: behind it nothing could be read.
    if (file.size() > end) file.cutTo(end);
    open.set(job, made);
    const [oldest] = open.keys();
    if (open.size > MOST_OPEN && oldest !== undefined) close(oldest);
    return made;
  }
  /** Writes records behind the last one that holds. After a fault the file is read anew before the next is written. */
  function write(job: string, to: Open, records: readonly CopyRecord[]): void {
    const bytes = writeRecords(records, gettingOn);
    try {
      to.file.writeAt(to.end, bytes);
      to.file.flush();
    } catch (error) {
      close(job);
      throw error;
    }
    to.end += bytes.length;
  }
  const peeked = async (job: string): Promise<CopiedLog | null> => {
    const bytes = open.get(job)?.file.read() ?? (await folder.peek(job));
    return bytes === null ? null : logIn(readRecords(bytes, gettingOn).records);
  };
  const endOf = (job: CopiedJob, events: readonly CopiedEvent[], clips: Iterable<string>): CopyEnd => ({
    events: events.length,
    digest: events.at(-1)?.digest ?? job.digest,
    clips: [...clips],
  });

  return {
    jobs: () => inTurn(() => folder.names()),
    end: (job) =>
      inTurn(async () => {
        const known = open.get(job)?.log;
        const log = known ?? (await peeked(job));
        return log === null ? null : endOf(log.job, log.events, log.clips.keys());
      }),
    read: (job) => inTurn(() => peeked(job)),
    append: (job, events, before) =>
      inTurn(async () => {
        const to = await opened(job, false);
        const log = to?.log;
        if (to === null || log === null || log === undefined) return 'behind';
        const lastHere = log.events.at(-1);
        const lastAsked = events.at(-1);
        // A store that refused them is asked again with the same events.
        if (lastHere?.seq === lastAsked?.seq && lastHere?.digest === lastAsked?.digest) return 'written';
        if (events[0]?.seq !== log.events.length + 1 || (lastHere?.digest ?? log.job.digest) !== before) return 'behind';
        write(
          job,
          to,
          events.map((event) => ({ is: 'event', ...event }) as const),
        );
        for (const event of events) log.events.push(event);
        return 'written';
      }),
    complete: (job, events) =>
      inTurn(async () => {
        const to = await opened(job.id, true);
        if (to === null) throw new PagesError('denied', `the copy of ${job.id} cannot be made`);
        if (to.log === null) {
          write(job.id, to, [{ is: 'job', job }, ...events.map((event) => ({ is: 'event', ...event }) as const)]);
          to.log = { job, events: [...events], clips: new Set() };
          return endOf(job, events, []);
        }
        const { log } = to;
        if (log.job.digest !== job.digest) throw new PagesError('denied', `the copy of ${job.id} is of another job`);
        let same = Math.min(log.events.length, events.length);
        while (same > 0 && log.events[same - 1]?.digest !== events[same - 1]?.digest) same -= 1;
        const more = events.slice(same);
        if (more.length > 0) {
          const replaced: CopyRecord[] = same < log.events.length ? [{ is: 'replaced', from: same + 1, count: more.length }] : [];
          write(job.id, to, [...replaced, ...more.map((event) => ({ is: 'event', ...event }) as const)]);
          log.events = [...log.events.slice(0, same), ...more];
        }
        return endOf(log.job, log.events, log.clips);
      }),
    keepClip: (job, clip, wav) =>
      inTurn(async () => {
        const to = await opened(job, false);
        const log = to?.log;
        if (to === null || log === null || log === undefined) return;
        write(job, to, [{ is: 'clip', clip, wav: writeBase64(wav) }]);
        log.clips.add(clip);
      }),
    wipe: () =>
      inTurn(async () => {
        [...open.keys()].forEach(close);
        await folder.removeAll();
      }),
    letGo: (job) =>
      inTurn(() => {
        (job === null ? [...open.keys()] : [job]).forEach(close);
        return Promise.resolve();
      }),
  };
}
