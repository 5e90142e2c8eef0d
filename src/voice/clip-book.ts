import { z } from 'zod';
import { fail, ok, type Result } from '../measure/index.ts';
import { adpcmBytes, decodeAdpcm } from './adpcm.ts';
import { VOICE_RATE_HZ, type Sound } from './sound.ts';

/** Where a clip lies in the sprite; `made` is the fingerprint of the text, voice and treatment that it was rendered from. */
const clipPlaceSchema = z.strictObject({
  start: z.number().int().nonnegative(),
  samples: z.number().int().positive(),
  made: z.string().regex(/^[0-9a-f]{12}$/),
});
export type ClipPlace = z.output<typeof clipPlaceSchema>;

/** The list beside the sprite: which words are where, in bytes and samples. */
export const clipListSchema = z.strictObject({
  version: z.literal(1),
  coding: z.literal('ima-adpcm'),
  rateHz: z.literal(VOICE_RATE_HZ),
  voice: z.string(),
  bytes: z.number().int().nonnegative(),
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
  clips: z.record(z.string(), clipPlaceSchema),
});
export type ClipList = z.output<typeof clipListSchema>;

/** The clips as the voice sees them: what there is (keys are words with one space between), and the sound of each. */
export interface ClipBook {
  has(key: string): boolean;
  sound(key: string): Sound | null;
  /** Words in the longest clip, so that a search need look no further. */
  readonly longest: number;
}

/** Without its sprite the voice has its tones left, and the device's own voice where there is one. */
export const NO_CLIPS: ClipBook = { has: () => false, sound: () => null, longest: 0 };

export type ClipFault =
  | { readonly fault: 'bad-list'; readonly path: string; readonly expected: string }
  | { readonly fault: 'bad-sprite'; readonly expectedBytes: number; readonly gotBytes: number }
  | { readonly fault: 'not-loaded'; readonly file: string; readonly reason: string };

/** A list and its sprite that fit each other; it can be handed from one thread to another. */
export type CheckedClips = {
  readonly places: ReadonlyMap<string, Pick<ClipPlace, 'start' | 'samples'>>;
  readonly sprite: Uint8Array<ArrayBuffer>;
};

/** Checks a list (parsed JSON) and that the sprite is as long as the list says. */
export function checkClips(list: unknown, sprite: Uint8Array<ArrayBuffer>): Result<CheckedClips, ClipFault> {
  const read = clipListSchema.safeParse(list);
  if (!read.success) {
    const issue = read.error.issues[0];
    return fail({ fault: 'bad-list', path: issue?.path.join('.') ?? '', expected: issue?.message ?? 'a clip list' });
  }
  const places = new Map(Object.entries(read.data.clips));
  let end = 0;
  for (const place of places.values()) end = Math.max(end, place.start + adpcmBytes(place.samples));
  if (sprite.length !== read.data.bytes || end > sprite.length)
    return fail({ fault: 'bad-sprite', expectedBytes: Math.max(end, read.data.bytes), gotBytes: sprite.length });
  return ok({ places, sprite });
}

/** The book of clips that have been checked. */
export function clipBook({ places, sprite }: CheckedClips): ClipBook {
  let longest = 0;
  for (const key of places.keys()) longest = Math.max(longest, key.split(' ').length);
  return {
    has: (key) => places.has(key),
    sound: (key) => {
      const place = places.get(key);
      return place === undefined ? null : decodeAdpcm(sprite.subarray(place.start), place.samples);
    },
    longest,
  };
}

/** Opens a list (parsed JSON) with its sprite; the list is checked, and the sprite must be as long as the list says. */
export function openClips(list: unknown, sprite: Uint8Array<ArrayBuffer>): Result<ClipBook, ClipFault> {
  const checked = checkClips(list, sprite);
  return checked.ok ? ok(clipBook(checked.value)) : checked;
}
