import { Howl, Howler } from 'howler';
import type { PlayEnd, Player, Playing } from './player.ts';
import { lengthMs, samplesIn } from './sound.ts';
import { wavDataUri } from './wav.ts';

/** Slack over a sound's own length before the player gives it up: a context that was interrupted never ends a sound. */
const GIVE_UP_MS = 1500;
/** How long a context may take to wake outside a touch before sound counts as not allowed. */
const WAKE_MS = 400;

/** Latency of the graph and the device in milliseconds; 0 where the browser does not tell. */
function latencyOf(context: AudioContext | null): number {
  if (context === null) return 0;
  const seconds = (context.outputLatency || 0) + (context.baseLatency || 0);
  return Number.isFinite(seconds) ? seconds * 1000 : 0;
}

/**
 * Plays each sound as one Howl from a data URI: nothing is requested, so the page's policy need allow nothing for it, and no
 * timer stands between the words. `now` is the page's clock in milliseconds.
 */
export function howlerPlayer(now: () => number): Player {
  // Howler would put its context to sleep after 30 s without sound, and waking costs the start of the next answer.
  Howler.autoSuspend = false;
  // The first Howl makes Howler set its context up, and replace it once; better now than under the first answer.
  const first = new Howl({ src: [wavDataUri(new Float32Array(samplesIn(10)))], format: ['wav'], onload: () => first.unload() });

  // Howler replaces its context, so it is looked up each time.
  const context = (): AudioContext | null => (Howler.ctx as AudioContext | undefined) ?? null;
  const running = (): boolean => context()?.state === 'running';

  return {
    get unlocked() {
      return running();
    },
    get latencyMs() {
      return latencyOf(context());
    },
    play(sound, loudness): Playing {
      let begin: (at: number | null) => void = () => undefined;
      let end: (how: PlayEnd) => void = () => undefined;
      const began = new Promise<number | null>((resolve) => (begin = resolve));
      const done = new Promise<PlayEnd>((resolve) => (end = resolve));
      const howl = new Howl({ src: [wavDataUri(sound)], format: ['wav'], volume: loudness });
      let over = false;
      const finish = (how: PlayEnd): void => {
        if (over) return;
        over = true;
        clearTimeout(watch);
        begin(null);
        end(how);
        // Howler keeps every decoded buffer under its URI until it is told to let go.
        howl.unload();
      };
      const watch = setTimeout(() => finish('failed'), lengthMs(sound) + latencyOf(context()) + GIVE_UP_MS);
      howl.once('play', () => begin(now() + latencyOf(context())));
      howl.once('end', () => finish('ended'));
      howl.once('loaderror', () => finish('failed'));
      howl.once('playerror', () => finish('failed'));
      howl.play();
      return { began, done, stop: () => finish('stopped') };
    },
    async unlock() {
      const waking = context()?.resume();
      // A context that is not allowed to wake leaves its promise open for ever.
      await Promise.race([waking, new Promise((resolve) => setTimeout(resolve, WAKE_MS))]).catch(() => undefined);
      return running();
    },
    close() {
      Howler.unload();
    },
  };
}
