import type { CommandKey } from './keys.ts';

/** The keys of the commands, until the phrasebook's table gives them. */
export const commandKeys: readonly CommandKey[] = [];
