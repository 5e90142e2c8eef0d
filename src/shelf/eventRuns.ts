import type { EventRow } from './pages.ts';

/**
 * Events that came in together, as one row of the browser's database under the number of the first: what a row costs there, some
 * .3 ms of a processor to write, is the same however little is in it. The three lists go together.
 */
export type RunRow = {
  readonly job: string;
  readonly seq: number;
  /** The id of the first. */
  readonly id: string;
  readonly ids: readonly string[];
  readonly texts: readonly string[];
  readonly digests: readonly string[];
};
export type StoredEvents = EventRow | RunRow;

/** So many events are one row at the most. */
export const EVENTS_A_RUN = 50;
/** Letters in a row at the most: Chromium puts values of 64 KiB and more into files of their own; a letter may take two bytes. */
const LETTERS_A_RUN = 24_000;

const rowOf = (events: readonly EventRow[]): readonly StoredEvents[] => {
  const [first] = events;
  if (first === undefined || events.length === 1) return events;
  const { job, seq, id } = first;
  const lists = {
    ids: events.map((each) => each.id),
    texts: events.map(({ text }) => text),
    digests: events.map(({ digest }) => digest),
  };
  return [{ job, seq, id, ...lists }];
};

/** Events of one job that follow one another, as few rows as they may be. */
export function inRuns(events: readonly EventRow[]): readonly StoredEvents[] {
  const rows: StoredEvents[] = [];
  let run: EventRow[] = [];
  let letters = 0;
  for (const event of events) {
    if (run.length === EVENTS_A_RUN || (run.length > 0 && letters + event.text.length > LETTERS_A_RUN)) {
      rows.push(...rowOf(run));
      [run, letters] = [[], 0];
    }
    run.push(event);
    letters += event.text.length;
  }
  return [...rows, ...rowOf(run)];
}

/** The events in a row, in order. What is no run is an event by itself, however damaged: the check of the log decides. */
export function eventsIn(row: StoredEvents): readonly EventRow[] {
  if (!('texts' in row) || ![row.ids, row.texts, row.digests].every(Array.isArray)) return [row as EventRow];
  const { job, seq, ids, texts, digests } = row;
  // What a list lacks is undefined, which fits no checksum.
  return texts.map((text, at) => ({ job, seq: seq + at, id: ids[at] as string, text, digest: digests[at] as string }));
}
