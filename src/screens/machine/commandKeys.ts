import { COMMANDS, type Command } from '../../phrasebook/index.ts';

/**
 * The command that has this key in the phrasebook's table, in whichever case it is typed; `first` is the key that was pressed
 * before it and waits for a second, null where there is none.
 */
export function commandWithKey(key: string, first: string | null): Command | null {
  const keys = first === null ? key : `${first} ${key}`;
  return COMMANDS.find((command) => command.key.toLowerCase() === keys.toLowerCase()) ?? null;
}

/** Whether a key begins commands of two keys and waits for the second. */
export const waitsForSecond = (key: string): boolean => COMMANDS.some((command) => command.key.startsWith(`${key} `));
