import { plain, type Command } from '../command.ts';

/** The name that wakes the page in call listening, as it is shown. */
export const CALL_NAME = 'Swarf';

/** What is said to the page about the page. */
export const assistant: readonly Command[] = [
  plain('assistant', { type: 'wake' }, {
    name: 'wake',
    says: '(hey | okay | hello) swarf | swarf',
    examples: ['hey swarf'],
    help: 'Open a short window to be heard in.',
    changesLog: false, button: 'Listen', key: ' ',
  }),
  plain('assistant', { type: 'stop-listening' }, {
    name: 'stop-listening',
    says: "stop listening | don't listen | go to sleep | mike off | turn the mike off",
    examples: ['stop listening'],
    help: 'Close the ear until it is opened by hand.',
    changesLog: false, button: 'Stop listening',
  }),
  plain('assistant', { type: 'louder' }, {
    name: 'louder',
    says: "louder | speak up | turn it up | volume up | i can't hear you",
    examples: ['louder'],
    help: 'Speak louder.',
    changesLog: false, button: 'Louder', key: ']',
  }),
  plain('assistant', { type: 'quieter' }, {
    name: 'quieter',
    says: 'quieter | softer | turn it down | volume down | not so loud | too loud',
    examples: ['quieter'],
    help: 'Speak softer.',
    changesLog: false, button: 'Quieter', key: '[',
  }),
  plain('assistant', { type: 'slower' }, {
    name: 'slower',
    says: 'slower | speak slower | talk slower | slow down | too fast',
    examples: ['slower'],
    help: 'Speak slower.',
    changesLog: false, button: 'Slower',
  }),
  plain('assistant', { type: 'hush' }, {
    name: 'hush',
    says: 'quiet | be quiet | hush | stop talking | shut up | enough | stop',
    examples: ['quiet', 'hush'],
    help: 'Silence this answer.',
    changesLog: false, button: 'Quiet', key: 's',
  }),
  plain('assistant', { type: 'what-can-i-say' }, {
    name: 'what-can-i-say',
    says: 'what can i say | what can i ask | help | commands | what are the commands | what do you (know | understand) | what can you do',
    examples: ['what can i say', 'help'],
    help: 'Show this card.',
    changesLog: false, button: 'What can I say', key: '?',
  }),
  plain('assistant', { type: 'memo' }, {
    name: 'memo',
    says: 'memo | take a memo | make a note | take a note | remember (this | that)',
    examples: ['memo'],
    help: 'Keep a short sound clip with this step.',
    changesLog: true, button: 'Memo',
  }),
];
