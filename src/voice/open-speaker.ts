import { ok, type Result } from '../measure/index.ts';
import { clipBook, NO_CLIPS, type CheckedClips, type ClipBook, type ClipFault } from './clip-book.ts';
import { deviceVoice, offlineVoice } from './device-voice.ts';
import { notLoaded } from './fetch-clips.ts';
import { howlerPlayer } from './howler-player.ts';
import { settingsIn } from './settings.ts';
import { createSpeaker, type Speaker } from './speaker.ts';

const LANGUAGE = 'en-US';

/**
 * The clips, fetched and checked by a worker that is gone afterwards: they are megabytes, and the page is being drawn meanwhile.
 * `base` is the page's folder, ending in a slash.
 */
export async function loadClips(base: string): Promise<Result<ClipBook, ClipFault>> {
  const worker = new Worker(new URL('./clips.worker.ts', import.meta.url), { type: 'module', name: base });
  const clips = await new Promise<Result<CheckedClips, ClipFault>>((done) => {
    worker.onmessage = ({ data }: MessageEvent<Result<CheckedClips, ClipFault>>) => done(data);
    worker.onerror = (event) => {
      event.preventDefault();
      done(notLoaded(event.message));
    };
  });
  worker.terminate();
  return clips.ok ? ok(clipBook(clips.value)) : clips;
}

export type OpenedSpeaker = { readonly speaker: Speaker; readonly fault: ClipFault | null };

/**
 * The page's speaker, ready to use. Where the clips cannot be opened it has its tones and the device's offline voice left, and
 * `fault` says what is wrong. `now` is the page's clock in milliseconds; no sound is asked of the device before `pressed`.
 */
export async function openSpeaker(base: string, now: () => number, pressed: Promise<void>): Promise<OpenedSpeaker> {
  const clips = await loadClips(base);
  const synthesis = typeof speechSynthesis === 'undefined' ? null : speechSynthesis;
  const speaker = createSpeaker({
    clips: clips.ok ? clips.value : NO_CLIPS,
    player: howlerPlayer(now, pressed),
    deviceVoice: () => {
      const voice = synthesis === null ? null : offlineVoice(synthesis.getVoices(), LANGUAGE);
      return synthesis === null || voice === null ? null : deviceVoice(synthesis, voice, now);
    },
    kept: settingsIn(localStorage),
    wait: (ms) => new Promise((resolve) => setTimeout(resolve, ms)),
  });
  return { speaker, fault: clips.ok ? null : clips.error };
}
