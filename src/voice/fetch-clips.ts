import { fail, type Result } from '../measure/index.ts';
import { checkClips, type CheckedClips, type ClipFault } from './clip-book.ts';

/** Where the clips lie, from the page's own folder. */
export const CLIP_LIST = 'voice/clips.json';
export const CLIP_SPRITE = 'voice/clips.bin';

async function fetched(url: string): Promise<Response> {
  const response = await fetch(url);
  if (!response.ok) throw new Error(`status ${response.status}`);
  return response;
}

/** Fetches the clips and checks them; `base` is the page's folder, ending in a slash. */
export async function fetchClips(base: string): Promise<Result<CheckedClips, ClipFault>> {
  try {
    const [list, sprite] = await Promise.all([
      fetched(base + CLIP_LIST).then((response): Promise<unknown> => response.json()),
      fetched(base + CLIP_SPRITE).then((response) => response.arrayBuffer()),
    ]);
    return checkClips(list, new Uint8Array(sprite));
  } catch (error) {
    return notLoaded(error);
  }
}

/** The clips could not be had, for this reason. */
export const notLoaded = (error: unknown): Result<never, ClipFault> =>
  fail({ fault: 'not-loaded', file: CLIP_SPRITE, reason: error instanceof Error ? error.message : String(error) });
