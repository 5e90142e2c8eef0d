import { readFileSync, writeFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { Conversation } from '../../src/app/index.ts';
import { openOperation, resultsOf, type Intent, type JobState } from '../../src/job/index.ts';
import { formatInch, formatSize, NM_PER_THOU, type Length } from '../../src/measure/index.ts';
import { COMMANDS, interpret, interpretTyped, textOfReply } from '../../src/phrasebook/index.ts';
import { memoryShelf, openLog, readJobFile } from '../../src/shelf/index.ts';
import { deedOf, ROWS } from '../../src/screens/machine/buttonRows.ts';
import { words as labels } from '../../src/screens/words.ts';
import { entered, openPad, pressed, type Pad, type PadAsk } from '../../src/screens/machine/pad.ts';

const NOON = Date.UTC(2026, 0, 5, 12);
const text = (path: string): string => readFileSync(new URL(path, import.meta.url), 'utf8');
const lines = text('../fixtures/conversations/inch-whole-job.txt').split('\n');
const script = lines.filter((line) => line.startsWith('> ')).map((line) => line.slice(2));

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

type Turn = Awaited<ReturnType<Conversation['press']>>;

/** The buttons on the way to one, from the row that is up at first: the shortest, each row turned over where it has to be. */
function wayTo(label: string): string {
  const next: { readonly row: keyof typeof ROWS; readonly way: readonly string[] }[] = [{ row: 'first', way: [] }];
  const been = new Set<string>();
  for (let at = next.shift(); at !== undefined; at = next.shift()) {
    if (been.has(at.row)) continue;
    been.add(at.row);
    const { way } = at;
    const { places, turnsTo } = ROWS[at.row];
    for (const button of places) {
      if (button === null) continue;
      if (button.label === label) return [...way, label].map((each) => `[${each}]`).join(' ');
      if (button.deed.do === 'row') next.push({ row: button.deed.row, way: [...way, button.label] });
    }
    next.push({ row: turnsTo, way: [...way, labels.buttons.more] });
  }
  throw new Error(`no row has "${label}"`);
}

/** What is keyed in the pad, with what it was set to beside the number. */
function keyed(pad: Pad): string {
  const place = pad.place === null ? [] : [labels.places[pad.place]];
  const instrument = pad.instrument === null ? [] : [labels.instruments[pad.instrument]];
  return [labels.pad.title[pad.ask], ...(pad.ask === 'jaw' ? [String(pad.jaw)] : []), pad.text, ...place, ...instrument].join(
    ' · ',
  );
}

/** Does by the buttons and the number pad alone what a sentence says; what was pressed, and what came of it. */
async function touched(conversation: Conversation, words: string): Promise<{ readonly pressed: string; readonly turn: Turn }> {
  const read = interpret(words, conversation.context);
  if (!read.ok) throw new Error(`"${words}" is not understood`);
  const intent = read.value;
  const pad = padFor(intent, openOperation(conversation.state)?.kind === 'find-high-spot');
  if (pad === null) {
    const command = COMMANDS.find(
      (candidate) => candidate.takes === null && JSON.stringify(candidate.make()) === JSON.stringify(intent),
    );
    const deed = command === undefined ? null : deedOf(command);
    if (command?.button == null || deed?.do !== 'say') throw new Error(`no button does "${words}"`);
    const label = deed.intent.type === 'next' ? labels.buttons.next : command.button;
    return { pressed: wayTo(label), turn: await conversation.press(deed.intent) };
  }
  const made = entered(pad, 'inch');
  if (made === null) throw new Error(`the pad does not take "${pad.text}" for "${words}"`);
  const opens = COMMANDS.find(({ name }) => name === pad.ask)?.button ?? null;
  const way = pad.ask === 'reading' ? `[${labels.buttons.reading}]` : wayTo(labels.buttons.wantsNumber(opens ?? ''));
  const pressed = `${way} ${keyed(pad)}`;
  if (made.as === 'intent') return { pressed, turn: await conversation.press(made.intent) };
  const typed = interpretTyped(made.text, conversation.context);
  if (!typed.ok || typed.value.type !== 'reading') throw new Error(`"${made.text}" is no size`);
  const turn = await conversation.press(
    made.for === 'correct'
      ? { type: 'correct', value: typed.value.value }
      : { ...typed.value, place: made.place, instrument: made.instrument },
  );
  return { pressed, turn };
}

/** The record's table as text: every size that was made, with the limits, the reading and its instrument. */
const recordText = (state: JobState): string[] =>
  resultsOf(state).map(({ name, quantity, window, last }) => {
    const size = (length: Length): string => formatSize(length, 'inch');
    const limits = window === null ? '' : `, ${size(window.low)} to ${size(window.high)}`;
    const read =
      last === null
        ? 'not measured'
        : `${size(last.value)}${last.instrument === null ? '' : `, ${labels.instruments[last.instrument]}`}`;
    return `${name}, ${quantity}${limits}: ${read}`;
  });

/** What the record is made from: all but the words that were said, the ids of the events and the times. */
const recordOf = (state: JobState): unknown =>
  JSON.parse(
    JSON.stringify({ open: state.open, progress: state.progress, mates: state.mates }, (key, value: unknown) =>
      key === 'event' || key === 'words' || key === 'at' ? undefined : value,
    ),
  );

const GOLDEN = new URL('../fixtures/buttons/inch-whole-job.txt', import.meta.url);

/*
 * The whole job without a word: what is pressed, what is answered, what is stored, and the record at the end. Read it as a
 * machinist would; run with SWARFSIDE_GOLDEN=write after a change on purpose.
 */
test('the whole job by buttons and pad reads as it did, and ends in the record that it ends in by voice', async () => {
  const spoken = await begun();
  for (const words of script) await spoken.hear(words);
  const pressedOnly = await begun();
  const told = ['# Invented demo in inches: the whole job by buttons alone. "* pressed", "< answered", "= events stored".'];
  for (const line of lines.slice(1)) {
    if (line.startsWith('#')) told.push(line);
    if (!line.startsWith('> ')) continue;
    const { pressed, turn } = await touched(pressedOnly, line.slice(2));
    told.push(`* ${pressed}`, `< ${textOfReply(turn.reply)}`);
    if (turn.reason !== null) told.push(`? ${turn.outcome}: ${turn.reason}`);
    if (turn.events.length > 0) told.push(`= ${turn.events.join(', ')}`);
  }
  told.push('# The record.', ...recordText(pressedOnly.state));
  expect(spoken.state.open).toBeNull();
  expect(recordOf(pressedOnly.state)).toEqual(recordOf(spoken.state));
  const golden = `${told.join('\n')}\n`;
  if (process.env['SWARFSIDE_GOLDEN'] === 'write') writeFileSync(GOLDEN, golden);
  else expect(golden).toBe(readFileSync(GOLDEN, 'utf8'));
});
