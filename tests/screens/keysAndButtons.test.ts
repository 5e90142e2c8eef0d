import { describe, expect, test } from 'vitest';
import { COMMANDS } from '../../src/phrasebook/index.ts';
import { ROWS, deedOf } from '../../src/screens/machine/buttonRows.ts';
import { commandWithKey, waitsForSecond } from '../../src/screens/machine/commandKeys.ts';
import { keyDeed, type KeyDeed } from '../../src/screens/machine/keys.ts';
import { FIRST_ROW, type RowId } from '../../src/screens/machine/row.ts';

const plainPress = { withModifier: false, inField: false, onControl: false };

const KEYS: readonly (readonly [key: string, deed: KeyDeed])[] = [
  ['PageDown', { do: 'next' }],
  ['PageUp', { do: 'back' }],
  [' ', { do: 'talk' }],
  ['Enter', { do: 'enter' }],
  ['Escape', { do: 'escape' }],
  ['Backspace', { do: 'erase' }],
  ['7', { do: 'type', key: '7' }],
  ['.', { do: 'type', key: '.' }],
  [',', { do: 'type', key: '.' }],
  ['-', { do: 'type', key: '-' }],
  ['t', { do: 'letter', key: 't' }],
  ['/', { do: 'letter', key: '/' }],
];

describe('keys', () => {
  test.each(KEYS)('%s', (key, deed) => {
    expect(keyDeed({ ...plainPress, key })).toEqual(deed);
  });

  test.each(KEYS)('%s is left alone in a text field and with a modifier', (key) => {
    expect(keyDeed({ ...plainPress, key, inField: true })).toBeNull();
    expect(keyDeed({ ...plainPress, key, withModifier: true })).toBeNull();
  });

  test('Enter presses the control that has the focus, and no other key does', () => {
    const onControl = KEYS.filter(([key]) => keyDeed({ ...plainPress, key, onControl: true }) === null).map(([key]) => key);
    expect(onControl).toEqual(['Enter']);
  });

  test.each(['Tab', 'ArrowDown', 'F5', 'Shift', 'Dead'])('%s stays the browser’s', (key) => {
    expect(keyDeed({ ...plainPress, key })).toBeNull();
  });

  test('no two commands share a key, and every key of the table does something on the page', () => {
    const keys = COMMANDS.map((command) => command.key);
    expect(new Set(keys.map((key) => key.toLowerCase())).size).toBe(keys.length);
    for (const key of keys)
      for (const press of /^\S \S$/.test(key) ? key.split(' ') : [key])
        expect(keyDeed({ ...plainPress, key: press }), key).not.toBeNull();
  });

  test('every letter of the table finds its own command', () => {
    for (const command of COMMANDS)
      if (command.key.length === 1) expect(commandWithKey(command.key.toUpperCase(), null)).toBe(command);
    expect(commandWithKey('~', null)).toBeNull();
  });

  test('two keys, one after the other, find their own command, and no other way', () => {
    const pairs = COMMANDS.filter(({ key }) => /^\S \S$/.test(key));
    expect(pairs.length).toBeGreaterThan(40);
    for (const command of pairs) {
      const [first = '', second = ''] = command.key.split(' ');
      expect(waitsForSecond(first)).toBe(true);
      expect(commandWithKey(first, null)).toBeNull();
      expect(commandWithKey(second.toUpperCase(), first)).toBe(command);
      expect(commandWithKey(second, null)).not.toBe(command);
    }
    expect(waitsForSecond('t')).toBe(false);
    expect(waitsForSecond(' ')).toBe(false);
    expect(commandWithKey('~', ';')).toBeNull();
  });

  test('a command that a letter stands for never takes the key of a digit, point or sign', () => {
    const typing = COMMANDS.filter(({ key }) => keyDeed({ ...plainPress, key })?.do === 'type');
    expect(typing.map(({ name }) => name)).toEqual([]);
  });
});

/** Rows in the order that they are met, by turning and choosing, from the first. */
function reachable(): ReadonlyMap<RowId, number> {
  const presses = new Map<RowId, number>([['first', 0]]);
  for (const [id, count] of presses) {
    const { places, turnsTo } = ROWS[id];
    const onward = [turnsTo, ...places.flatMap((button) => (button?.deed.do === 'row' ? [button.deed.row] : []))];
    for (const next of onward) if (!presses.has(next)) presses.set(next, count + 1);
  }
  return presses;
}

describe('the rows of buttons', () => {
  /** Done by something else that is always there: the talk button, and the two halves of a question. */
  const ELSEWHERE = ['wake', 'yes', 'no', 'cancel'];

  test('every command that can be said can be pressed', () => {
    const deeds = Object.values(ROWS).flatMap((row) =>
      row.places.flatMap((button) => (button === null ? [] : [JSON.stringify(button.deed)])),
    );
    const missing = COMMANDS.filter(
      (command) => !ELSEWHERE.includes(command.name) && !deeds.includes(JSON.stringify(deedOf(command))),
    );
    expect(missing.map(({ name }) => name)).toEqual([]);
  });

  test('the first row, which is there before the table, has next as the table has it', () => {
    const next = COMMANDS.find(({ name }) => name === 'next');
    expect(next).toBeDefined();
    if (next !== undefined) expect(FIRST_ROW.places).toContainEqual({ label: next.button, deed: deedOf(next) });
  });

  test('no command stands twice', () => {
    const deeds = Object.values(ROWS).flatMap((row) =>
      row.places.flatMap((button) => (button === null ? [] : [JSON.stringify(button.deed)])),
    );
    expect(deeds.filter((deed, index) => deeds.indexOf(deed) !== index)).toEqual([]);
  });

  test('every row is at most seven presses away, and turning on and on always comes back to the first', () => {
    const presses = reachable();
    expect([...presses.keys()].sort()).toEqual(Object.keys(ROWS).sort());
    expect(Math.max(...presses.values())).toBeLessThanOrEqual(7);
    for (const id of presses.keys()) {
      let at = id;
      for (let turns = 0; turns < 10 && at !== 'first'; turns += 1) at = ROWS[at].turnsTo;
      expect(at, id).toBe('first');
    }
  });
});
