import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import type { EventRow, JobRow } from './pages.ts';

/** A job as its copy holds it: the stored row, and the digest of the file that it came from. */
export type CopiedJob = JobRow & { readonly origin: string | null };
/** An event as its copy holds it; its id is in its text. */
export type CopiedEvent = Pick<EventRow, 'seq' | 'text' | 'digest'>;

/** One line of a copy. The first is always the job. */
export type CopyRecord =
  | { readonly is: 'job'; readonly job: CopiedJob }
  | ({ readonly is: 'event' } & CopiedEvent)
  /** The log from event `from` on is what the next `count` events say: both devices had gone on, and were made one. */
  | { readonly is: 'replaced'; readonly from: number; readonly count: number }
  /** The sound of a memo, in base64. */
  | { readonly is: 'clip'; readonly clip: string; readonly wav: string };

const CHECK_LETTERS = 16;
const NEWLINE = 10;
const SPACE = 32;
const encoder = new TextEncoder();
const decoder = new TextDecoder('utf-8', { fatal: true });

const check = (bytes: Uint8Array): string => bytesToHex(sha256(bytes)).slice(0, CHECK_LETTERS);

/** So many lines take long enough to read or write that a sign of life is due. */
const LINES_A_SIGN = 2_000;

/**
 * Records as the bytes of lines: how many bytes the JSON has, the first letters of its SHA-256, and the JSON. `gettingOn` is
 * called now and then where there are many.
 */
export function writeRecords(records: readonly CopyRecord[], gettingOn: () => void = () => undefined): Uint8Array<ArrayBuffer> {
  const lines = records.map((record, index) => {
    if (index % LINES_A_SIGN === LINES_A_SIGN - 1) gettingOn();
    const json = JSON.stringify(record);
    const bytes = encoder.encode(json);
    return `${bytes.length} ${check(bytes)} ${json}\n`;
  });
  return encoder.encode(lines.join(''));
}

function readLine(line: Uint8Array): CopyRecord | null {
  const first = line.indexOf(SPACE);
  const jsonAt = first + 1 + CHECK_LETTERS + 1;
  if (first < 1 || line.length < jsonAt) return null;
  const json = line.subarray(jsonAt);
  try {
    if (decoder.decode(line.subarray(0, jsonAt)) !== `${json.length} ${check(json)} `) return null;
    return JSON.parse(decoder.decode(json)) as CopyRecord;
  } catch {
    return null;
  }
}

/**
 * The records that hold, in order, and where the last of them ends: what comes after is a write that was cut off. A line in the
 * middle that does not hold is left out. `gettingOn` is called now and then in a long file.
 */
export function readRecords(
  bytes: Uint8Array,
  gettingOn: () => void = () => undefined,
): { readonly records: readonly CopyRecord[]; readonly end: number } {
  const records: CopyRecord[] = [];
  let end = 0;
  for (let at = 0; at < bytes.length; ) {
    const newline = bytes.indexOf(NEWLINE, at);
    if (newline < 0) break;
    const record = readLine(bytes.subarray(at, newline));
    at = newline + 1;
    if (record === null) continue;
    records.push(record);
    end = at;
    if (records.length % LINES_A_SIGN === 0) gettingOn();
  }
  return { records, end };
}

/** What the records of one job come to. */
export type CopiedLog = {
  readonly job: CopiedJob;
  readonly events: readonly CopiedEvent[];
  readonly clips: ReadonlyMap<string, string>;
};

/**
 * The log that the records tell, or null where the job itself is not among them. An event that does not go on from the one
 * before is left out, and so is a replacement that was cut off.
 */
export function logIn(records: readonly CopyRecord[]): CopiedLog | null {
  let job: CopiedJob | null = null;
  let events: CopiedEvent[] = [];
  const clips = new Map<string, string>();
  let replacing: { readonly from: number; readonly count: number; readonly by: CopiedEvent[] } | null = null;
  for (const record of records) {
    switch (record.is) {
      case 'job':
        job ??= record.job;
        break;
      case 'replaced':
        replacing = record.from <= events.length + 1 ? { ...record, by: [] } : null;
        break;
      case 'clip':
        clips.set(record.clip, record.wav);
        break;
      case 'event': {
        const { seq, text, digest } = record;
        if (replacing === null) {
          if (seq === events.length + 1) events.push({ seq, text, digest });
          break;
        }
        if (seq !== replacing.from + replacing.by.length) break;
        replacing.by.push({ seq, text, digest });
        if (replacing.by.length < replacing.count) break;
        events = [...events.slice(0, replacing.from - 1), ...replacing.by];
        replacing = null;
      }
    }
  }
  return job === null ? null : { job, events, clips };
}
