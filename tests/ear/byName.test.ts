import { beforeEach, describe, expect, test } from 'vitest';
import { WINDOW_MS } from '../../src/ear/index.ts';
import { fresh, listener, play, recogniser, speak, told } from './listenerBench.ts';

beforeEach(fresh);

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
