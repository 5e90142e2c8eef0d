import { Listener, type EarEvent, type EngineFault, type Hypothesis, type Recogniser } from '../../src/ear/index.ts';
import type { Grammar } from '../../src/phrasebook/index.ts';

const RATE_HZ = 16_000;
export const grammar = (key: string): Grammar => ({ key, root: { node: 'word', word: 'next' }, rules: {} });

/** A recogniser that hears what the test says it hears. */
class Scripted implements Recogniser {
  readonly name = 'scripted';
  readonly opened: string[] = [];
  readonly heardS: number[] = [];
  /** What is being said; a look at what is not yet over hears as much as the sound is long. */
  saying = '';
  fails: EngineFault | null = null;
  /** How long it takes to hear a second of sound, in milliseconds. */
  slow = 0;
  #samples = 0;

  open({ key }: Grammar): Promise<void> {
    this.opened.push(key);
    this.#samples = 0;
    return Promise.resolve();
  }
  accept(samples: Float32Array): void {
    this.#samples += samples.length;
  }
  finish(): Promise<Hypothesis> {
    if (this.fails !== null) return Promise.reject(this.fails);
    this.heardS.push(this.#samples / RATE_HZ);
    clock += (this.slow * this.#samples) / RATE_HZ;
    const text = this.saying;
    const words =
      text === '' ? [] : text.split(' ').map((word, at) => ({ word, startS: 0.35 + at * 0.3, endS: 0.65 + at * 0.3 }));
    const accepted = text !== '';
    return Promise.resolve({
      words,
      text,
      confidence: accepted ? 0.9 : 0,
      accepted,
      reason: accepted ? null : 'not-in-grammar',
      fillerScore: 0,
      alternatives: [],
    });
  }
  close(): void {
    this.opened.push('closed');
  }
}

/** Of the listener of the moment; `fresh` makes all of them anew. */
export let recogniser: Scripted;
let clock: number;
export let events: EarEvent[];
export let listener: Listener;
let phase: number;

/** Plays sound of a level for so many milliseconds; the clock runs with it, as with a microphone. */
export async function play(levelDb: number, ms: number): Promise<void> {
  const amplitude = Math.SQRT2 * 10 ** (levelDb / 20);
  for (let at = 0; at < ms; at += 20) {
    const samples = Float32Array.from({ length: 320 }, () => amplitude * Math.sin((phase += 0.37)));
    clock += 20;
    listener.push(samples);
    await Promise.resolve();
    await listener.settled();
  }
}

/** A word of 400 ms and a silence in which it ends for certain. */
export async function speak(text: string): Promise<void> {
  recogniser.saying = text;
  await play(-25, 400);
  await play(-70, 1_200);
}

/** What was told so far, levels and troubles apart. */
export const told = (): string[] =>
  events.flatMap((event) => {
    if (event.type === 'level' || event.type === 'trouble') return [];
    if (event.type === 'hypothesis')
      return [event.hypothesis.accepted ? `"${event.hypothesis.text}"` : `refused: ${event.hypothesis.reason ?? ''}`];
    return [event.type === 'window' ? `window ${event.open ? 'open' : 'shut'}` : event.type];
  });

/** The page's clock goes on while the thread is busy. */
export const busyFor = (ms: number): void => void (clock += ms);

/** A new listener with nothing heard, on a clock of its own. */
export function fresh(): void {
  recogniser = new Scripted();
  clock = 1_000;
  events = [];
  phase = 0;
  listener = new Listener({ recogniser, callName: 'Foreman', now: () => clock, emit: (event) => events.push(event) });
  listener.setGrammar(grammar('g'));
}
