import { beforeEach, describe, expect, test } from 'vitest';
import {
  EngineFault,
  following,
  Listener,
  PATIENCE_MS,
  WINDOW_MS,
  wordGraph,
  type EarEvent,
  type Hypothesis,
  type Recogniser,
} from '../../src/ear/index.ts';
import type { Grammar, GrammarNode } from '../../src/phrasebook/index.ts';

const RATE_HZ = 16_000;
const grammar = (key: string): Grammar => ({ key, root: { node: 'word', word: 'next' }, rules: {} });

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

let recogniser: Scripted;
let clock: number;
let events: EarEvent[];
let listener: Listener;
let phase: number;

/** Plays sound of a level for so many milliseconds; the clock runs with it, as with a microphone. */
async function play(levelDb: number, ms: number): Promise<void> {
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
async function speak(text: string): Promise<void> {
  recogniser.saying = text;
  await play(-25, 400);
  await play(-70, 1_200);
}

const told = (): string[] =>
  events.flatMap((event) => {
    if (event.type === 'level' || event.type === 'trouble') return [];
    if (event.type === 'hypothesis')
      return [event.hypothesis.accepted ? `"${event.hypothesis.text}"` : `refused: ${event.hypothesis.reason ?? ''}`];
    return [event.type === 'window' ? `window ${event.open ? 'open' : 'shut'}` : event.type];
  });

beforeEach(() => {
  recogniser = new Scripted();
  clock = 1_000;
  events = [];
  phase = 0;
  listener = new Listener({ recogniser, callName: 'Foreman', now: () => clock, emit: (event) => events.push(event) });
  listener.setGrammar(grammar('g'));
});

describe('open listening', () => {
  beforeEach(() => listener.setMode('open'));

  test('each utterance is told once, with its times', async () => {
    await play(-70, 500);
    await speak('next');
    await speak('done');
    await listener.settled();
    expect(told()).toEqual(['speech-start', 'speech-end', '"next"', 'speech-start', 'speech-end', '"done"']);
    const [first] = events.filter((event) => event.type === 'hypothesis');
    expect(first?.type === 'hypothesis' && Math.abs(first.times.endOfSpeechAt - (1_000 + 500 + 400))).toBeLessThanOrEqual(20);
  });

  test('a busy thread does not make the speech seem longer: its end is when it sounded', async () => {
    await play(-70, 500);
    recogniser.saying = 'next';
    await play(-25, 400);
    // The thread is busy for a second; what sounded meanwhile comes all at once.
    clock += 1_000;
    for (let at = 0; at < 1_000; at += 20) listener.push(new Float32Array(320));
    await listener.settled();
    await play(-70, 100);
    const heard = events.find((event) => event.type === 'hypothesis');
    expect(heard?.type === 'hypothesis' && Math.abs(heard.times.endOfSpeechAt - 1_900)).toBeLessThanOrEqual(20);
  });

  test('the recogniser gets the word with a little before and after it', async () => {
    await play(-70, 500);
    await speak('next');
    await listener.settled();
    expect(recogniser.heardS[0]).toBeGreaterThan(0.7);
    expect(recogniser.heardS[0]).toBeLessThan(1);
  });

  test('while deaf nothing is heard; what was open is let go and said to be', async () => {
    await play(-70, 500);
    await play(-25, 300);
    listener.setDeaf(true);
    await play(-25, 1_000);
    await play(-70, 600);
    listener.setDeaf(false);
    await play(-70, 300);
    await speak('next');
    await listener.settled();
    expect(told()).toEqual(['speech-start', 'speech-end', 'refused: silence', 'speech-start', 'speech-end', '"next"']);
    expect(recogniser.heardS.length).toBe(1);
    expect(recogniser.heardS[0]).toBeLessThan(1);
  });

  test('the grammar that holds when the speech ends is the one that is used', async () => {
    await play(-70, 500);
    listener.setGrammar(grammar('newer'));
    await speak('next');
    await listener.settled();
    expect(recogniser.opened.at(-1)).toBe('newer');
  });

  test('a grammar that is overtaken before its turn is not compiled', async () => {
    listener.setGrammar(grammar('a'));
    listener.setGrammar(grammar('b'));
    await listener.settled();
    expect(recogniser.opened).not.toContain('a');
    expect(recogniser.opened.at(-1)).toBe('b');
  });

  test('a fault of the engine is told, with the part that failed, and the ear goes on', async () => {
    recogniser.fails = new EngineFault('decoder', 'the recogniser failed');
    await play(-70, 500);
    await speak('next');
    await listener.settled();
    expect(events).toContainEqual({ type: 'fault', part: 'decoder', message: 'the recogniser failed' });
    expect(told().at(-1)).toBe('refused: silence');
    recogniser.fails = null;
    await speak('done');
    await listener.settled();
    expect(told().at(-1)).toBe('"done"');
  });
});

describe('how long a silence is the end', () => {
  const word = (text: string): GrammarNode => ({ node: 'word', word: text });
  const twentySeven: Grammar = {
    key: 'numbers',
    root: {
      node: 'one-of',
      branches: [
        { item: word('next') },
        { item: { node: 'sequence', items: [word('back'), { node: 'optional', item: word('please') }] } },
        { item: { node: 'sequence', items: [word('six'), word('twenty'), { node: 'optional', item: word('seven') }] } },
        { item: { node: 'sequence', items: [word('how'), word('much'), word('left')] } },
      ],
    },
    rules: {},
  };
  beforeEach(() => {
    listener.setMode('open');
    listener.setGrammar(twentySeven);
  });

  test.each([
    ['next', 'nothing'],
    ['back', 'words'],
    ['six twenty', 'figures'],
    ['how much', 'unfinished'],
  ] as const)('after "%s", where %s may follow', async (text, follows) => {
    expect(following(wordGraph(twentySeven), text.split(' '))).toBe(follows);
    await play(-70, 500);
    await speak(text);
    const heard = events.find((event) => event.type === 'hypothesis');
    // The longest that loudness alone is waited for comes before the longest patience.
    expect(heard?.type === 'hypothesis' && heard.times.endpointMs).toBeCloseTo(Math.min(PATIENCE_MS[follows], 650), -2);
    expect(heard?.type === 'hypothesis' && heard.times.recogniserMs).toBe(0);
  });

  test('a pause in a number is bridged, and the whole number is heard', async () => {
    await play(-70, 500);
    recogniser.saying = 'six twenty';
    await play(-25, 600);
    await play(-70, 450);
    await speak('six twenty seven');
    expect(told()).toEqual(['speech-start', 'speech-end', '"six twenty seven"']);
  });

  test('where a machine starts up and leaves no silence, the words tell the end', async () => {
    await play(-70, 500);
    recogniser.saying = 'next';
    await play(-25, 300);
    await play(-30, 1_500);
    expect(told()).toEqual(['speech-start', 'speech-end', '"next"']);
  });

  test('a noise that comes and goes leaves the thread time for other things, however slow a look is', async () => {
    recogniser.slow = 300;
    await play(-70, 500);
    // As a cut over a keyway sounds: never words, never silent for long.
    for (let knock = 0; knock < 14; knock += 1) {
      await play(-30, 300);
      await play(-70, 240);
    }
    const lookedMs = recogniser.heardS.reduce((sum, seconds) => sum + seconds * recogniser.slow, 0);
    expect(recogniser.heardS.length).toBeGreaterThan(1);
    expect(lookedMs).toBeLessThan(0.75 * 14 * 540);
  });
  test('a grammar that changes while somebody speaks is the one that counts', async () => {
    await play(-70, 500);
    recogniser.saying = 'next';
    await play(-25, 300);
    await play(-70, 220);
    listener.setGrammar(grammar('later'));
    await play(-70, 700);
    expect(told()).toEqual(['speech-start', 'speech-end', '"next"']);
    expect(recogniser.opened.at(-1)).toBe('later');
  });
});

describe('holding a button', () => {
  test('without it nothing is heard', async () => {
    await play(-70, 500);
    await speak('next');
    await listener.settled();
    expect(told()).toEqual([]);
  });

  test('held: heard from press to release, whatever pauses there are', async () => {
    await play(-70, 500);
    recogniser.saying = 'six twenty seven';
    listener.hold();
    await play(-25, 400);
    await play(-70, 900);
    await play(-25, 400);
    listener.release();
    await listener.settled();
    expect(told()).toEqual(['speech-start', 'speech-end', '"six twenty seven"']);
    expect(recogniser.heardS.at(-1)).toBeCloseTo(1.7, 1);
  });

  test('held long before the first word: the recogniser gets the words with no more before them than by ear', async () => {
    await play(-70, 500);
    recogniser.saying = 'next';
    listener.hold();
    await play(-70, 2_000);
    await play(-25, 400);
    await play(-70, 900);
    await play(-25, 400);
    listener.release();
    await listener.settled();
    expect(told()).toEqual(['speech-start', 'speech-end', '"next"']);
    expect(recogniser.heardS.at(-1)).toBeCloseTo(0.35 + 1.7, 1);
  });

  test('tapped: the ear finds the end by itself', async () => {
    await play(-70, 500);
    listener.hold();
    await play(-70, 100);
    listener.release();
    await play(-70, 400);
    await speak('next');
    await listener.settled();
    expect(told()).toEqual(['speech-start', 'speech-end', '"next"']);
  });

  test('tapped and then nothing said: it ends by itself', async () => {
    listener.hold();
    await play(-70, 100);
    listener.release();
    await play(-70, 7_000);
    await listener.settled();
    expect(told()).toEqual(['speech-start', 'speech-end', 'refused: not-in-grammar']);
  });

  test('cuts a reply short: a press ends deafness', async () => {
    listener.setDeaf(true);
    await play(-70, 500);
    recogniser.saying = 'stop';
    listener.hold();
    await play(-25, 500);
    listener.release();
    await listener.settled();
    expect(told()).toEqual(['speech-start', 'speech-end', '"stop"']);
  });
});

describe('calling by name', () => {
  beforeEach(async () => {
    listener.setMode('call');
    await play(-70, 500);
  });
  const hear = async (text: string): Promise<void> => {
    await speak(text);
    await listener.settled();
  };

  test('without the name nothing is accepted', async () => {
    await hear('next');
    expect(told()).toEqual(['speech-start', 'speech-end', 'refused: not-in-grammar']);
    expect(recogniser.opened.at(-1)).toBe('called Foreman then g');
  });

  test('the name opens a window; in it anything may be said; it shuts by itself', async () => {
    await hear('hey foreman');
    await hear('next');
    await play(-70, WINDOW_MS + 200);
    await hear('next');
    expect(told()).toEqual([
      ...['speech-start', 'speech-end', 'window open', '"hey foreman"', 'speech-start', 'speech-end', '"next"', 'window shut'],
      ...['speech-start', 'speech-end', 'refused: not-in-grammar'],
    ]);
  });

  test('a command in the same breath is told without the name', async () => {
    await hear('foreman how much left');
    expect(told().at(-1)).toBe('"how much left"');
  });

  test('in the window the name may be said again, and is left out', async () => {
    await hear('foreman next');
    await hear('foreman how much left');
    expect(recogniser.opened.at(-1)).toBe('perhaps Foreman then g');
    await hear('next');
    await hear('hey foreman');
    expect(told().filter((each) => each.startsWith('"'))).toEqual(['"next"', '"how much left"', '"next"', '"hey foreman"']);
  });

  test('with the button the name is not needed, and may be said', async () => {
    listener.hold();
    await speak('next');
    listener.release();
    await listener.settled();
    expect(recogniser.opened.at(-1)).toBe('perhaps Foreman then g');
    listener.hold();
    await speak('foreman how much left');
    listener.release();
    await listener.settled();
    expect(told().filter((each) => each.startsWith('"') || each.startsWith('refused'))).toEqual(['"next"', '"how much left"']);
    await hear('next');
    expect(told().at(-1)).toBe('refused: not-in-grammar');
  });

  test('an answer does not use up the window', async () => {
    await hear('foreman');
    listener.setDeaf(true);
    await play(-30, WINDOW_MS + 2_000);
    listener.setDeaf(false);
    await hear('next');
    expect(told().at(-1)).toBe('"next"');
  });
});

describe('level', () => {
  test('comes ten times a second, with the floor and with overload', async () => {
    await play(-50, 1_000);
    const levels = events.filter((event) => event.type === 'level');
    expect(levels.length).toBe(10);
    expect(levels.at(-1)).toMatchObject({ tooLoud: false, clipping: false });
    expect(Math.round(levels.at(-1)!.rmsDb)).toBe(-50);
    expect(Math.round(levels.at(-1)!.floorDb)).toBe(-50);
  });

  test('a machine louder than speech could be is said to be too loud', async () => {
    await play(-20, 4_000);
    expect(events.at(-1)).toMatchObject({ type: 'level', tooLoud: true, clipping: false });
  });

  test('overload is told while it lasts', async () => {
    await play(3, 200);
    expect(events.findLast((event) => event.type === 'level')).toMatchObject({ clipping: true });
    await play(-40, 200);
    expect(events.findLast((event) => event.type === 'level')).toMatchObject({ clipping: false });
  });
});

test('the last seconds can be had as a clip, and no more than was heard', async () => {
  await play(-30, 1_000);
  expect(listener.lastSeconds(0.5).length).toBe(8_000);
  expect(listener.lastSeconds(5).length).toBe(16_000);
});
