import { link } from './chain.ts';
import type { Json } from './json.ts';
import { readLoggedEvent, type LoggedEvent } from './loggedEvent.ts';
import type { EventRow, HeadRow, JobRow } from './pages.ts';

/** What was found wrong in a stored job, as data. Numbers are those of events. */
export type Damage =
  /**
   * Event `from` cannot be trusted, and those after it hang in the air: they were set aside. `sound` of them hold by
   * themselves; `lost` more were acknowledged once and are gone from the store.
   */
  | {
      readonly key: 'tail-set-aside'; readonly cause: 'altered' | 'gap' | 'unreadable'; readonly from: number; readonly setAside: number;
      readonly sound: number; readonly lost: number;
    }
  /** The last `lost` events, from number `from`, were acknowledged once and are gone from the store. */
  | { readonly key: 'cut-short'; readonly from: number; readonly lost: number }
  /** The plan still reads, but is not as it was stored. */
  | { readonly key: 'plan-altered' }
  /** The job's line in the list was missing or wrong, and was made anew from the log. */
  | { readonly key: 'list-line-mended' }
  /**
   * The browser's database had lost the job (`whole`), its plan, or `events` of its events; they were put back from the second
   * copy. `setAside` were damaged and are replaced by what was put back.
   */
  | { readonly key: 'put-back'; readonly events: number; readonly plan: boolean; readonly whole: boolean; readonly setAside: number };

export type LogEntry = { readonly row: EventRow; readonly read: Exclude<LoggedEvent, { as: 'not-an-event' }> };

export type CheckedLog = {
  readonly good: readonly LogEntry[];
  /** From the first event that cannot be trusted to the end. */
  readonly tail: readonly { readonly row: EventRow; readonly sound: boolean }[];
  readonly damage: readonly Damage[];
};

function readRow(row: EventRow): LogEntry | null {
  let json: Json;
  try {
    json = JSON.parse(row.text) as Json;
  } catch {
    return null;
  }
  const read = readLoggedEvent(json, []);
  return read.as === 'not-an-event' || read.event.id !== row.id || read.event.seq !== row.seq ? null : { row, read };
}

const holds = (before: string, row: EventRow): boolean => typeof row.text === 'string' && link(before, row.text) === row.digest;

/** Whether a row is number `seq` after the digest `before`, whatever event it holds. */
export const follows = (before: string, seq: number, row: EventRow): boolean => row.seq === seq && holds(before, row);

/** The entry that a row makes after the digest `before` and as number `seq`; null where it does not hold there. */
export const entryAfter = (before: string, seq: number, row: EventRow): LogEntry | null =>
  follows(before, seq, row) ? readRow(row) : null;

/** A log on its way through the check. Rows come in the order of their keys, in any number of parts; any may be damaged. */
export type LogCheck = {
  readonly take: (rows: readonly EventRow[]) => void;
  /** What was found once all rows have been taken. */
  readonly found: () => CheckedLog;
};

/** Follows the chain from the plan to the last event. */
export function logCheck(job: JobRow, head: HeadRow | undefined): LogCheck {
  const good: LogEntry[] = [];
  const tail: { readonly row: EventRow; readonly sound: boolean }[] = [];
  let before = job.digest;
  let cause: 'altered' | 'gap' | 'unreadable' | null = null;

  function take(row: EventRow): void {
    if (cause === null) {
      if (row.seq !== good.length + 1) cause = 'gap';
      else if (!holds(before, row)) cause = 'altered';
      const entry: LogEntry | null = cause === null ? readRow(row) : null;
      if (entry !== null) {
        good.push(entry);
        before = row.digest;
        return;
      }
      cause ??= 'unreadable';
    }
    const previous = tail.at(-1)?.row;
    tail.push({ row, sound: previous !== undefined && row.seq === previous.seq + 1 && holds(previous.digest, row) });
  }
  function damage(): readonly Damage[] {
    if (cause !== null) {
      const sound = tail.filter((entry) => entry.sound).length;
      const lost = Math.max(0, (head?.events ?? 0) - good.length - tail.length);
      return [{ key: 'tail-set-aside', cause, from: good.length + 1, setAside: tail.length, sound, lost }];
    }
    if (head !== undefined && head.events > good.length)
      return [{ key: 'cut-short', from: good.length + 1, lost: head.events - good.length }];
    const fits = head !== undefined && head.events === good.length && head.digest === before;
    return fits ? [] : [{ key: 'list-line-mended' }];
  }
  return { take: (rows) => rows.forEach(take), found: () => ({ good, tail, damage: damage() }) };
}
