import { fail, type Result } from '../measure/index.ts';
import { NO_CLIPS, openClips, type ClipBook, type ClipFault } from './clip-book.ts';
import { deviceVoice, offlineVoice } from './device-voice.ts';
import { howlerPlayer } from './howler-player.ts';
import { settingsIn } from './settings.ts';
import { createSpeaker, type Speaker } from './speaker.ts';

/** Where the clips lie, from the page's own folder. */
export const CLIP_LIST = 'voice/clips.json';
export const CLIP_SPRITE = 'voice/clips.bin';

const LANGUAGE = 'en-US';

async function fetched(url: string): Promise<Response> {
  const response = await fetch(url);
  if (!response.ok) throw new Error(`status ${response.status}`);
  return response;
}

/** Fetches and opens the clips; `base` is the page's folder, ending in a slash. */
export async function loadClips(base: string): Promise<Result<ClipBook, ClipFault>> {
  try {
    const [list, sprite] = await Promise.all([
      fetched(base + CLIP_LIST).then((response): Promise<unknown> => response.json()),
      fetched(base + CLIP_SPRITE).then((response) => response.arrayBuffer()),
    ]);
    return openClips(list, new Uint8Array(sprite));
  } catch (error) {
    return fail({ fault: 'not-loaded', file: CLIP_SPRITE, reason: error instanceof Error ? error.message : String(error) });
  }
}

export type OpenedSpeaker = { readonly speaker: Speaker; readonly fault: ClipFault | null };

/**
 * The page's speaker, ready to use. Where the clips cannot be opened it has its tones and the device's offline voice left, and
 * `fault` says what is wrong. `now` is the page's clock in milliseconds.
 */
export async function openSpeaker(base: string, now: () => number): Promise<OpenedSpeaker> {
  const clips = await loadClips(base);
  const synthesis = typeof speechSynthesis === 'undefined' ? null : speechSynthesis;
  const speaker = createSpeaker({
    clips: clips.ok ? clips.value : NO_CLIPS,
    player: howlerPlayer(now),
    deviceVoice: () => {
      const voice = synthesis === null ? null : offlineVoice(synthesis.getVoices(), LANGUAGE);
      return synthesis === null || voice === null ? null : deviceVoice(synthesis, voice, now);
    },
    kept: settingsIn(localStorage),
    wait: (ms) => new Promise((resolve) => setTimeout(resolve, ms)),
  });
  return { speaker, fault: clips.ok ? null : clips.error };
}
