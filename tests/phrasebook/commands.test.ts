import { describe, expect, test } from 'vitest';
import { card, COMMANDS, GROUPS, interpret, samples, type Command } from '../../src/phrasebook/index.ts';
import { CONTEXTS } from './contexts.ts';

const NUMBERS = {
  size: ['six twenty seven', 'two over'],
  small: ['ten'],
  signed: ['two'],
  step: ['five'],
  temperature: ['seventy two'],
  place: ['at the shoulder', 'across'],
};
const COUNTS = { degrees: 'angle', readings: 'readings-round', holes: 'holes', hole: 'hole-number', turns: 'turns' } as const;
const LENGTHS = {
  finder: 'finder',
  circle: 'bolt-circle',
  line: 'hole-line',
  large: 'large-end',
  small: 'small-end',
  over: 'taper-length',
  work: 'work-length',
  bar: 'packing-on',
  packing: 'packed-with',
  carriage: 'carriage-dial',
} as const;
/** The command whose intent came of a sentence, by what tells the commands of one intent apart. */
function kindOf(sentence: string): string {
  const read = interpret(sentence, CONTEXTS['inch .620']);
  if (!read.ok) return read.error.key;
  const intent = read.value;
  if (intent.type === 'feel') return intent.feel;
  if (intent.type === 'working') return intent.working;
  if (intent.type === 'indicator') return intent.end;
  if (intent.type === 'edge') return { first: 'edge', other: 'other-edge', end: 'end-edge' }[intent.edge];
  if (intent.type === 'set-up-count') return COUNTS[intent.what];
  if (intent.type === 'set-up-length') return LENGTHS[intent.what];
  return intent.type;
}
const nameOf = (command: string): string =>
  command === 'binds' ? 'binds-at-the-shoulder' : command.startsWith('filed-') ? 'filed' : command;

describe('the command table', () => {
  test('has every intent of the job, and no command twice', () => {
    const all = [
      'next',
      'back',
      'skip',
      'go-to',
      'where-am-i',
      'whats-next',
      'repeat',
      'ask-target',
      'ask-left',
      'ask-passes',
      'ask-dial',
      'ask-stop',
      'ask-speed',
      'ask-feed',
      'ask-last',
      'ask-taken',
      'ask-bore',
      'ask-fit',
      'ask-time',
      'ask-caution',
      'read-log',
      'reading',
      'temperature',
      'took',
      'dial',
      'touched-off',
      'dial-zeroed',
      'feel',
      'working',
      'filed',
      'jaw',
      'indicator',
      'edge',
      'spot',
      'set-up-count',
      'set-up-length',
      'next-hole',
      'ask-set-up',
      'ask-why',
      'ask-packing',
      'ask-taper',
      'scratch',
      'correct',
      'yes',
      'no',
      'cancel',
      'wake',
      'stop-listening',
      'louder',
      'quieter',
      'slower',
      'hush',
      'what-can-i-say',
      'memo',
    ] as const satisfies readonly Command['intent'][];
    const missing: Exclude<Command['intent'], (typeof all)[number]>[] = [];
    expect(missing).toEqual([]);
    expect([...new Set(COMMANDS.map((command) => command.intent))].sort()).toEqual([...all].sort());
    expect(new Set(COMMANDS.map((command) => command.name)).size).toBe(COMMANDS.length);
  });
  test('gives no key to two commands, and every command a button', () => {
    const keys = COMMANDS.map((command) => command.key);
    expect(new Set(keys).size).toBe(keys.length);
    // A key that waits for a second one is no command by itself.
    const first = keys.flatMap((key) => (/^\S \S$/.test(key) ? [key.charAt(0)] : []));
    expect(keys.filter((key) => first.includes(key))).toEqual([]);
    expect(COMMANDS.filter((command) => command.button === null)).toEqual([]);
    expect(new Set(COMMANDS.map((command) => command.button)).size).toBe(COMMANDS.length);
  });
  test('leaves the digits, the point, minus and plus to typed readings', () => {
    expect(COMMANDS.filter((command) => /^[\d]$/.test(command.key)).map((command) => command.name)).toEqual([]);
  });

  const all = samples(400, NUMBERS);
  test('gives sample sentences of every command', () => {
    expect(new Set(all.map((each) => each.command)).size).toBe(COMMANDS.length);
    expect(all.length).toBeGreaterThan(1400);
  });
  test('understands each of its sentences as the command it belongs to', () => {
    expect(
      all
        .filter(({ command, sentence }) => kindOf(sentence) !== nameOf(command))
        .map(({ command, sentence }) => `${command}: ${sentence} → ${kindOf(sentence)}`),
    ).toEqual([]);
  });
  test('has no sentence that two commands share', () => {
    const owners = new Map<string, Set<string>>();
    for (const { command, sentence } of all) owners.set(sentence, (owners.get(sentence) ?? new Set()).add(command));
    expect(
      [...owners].filter(([, names]) => names.size > 1).map(([sentence, names]) => `${sentence}: ${[...names].join(', ')}`),
    ).toEqual([]);
  });
});

describe('the card', () => {
  test('has every command once, in its group', () => {
    const groups = card(null);
    expect(groups.map((group) => group.id)).toEqual(Object.keys(GROUPS));
    expect(groups.flatMap((group) => group.lines.map((line) => line.name)).sort()).toEqual(
      COMMANDS.map((command) => command.name).sort(),
    );
  });
  test('shows what is likely now first', () => {
    const [now] = card(CONTEXTS['inch .620']);
    expect(now?.id).toBe('now');
    expect(now?.lines[0]?.name).toBe('reading');
    const [asked] = card(CONTEXTS['inch .620 asked']);
    expect(asked?.lines.slice(0, 2).map((line) => line.name)).toEqual(['yes', 'no']);
    expect(card(CONTEXTS['inch nothing'])[0]?.lines.map((line) => line.name)).not.toContain('reading');
    expect(card(CONTEXTS['inch indicator'])[0]?.lines.map((line) => line.name)).toContain('jaw');
  });
  test('tells what to say, what it does and what does the same', () => {
    const next = card(null)
      .flatMap((group) => group.lines)
      .find((line) => line.name === 'next');
    expect(next).toEqual({
      name: 'next',
      say: ['next', 'done', "that's done"],
      help: 'Finish this step and go to the next.',
      button: 'Next',
      key: 'PageDown',
      changesLog: true,
    });
  });
});
