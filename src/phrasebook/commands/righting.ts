import { numbered, plain, type Command } from '../command.ts';

/** Taking back, putting right, answering a question. */
export const righting: readonly Command[] = [
  plain('righting', { type: 'scratch' }, {
    name: 'scratch',
    says: `scratch (that | it | the last one) | scratch | strike (that | it) | undo [that | it] | take (that | it) back | (delete | ignore | forget | disregard) that
      | (delete | ignore) the last one | that's wrong | that was wrong`,
    examples: ['scratch that', 'undo'],
    help: 'Take the last thing back. Nothing is deleted.',
    changesLog: true, button: 'Scratch that', key: 'Backspace',
  }),
  numbered('righting', 'correct', 'size', {
    name: 'correct',
    says: `(no | make (that | it) | no make (that | it) | no it's | i meant | no i meant | correction | change (that | it) to | that should be | it should be
      | not that | sorry | no sorry | no wait | i mean) <size>`,
    examples: ['no six twenty six', 'make that six twenty six'],
    help: 'Put the last number right.',
    changesLog: true, button: 'Make that', key: 'u',
  }, (found) => ({ type: 'correct', value: found.length() })),
  plain('righting', { type: 'yes' }, {
    name: 'yes',
    says: "yes [please | it is | that's right] | yeah | yep | yup | correct | that's right | that's it | affirmative | okay | sure | keep it | go ahead",
    examples: ['yes', 'yeah'],
    help: 'Yes, to a question.',
    changesLog: true, button: 'Yes', key: 'y',
  }),
  plain('righting', { type: 'no' }, {
    name: 'no',
    says: "no [it's not | it isn't] | nope | nah | negative | not that | no that's wrong | no thanks",
    examples: ['no', 'nope'],
    help: 'No, to a question.',
    changesLog: false, button: 'No', key: '/',
  }),
  plain('righting', { type: 'cancel' }, {
    name: 'cancel',
    says: 'cancel [that | it] | never mind | forget it | forget about it',
    examples: ['cancel', 'never mind'],
    help: 'Drop the question; nothing is stored.',
    changesLog: false, button: 'Cancel', key: 'Escape',
  }),
];
