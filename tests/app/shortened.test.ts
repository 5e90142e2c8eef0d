import { describe, expect, test } from 'vitest';
import { asSpoken } from '../../src/app/shortened.ts';
import type { EventType, Piece } from '../../src/job/index.ts';
import { inches, thou } from '../../src/measure/index.ts';
import { voiceSettingsSchema } from '../../src/voice/index.ts';

const stop: Piece = { say: 'stop' };
const size: readonly Piece[] = [{ say: 'size', length: inches(0.627) }, stop];
const left: readonly Piece[] = [{ say: 'amount', length: thou(2) }, { say: 'phrase', phrase: 'to-go' }, stop];
const advice: readonly Piece[] = [{ say: 'line', text: 'Measure at the shoulder' }, stop];
const asks: readonly Piece[] = [{ say: 'line', text: 'Keep it' }, { say: 'asks' }];

const spoken = (
  answers: 'whole' | 'short' | undefined,
  pieces: readonly Piece[],
  event: EventType = 'ReadingLogged',
  outcome: 'done' | 'asked' | 'refused' = 'done',
): readonly Piece[] => {
  const settings = voiceSettingsSchema.parse({ loudness: 4, pace: 0, ...(answers === undefined ? {} : { answers }) });
  return asSpoken({ reply: { tone: 'stored', pieces, unit: 'inch' }, outcome, events: [event] }, settings).pieces;
};
const whole = [...size, ...left, ...advice];

describe('how much of an answer is spoken', () => {
  test('all of it, where nothing was set or it was set so', () => {
    expect(spoken(undefined, whole)).toEqual(whole);
    expect(spoken('whole', whole)).toEqual(whole);
  });

  test('of a reading the size and what is left, where it was set short', () => {
    expect(spoken('short', whole)).toEqual([...size, ...left]);
    expect(spoken('short', whole, 'MateMeasured')).toEqual([...size, ...left]);
    expect(spoken('short', size)).toEqual(size);
  });

  test('questions, refusals and the opening of a step stay whole', () => {
    expect(spoken('short', [...whole, ...asks])).toEqual([...whole, ...asks]);
    expect(spoken('short', whole, 'ReadingLogged', 'asked')).toEqual(whole);
    expect(spoken('short', whole, 'OperationOpened')).toEqual(whole);
  });
});
