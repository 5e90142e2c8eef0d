import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { Conversation } from '../../src/app/index.ts';
import { openOperation, type Intent, type JobState } from '../../src/job/index.ts';
import { formatInch, NM_PER_THOU, type Length } from '../../src/measure/index.ts';
import { COMMANDS, interpret, interpretTyped } from '../../src/phrasebook/index.ts';
import { memoryShelf, openLog, readJobFile } from '../../src/shelf/index.ts';
import { deedOf } from '../../src/screens/machine/buttonRows.ts';
import { entered, openPad, pressed, type Pad, type PadAsk } from '../../src/screens/machine/pad.ts';

const NOON = Date.UTC(2026, 0, 5, 12);
const text = (path: string): string => readFileSync(new URL(path, import.meta.url), 'utf8');
const script = text('../fixtures/conversations/inch-whole-job.txt')
  .split('\n')
  .filter((line) => line.startsWith('> '))
  .map((line) => line.slice(2));

async function begun(): Promise<Conversation> {
  const read = readJobFile(text('../../src/shelf/demos/inch.job.json'));
  if (!read.ok) throw new Error('the demo does not open');
  const shelf = memoryShelf(() => NOON);
  const taken = await shelf.take(read.value, { newId: 'job', at: NOON });
  if (!taken.ok) throw new Error(taken.error.key);
  const job = await shelf.open(taken.value.id);
  if (!job.ok) throw new Error(job.error.key);
  let ids = 0;
  return new Conversation(job.value, {
    log: openLog(shelf, job.value),
    now: () => NOON,
    tick: () => 0,
    newId: () => `e${(ids += 1)}`,
    bareReadings: () => true,
  });
}

const typedInto = (pad: Pad, keys: string): Pad => [...keys].reduce(pressed, pad);
const inThou = (length: Length): string => String(length / NM_PER_THOU);

/** The pad that a spoken command with a number is typed into, filled in. */
function padFor(intent: Intent, spotting: boolean): Pad | null {
  const open = (ask: PadAsk, keys: string): Pad => typedInto(openPad(ask, 'inch', false), keys);
  if (intent.type === 'go-to') return intent.step.as === 'one' ? open('go-to', String(intent.step.value)) : null;
  if (intent.type === 'dial-zeroed' && spotting) return open('spot', '0');
  if (!('value' in intent) || intent.value.as !== 'one') return null;
  if (intent.type === 'set-up-count') return open('turns', String(intent.value.value));
  const value = intent.value.value as Length;
  switch (intent.type) {
    case 'reading':
      if (spotting) return open('spot', inThou(value));
      return { ...open('reading', formatInch(value, 4)), place: intent.place, instrument: intent.instrument };
    case 'correct':
      return open('correct', spotting ? inThou(value) : formatInch(value, 4));
    case 'took':
      return open('took', inThou(value));
    case 'jaw':
      return { ...open('jaw', inThou(value)), jaw: intent.jaw };
    case 'indicator':
      return open(intent.end, inThou(value));
    case 'edge':
      return open(intent.edge === 'end' ? 'end-edge' : intent.edge === 'first' ? 'edge' : 'other-edge', formatInch(value, 4));
    case 'dial':
    case 'filed':
    case 'set-up-length':
    case 'spot':
    case 'temperature':
      throw new Error(`the script says nothing of ${intent.type}`);
  }
}

/** Does by the buttons and the number pad alone what a sentence says. */
async function touched(conversation: Conversation, words: string): Promise<void> {
  const read = interpret(words, conversation.context);
  if (!read.ok) throw new Error(`"${words}" is not understood`);
  const intent = read.value;
  const pad = padFor(intent, openOperation(conversation.state)?.kind === 'find-high-spot');
  if (pad === null) {
    const command = COMMANDS.find(
      (candidate) => candidate.takes === null && JSON.stringify(candidate.make()) === JSON.stringify(intent),
    );
    const deed = command === undefined ? null : deedOf(command);
    if (deed?.do !== 'say') throw new Error(`no button does "${words}"`);
    await conversation.press(deed.intent);
    return;
  }
  const made = entered(pad, 'inch');
  if (made === null) throw new Error(`the pad does not take "${pad.text}" for "${words}"`);
  if (made.as === 'intent') {
    await conversation.press(made.intent);
    return;
  }
  const typed = interpretTyped(made.text, conversation.context);
  if (!typed.ok || typed.value.type !== 'reading') throw new Error(`"${made.text}" is no size`);
  await conversation.press(
    made.for === 'correct'
      ? { type: 'correct', value: typed.value.value }
      : { ...typed.value, place: made.place, instrument: made.instrument },
  );
}

/** What the record is made from: all but the words that were said, the ids of the events and the times. */
const recordOf = (state: JobState): unknown =>
  JSON.parse(
    JSON.stringify({ open: state.open, progress: state.progress, mates: state.mates }, (key, value: unknown) =>
      key === 'event' || key === 'words' || key === 'at' ? undefined : value,
    ),
  );

test('the whole job by buttons and pad ends in the record that it ends in by voice', async () => {
  const spoken = await begun();
  for (const words of script) await spoken.hear(words);
  const pressedOnly = await begun();
  for (const words of script) await touched(pressedOnly, words);
  expect(spoken.state.open).toBeNull();
  expect(recordOf(pressedOnly.state)).toEqual(recordOf(spoken.state));
});
