import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import type { Sliced } from './slices.ts';

/**
 * The checksum chain of a log: each event's digest covers its own text and the digest before it, and the first covers the
 * plan; so a change anywhere shows at that place and at no later one. It finds damage, not forgery: whoever can write the
 * store can write the digests too. SHA-256 (FIPS 180-4), in step, because an IndexedDB transaction closes itself while the
 * browser's own digest is awaited, and because that one is missing on pages served without HTTPS.
 */
export type Digest = string;

const encoder = new TextEncoder();
const digestOf = (text: string): Digest => bytesToHex(sha256(encoder.encode(text)));

/** Where the chain of a job starts: its id, its start and the exact text of its plan. */
export const chainStart = (job: string, startedAt: number, plan: string): Digest =>
  digestOf(['swarfside-log', '1', job, String(startedAt), plan].join('\n'));

/** The digest of an event's text after the digest before it. */
export const link = (before: Digest, text: string): Digest => digestOf(`${before}\n${text}`);

/** So many events are digested in a few milliseconds. */
const EVENTS_A_SLICE = 250;

/** What a job is made of, its id and start aside: the same for two copies of the same file. */
export function* contentDigest(plan: string, events: readonly string[]): Sliced<Digest> {
  let digest = digestOf(`swarfside-content\n1\n${plan}`);
  for (let from = 0; from < events.length; from += EVENTS_A_SLICE) {
    digest = events.slice(from, from + EVENTS_A_SLICE).reduce(link, digest);
    yield;
  }
  return digest;
}
