import type { Context } from '../job/index.ts';
import { GROUPS, type Command, type Group } from './command.ts';
import { COMMANDS } from './commands.ts';
import { likelihood } from './likelihood.ts';

/** A line of the card: what to say, what it does, and the button and key that do the same. */
export type CardLine = {
  readonly name: string;
  readonly say: readonly string[];
  readonly help: string;
  readonly button: string | null;
  readonly key: string;
  readonly changesLog: boolean;
};
export type CardGroup = { readonly id: 'now' | Group; readonly title: string; readonly lines: readonly CardLine[] };

const lineOf = (command: Command): CardLine => ({
  name: command.name,
  say: command.examples,
  help: command.help,
  button: command.button,
  key: command.key,
  changesLog: command.changesLog,
});

/** How likely a command must be to stand among those for now. */
const LIKELY = 2;

/**
 * The "what can I say" card: what is likely now first, where a context is given, then every group with every command.
 */
export function card(context: Context | null): readonly CardGroup[] {
  const groups = (Object.keys(GROUPS) as Group[]).map((id): CardGroup => ({
    id,
    title: GROUPS[id],
    lines: COMMANDS.filter((command) => command.group === id).map(lineOf),
  }));
  if (context === null) return groups;
  const now = COMMANDS.map((command) => ({ command, weight: likelihood(command, context) }))
    .filter(({ weight }) => weight >= LIKELY)
    .sort((a, b) => b.weight - a.weight)
    .map(({ command }) => lineOf(command));
  return [{ id: 'now', title: 'Likely now', lines: now }, ...groups];
}
