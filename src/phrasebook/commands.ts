import type { Command } from './command.ts';
import { asking } from './commands/asking.ts';
import { assistant } from './commands/assistant.ts';
import { cutting } from './commands/cutting.ts';
import { fit } from './commands/fit.ts';
import { moving } from './commands/moving.ts';
import { READING_RULES, readings } from './commands/readings.ts';
import { righting } from './commands/righting.ts';
import { SET_UP_RULES, setUp } from './commands/set-up.ts';
import { settingOut } from './commands/setting-out.ts';
import { SHARED_RULES } from './commands/shared.ts';
import type { GrammarNode } from './grammar.ts';
import { NUMBER_RULES } from './number-rules.ts';
import { template } from './template.ts';

/** The command table: every command once. */
export const COMMANDS: readonly Command[] = [
  ...moving,
  ...asking,
  ...readings,
  ...cutting,
  ...fit,
  ...setUp,
  ...settingOut,
  ...righting,
  ...assistant,
];

/** What each command says, parsed once, by its name. */
export const SAYS: ReadonlyMap<string, GrammarNode> = new Map(COMMANDS.map((command) => [command.name, template(command.says)]));

/** Every rule that a phrase or a number may refer to. */
export const RULES: Readonly<Record<string, GrammarNode>> = {
  ...NUMBER_RULES,
  ...Object.fromEntries(
    Object.entries({ ...SHARED_RULES, ...READING_RULES, ...SET_UP_RULES }).map(([name, text]) => [name, template(text)]),
  ),
};
