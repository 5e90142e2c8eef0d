import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { Conversation } from '../../src/app/index.ts';
import { folded } from '../../src/job/index.ts';
import { textOfReply } from '../../src/phrasebook/index.ts';
import { memoryShelf, openLog, readJobFile } from '../../src/shelf/index.ts';

const folder = new URL('../fixtures/conversations/', import.meta.url);
const demo = (name: string): string => readFileSync(new URL(`../../src/shelf/demos/${name}.job.json`, import.meta.url), 'utf8');
const NOON = Date.UTC(2026, 0, 5, 12);

/**
 * Says every line that begins with `>` to a fresh job, and writes what is answered and stored beneath it. With `reloads`,
 * the page is loaded anew before every line that does not answer a question.
 */
async function held(
  script: string,
  demoName: string,
  reloads = false,
): Promise<{ readonly text: string; readonly conversation: Conversation }> {
  const read = readJobFile(demo(demoName));
  if (!read.ok) throw new Error(`demo ${demoName} does not open`);
  let at = NOON;
  let ids = 0;
  const shelf = memoryShelf(() => at);
  const taken = await shelf.take(read.value, { newId: 'job', at });
  if (!taken.ok) throw new Error(taken.error.key);
  const job = await shelf.open(taken.value.id);
  if (!job.ok) throw new Error(job.error.key);
  const open = async (): Promise<Conversation> => {
    const stored = await shelf.open(job.value.id);
    if (!stored.ok) throw new Error(stored.error.key);
    return new Conversation(stored.value, {
      log: openLog(shelf, stored.value),
      now: () => (at += 1000),
      tick: () => 0,
      newId: () => `e${(ids += 1)}`,
      bareReadings: () => true,
    });
  };
  let conversation = await open();
  let asked = false;
  const lines: string[] = [];
  for (const line of script.split('\n')) {
    if (line.startsWith('#')) lines.push(line);
    if (!line.startsWith('> ')) continue;
    if (reloads && !asked) conversation = await open();
    const turn = await conversation.hear(line.slice(2));
    asked = turn.outcome === 'asked' || (asked && turn.events.length === 0);
    lines.push(line, `< ${textOfReply(turn.reply)}`);
    if (turn.reason !== null) lines.push(`? ${turn.outcome}: ${turn.reason}`);
    if (turn.events.length > 0) lines.push(`= ${turn.events.join(', ')}`);
  }
  const stored = await shelf.open(job.value.id);
  if (!stored.ok) throw new Error(stored.error.key);
  // What was talked through live, and what the store gives back, are one and the same job.
  expect(folded(stored.value.plan, stored.value.events)).toEqual(conversation.state);
  return { text: `${lines.join('\n')}\n`, conversation };
}

/*
 * Golden conversations: read them as a machinist would. After a change of wording on purpose, run with SWARFSIDE_GOLDEN=write
 * and read the difference before it is committed.
 */
describe('conversations', () => {
  for (const name of readdirSync(folder).filter((file) => file.endsWith('.txt')))
    it(name, async () => {
      const golden = readFileSync(new URL(name, folder), 'utf8');
      const { text } = await held(golden, name.split('-')[0] ?? '');
      if (process.env['SWARFSIDE_GOLDEN'] === 'write') writeFileSync(new URL(name, folder), text);
      else expect(text).toBe(golden);
    });
  for (const name of readdirSync(folder).filter((file) => file.endsWith('.txt')))
    it(`${name}, with the page loaded anew before every line`, async () => {
      const golden = readFileSync(new URL(name, folder), 'utf8');
      expect((await held(golden, name.split('-')[0] ?? '', true)).text).toBe(golden);
    });
});
