import { plain, type Command } from '../command.ts';

/**
 * The names that may wake the page in call listening, as they are shown, the usual one first. Each was measured for false alarms
 * and misses before it came here (docs/ear.md).
 */
export const CALL_NAMES = ['Swarfside', 'Swarf', 'Foreman'] as const;
export type CallName = (typeof CALL_NAMES)[number];
export const CALL_NAME: CallName = 'Swarfside';

const NAMES = CALL_NAMES.join(' | ').toLowerCase();

/** What is said to the page about the page. */
export const assistant: readonly Command[] = [
  plain('assistant', { type: 'wake' }, {
    name: 'wake',
    says: `(hey | okay | hello | hi) (${NAMES}) | (${NAMES}) [listen]`,
    examples: ['hey swarfside'],
    help: 'Open a short window to be heard in.',
    changesLog: false, button: 'Listen', key: ' ',
  }),
  plain('assistant', { type: 'stop-listening' }, {
    name: 'stop-listening',
    says: `(stop | quit) listening | don't listen | go to sleep | mike off | turn the mike off | turn off the mike`,
    examples: ['stop listening'],
    help: 'Close the ear until it is opened by hand.',
    changesLog: false, button: 'Stop listening', key: '; x',
  }),
  plain('assistant', { type: 'louder' }, {
    name: 'louder',
    says: `[a bit | a little | speak | talk] louder | speak up | turn (it | the volume) up | turn up the volume | volume up | [i] can't hear you | too quiet`,
    examples: ['louder'],
    help: 'Speak louder.',
    changesLog: false, button: 'Louder', key: ']',
  }),
  plain('assistant', { type: 'quieter' }, {
    name: 'quieter',
    says: `[a bit | a little | speak] (quieter | softer) | turn (it | the volume) down | turn down the volume | volume down | not so loud | [you're] too loud | keep it down`,
    examples: ['quieter'],
    help: 'Speak softer.',
    changesLog: false, button: 'Quieter', key: '[',
  }),
  plain('assistant', { type: 'slower' }, {
    name: 'slower',
    says: `[a bit | a little | speak | talk | say it] slower | speak slowly | slow down | [you're talking] too fast | not so fast`,
    examples: ['slower'],
    help: 'Speak slower.',
    changesLog: false, button: 'Slower', key: '; o',
  }),
  plain('assistant', { type: 'hush' }, {
    name: 'hush',
    says: `quiet | be quiet | hush | (stop | quit) talking | shut up | [that's] enough | stop | silence`,
    examples: ['quiet', 'hush'],
    help: 'Silence this answer.',
    changesLog: false, button: 'Quiet', key: 's',
  }),
  plain('assistant', { type: 'what-can-i-say' }, {
    name: 'what-can-i-say',
    says: `what can i (say | ask [you] | do | tell you) | what do i say | help [me] | commands | (list | show [me]) the commands | what are the commands | what do you (know | understand)
      | what can you do`,
    examples: ['what can i say', 'help'],
    help: 'Show this card.',
    changesLog: false, button: 'What can I say', key: '?',
  }),
  plain('assistant', { type: 'memo' }, {
    name: 'memo',
    says: `[voice | new] memo | (take | make | record | keep) a memo | (make | take | leave | record | save) a note | voice note | remember (this | that) | record this`,
    examples: ['memo'],
    help: 'Keep a short sound clip with this step.',
    changesLog: true, button: 'Memo', key: '; m',
  }),
];
