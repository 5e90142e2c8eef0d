import { Howl, Howler } from 'howler';
import type { PlayEnd, Player, Playing } from './player.ts';
import { lengthMs, samplesIn, VOICE_RATE_HZ } from './sound.ts';
import { wavDataUri } from './wav.ts';

/** Slack over a sound's own length before the player gives it up: a context that was interrupted never ends a sound. */
const GIVE_UP_MS = 1500;
/** How long a context may take to wake outside a touch before sound counts as not allowed. */
const WAKE_MS = 400;
/** Some frames, in which what was pressed is drawn. */
const DRAWN_MS = 60;
/** Fade of a sound that is cut short, so that it does not click. */
const FADE_S = 0.008;

/** Latency of the graph and the device in milliseconds; 0 where the browser does not tell. */
function latencyOf(context: AudioContext): number {
  const seconds = (context.outputLatency || 0) + (context.baseLatency || 0);
  return Number.isFinite(seconds) ? seconds * 1000 : 0;
}

/** Until what was just pressed has been drawn; frames are not counted, since a hidden page has none. */
const drawn = (): Promise<void> => new Promise((done) => setTimeout(done, DRAWN_MS));

/**
 * Plays each sound as one buffer in howler's graph: howler owns the audio context, its unlocking on all devices and the master
 * volume. Its own Howl would encode, decode and end by a timer what is samples already (measured: docs/voice.md); here the
 * audio clock alone tells when a sound is over, and nothing is requested. `now` is the page's clock in milliseconds; `pressed`
 * resolves with the first press of anything on the page.
 */
export function howlerPlayer(now: () => number, pressed: Promise<void>): Player {
  // Howler would put its context to sleep after 30 s without sound, and waking costs the start of the next answer.
  Howler.autoSuspend = false;
  let first: Howl | null = null;
  let everPressed = false;
  /** The first Howl makes Howler set its context up, replace it once, and listen for the touch that unlocks it. */
  const setUp = (): void => {
    first ??= new Howl({ src: [wavDataUri(new Float32Array(samplesIn(10)))], format: ['wav'], onload: () => first?.unload() });
  };
  // Asking the device for its sound holds the page up, a second and more on a slow one. Nothing may sound before the first
  // touch or key, so it waits for that, and until what was pressed has been drawn.
  void pressed
    .then(() => {
      everPressed = true;
    })
    .then(drawn)
    .then(setUp);

  return {
    // Howler replaces its context, so it is looked up each time.
    get unlocked() {
      return first !== null && Howler.ctx.state === 'running';
    },
    get latencyMs() {
      return first === null ? 0 : latencyOf(Howler.ctx);
    },
    play(sound, loudness): Playing {
      setUp();
      let begin: (at: number | null) => void = () => undefined;
      let end: (how: PlayEnd) => void = () => undefined;
      const began = new Promise<number | null>((resolve) => (begin = resolve));
      const done = new Promise<PlayEnd>((resolve) => (end = resolve));
      const context = Howler.ctx;
      const buffer = context.createBuffer(1, sound.length, VOICE_RATE_HZ);
      buffer.getChannelData(0).set(sound);
      const source = context.createBufferSource();
      source.buffer = buffer;
      const gain = context.createGain();
      gain.gain.value = loudness;
      source.connect(gain).connect(Howler.masterGain);
      let over = false;
      const finish = (how: PlayEnd): void => {
        if (over) return;
        over = true;
        clearTimeout(watch);
        if (how !== 'ended') {
          gain.gain.setTargetAtTime(0, context.currentTime, FADE_S / 3);
          source.stop(context.currentTime + FADE_S);
        }
        begin(null);
        end(how);
      };
      const watch = setTimeout(() => finish('failed'), lengthMs(sound) + latencyOf(context) + GIVE_UP_MS);
      source.onended = () => {
        gain.disconnect();
        finish('ended');
      };
      source.start();
      begin(now() + latencyOf(context));
      return { began, done, stop: () => finish('stopped') };
    },
    async unlock() {
      if (!everPressed) return false;
      if (first === null) await drawn();
      setUp();
      // A context that is not allowed to wake leaves its promise open for ever.
      await Promise.race([Howler.ctx.resume(), new Promise((resolve) => setTimeout(resolve, WAKE_MS))]).catch(() => undefined);
      return Howler.ctx.state === 'running';
    },
    close() {
      Howler.unload();
    },
  };
}
