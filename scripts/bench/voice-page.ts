/** The page side of the voice's benchmark: the real speaker, with a tap on what goes to the loudspeaker. */
import { Howl, Howler } from 'howler';
import type { Spoken } from '../../src/phrasebook/index.ts';
import {
  howlerPlayer, openSpeaker, samplesIn, VOICE_RATE_HZ, wavDataUri, type Player, type Speaker, type SpokenOutcome,
} from '../../src/voice/index.ts';

/** Recorded since `listen`: samples at the context's rate, and the context's frame of the first. */
type Tap = { readonly frames: Float32Array[]; firstFrame: number | null };

let speaker: Speaker;
let player: Player;
let beforeTouch: SpokenOutcome['end'] | 'not said' = 'not said';
let tap: Tap = { frames: [], firstFrame: null };

const now = (): number => performance.now();
const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

function listen(): void {
  tap = { frames: [], firstFrame: null };
}

async function heardSince(): Promise<Float32Array> {
  await pause(150);
  const whole = new Float32Array(tap.frames.reduce((sum, frame) => sum + frame.length, 0));
  let at = 0;
  for (const frame of tap.frames) {
    whole.set(frame, at);
    at += frame.length;
  }
  return whole;
}

const QUIET = 0.02;

/** Lengths of the quiet stretches between sounds, longer than a millisecond, in samples of the context's rate. */
function gapsIn(heard: Float32Array): readonly number[] {
  const gaps: number[] = [];
  let quietFrom: number | null = null;
  heard.forEach((value, at) => {
    if (Math.abs(value) <= QUIET) return;
    if (quietFrom !== null && at - quietFrom > Howler.ctx.sampleRate / 1000) gaps.push(at - quietFrom);
    quietFrom = at + 1;
  });
  return gaps;
}

/** A square wave: never quiet inside, loud from its first sample to its last. */
const burst = (ms: number): Float32Array => Float32Array.from({ length: samplesIn(ms) }, (_, at) => (at % 16 < 8 ? 0.5 : -0.5));

function twoBursts(gapMs: number): Float32Array {
  const one = burst(120);
  const sound = new Float32Array(2 * one.length + samplesIn(gapMs));
  sound.set(one);
  sound.set(one, sound.length - one.length);
  return sound;
}

/** Milliseconds from `calledAt` (the context's clock, seconds) to the first sample of what was recorded. */
function firstSampleMs(heard: Float32Array, calledAt: number): number {
  const first = heard.findIndex((value) => value !== 0);
  return (((tap.firstFrame ?? 0) + first) / Howler.ctx.sampleRate - calledAt) * 1000;
}

const started = now();
const pressed = new Promise<void>((once) => {
  for (const press of ['pointerup', 'keydown']) addEventListener(press, () => once(), { once: true });
});
const opened = openSpeaker('./', now, pressed).then(async (result) => {
  const openMs = now() - started;
  speaker = result.speaker;
  player = howlerPlayer(now, pressed);
  // Said by the page itself: a call from the driver would count as a touch.
  beforeTouch = (await speaker.say([{ say: 'words', words: ['six'] }], null)).end;
  // Told by the address, since asking the page would count as a touch too.
  location.hash = 'opened';
  return { fault: result.fault, openMs };
});

const page = {
  opened: async () => ({ ...(await opened), beforeTouch }),

  /** To be called after a touch. */
  async tap(): Promise<{ unlocked: boolean; rateHz: number; outputLatencyMs: number; baseLatencyMs: number }> {
    const unlocked = await speaker.unlock();
    const { ctx } = Howler;
    await ctx.audioWorklet.addModule('./recorder.js');
    const node = new AudioWorkletNode(ctx, 'recorder');
    node.port.onmessage = ({ data }: MessageEvent<{ frame: number; samples: Float32Array }>) => {
      tap.firstFrame ??= data.frame;
      tap.frames.push(data.samples);
    };
    Howler.masterGain.connect(node);
    node.connect(ctx.destination);
    await pause(300);
    return { unlocked, rateHz: ctx.sampleRate, outputLatencyMs: ctx.outputLatency * 1000, baseLatencyMs: ctx.baseLatency * 1000 };
  },

  /** From the call to the first sample that leaves the graph, and what the speaker itself reports, in milliseconds. */
  async firstSample(spoken: readonly Spoken[]): Promise<{ graphMs: number; reportedMs: number; saidMs: number; end: string }> {
    listen();
    const calledAt = now();
    const contextAt = Howler.ctx.currentTime;
    const outcome = await speaker.say(spoken, null);
    const saidMs = now() - calledAt;
    const heard = await heardSince();
    const graphMs = firstSampleMs(heard, contextAt);
    return { graphMs, reportedMs: (outcome.firstSampleAt ?? NaN) - calledAt, saidMs, end: outcome.end };
  },

  /** Milliseconds to the first sample of five seconds of sound, as a Howl from a data URI or a buffer in its graph. */
  async startMs(way: 'howl' | 'buffer'): Promise<number> {
    const sound = twoBursts(4700);
    listen();
    const contextAt = Howler.ctx.currentTime;
    if (way === 'buffer') {
      const playing = player.play(sound, 1);
      await pause(700);
      playing.stop();
    } else {
      const howl = new Howl({ src: [wavDataUri(sound)], format: ['wav'] });
      howl.play();
      await pause(700);
      howl.unload();
    }
    return firstSampleMs(await heardSince(), contextAt);
  },

  /** The gap that comes out where 45 ms were planned, in samples at the context's rate. */
  async assembledGap(): Promise<readonly number[]> {
    listen();
    await player.play(twoBursts(45), 1).done;
    return gapsIn(await heardSince());
  },

  /** The gap that comes out where none was planned, when howler's own `end` starts the next sprite. */
  async chainedGap(): Promise<readonly number[]> {
    const sound = twoBursts(200);
    const howl = new Howl({ src: [wavDataUri(sound)], format: ['wav'], sprite: { a: [0, 120], b: [320, 120] } });
    await new Promise<void>((resolve) => howl.once('load', () => resolve()));
    listen();
    const first = howl.play('a');
    await new Promise<void>((resolve) => {
      howl.once('end', () => howl.once('end', () => resolve(), howl.play('b')), first);
    });
    const gaps = gapsIn(await heardSince());
    howl.unload();
    return gaps;
  },

  plannedGap: (): number => (samplesIn(45) * Howler.ctx.sampleRate) / VOICE_RATE_HZ,
};

export type VoicePage = typeof page;
Object.assign(globalThis, { voicePage: page });
