import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { Conversation, type Turn } from '../../src/app/index.ts';
import { SURE_FROM } from '../../src/ear/index.ts';
import { textOfReply } from '../../src/phrasebook/index.ts';
import { memoryShelf, openLog, readJobFile } from '../../src/shelf/index.ts';

/** The inch demo at its first turned journal, .640 awaited next; its sizes are invented, as those of the demo are. */
async function atTheLathe(): Promise<Conversation> {
  const read = readJobFile(readFileSync(new URL('../../src/shelf/demos/inch.job.json', import.meta.url), 'utf8'));
  if (!read.ok) throw new Error('the demo does not open');
  const shelf = memoryShelf(() => 0);
  const taken = await shelf.take(read.value, { newId: 'job', at: 0 });
  if (!taken.ok) throw new Error(taken.error.key);
  const job = await shelf.open(taken.value.id);
  if (!job.ok) throw new Error(job.error.key);
  let ids = 0;
  return new Conversation(job.value, {
    log: openLog(shelf, job.value),
    now: () => 1000,
    tick: () => 0,
    newId: () => `e${(ids += 1)}`,
    bareReadings: () => true,
  });
}

const UNSURE = SURE_FROM - 0.01;

/** Says each line with its confidence; what became of the last. */
async function said(lines: readonly (readonly [words: string, confidence: number])[]): Promise<{ turn: Turn; at: Conversation }> {
  const at = await atTheLathe();
  let turn: Turn | null = null;
  for (const [words, confidence] of lines) turn = await at.hear(words, confidence);
  if (turn === null) throw new Error('nothing was said');
  return { turn, at };
}

describe('words of which the ear is not sure', () => {
  it.each([['took ten thou'], ['dial ten thou']])('%s is asked about, and taken by a yes', async (words) => {
    const asked = await said([[words, UNSURE]]);
    expect([asked.turn.outcome, asked.turn.reason, asked.turn.events]).toEqual(['asked', 'hardly-heard', []]);
    const sure = await said([[words, 1]]);
    const taken = await said([
      [words, UNSURE],
      ['yes', 1],
    ]);
    expect(taken.turn.events).toEqual(sure.turn.events);
    expect(taken.turn.events).not.toEqual([]);
    expect(taken.at.talk.question).toBeNull();
  });

  it('a no asks for the number again and stores nothing', async () => {
    const { turn, at } = await said([
      ['took ten thou', UNSURE],
      ['no', 1],
    ]);
    expect([turn.events, at.talk.question]).toEqual([[], null]);
    expect(textOfReply(turn.reply).toLowerCase()).toContain('say it again');
  });

  it('a yes that is itself hardly heard stores nothing, and the question stays', async () => {
    const { turn, at } = await said([
      ['took ten thou', UNSURE],
      ['yes', UNSURE],
    ]);
    expect([turn.outcome, turn.reason, turn.events]).toEqual(['refused', 'not-heard', []]);
    expect(at.talk.question).not.toBeNull();
  });

  it.each([['go to step three'], ['make that six twenty'], ['temperature twenty']])('%s is asked for again', async (words) => {
    const { turn } = await said([[words, UNSURE]]);
    expect([turn.outcome, turn.reason, turn.events]).toEqual(['refused', 'not-heard', []]);
  });

  it('what stores no number is done as it is heard', async () => {
    const { turn } = await said([['how much left', UNSURE]]);
    expect(turn.outcome).toBe('done');
  });
});
