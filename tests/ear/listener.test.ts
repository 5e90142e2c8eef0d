import { beforeEach, describe, expect, test } from 'vitest';
import { EngineFault, following, PATIENCE_MS, wordGraph } from '../../src/ear/index.ts';
import type { Grammar, GrammarNode } from '../../src/phrasebook/index.ts';
import { busyFor, events, fresh, grammar, listener, play, recogniser, speak, told } from './listenerBench.ts';

beforeEach(fresh);

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
    busyFor(1_000);
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
