import { numbered, plain, type Command } from '../command.ts';

/** Taking back, putting right, answering a question. */
export const righting: readonly Command[] = [
  plain('righting', { type: 'scratch' }, {
    name: 'scratch',
    says: `[no] scratch (that | it | the last one) | scratch | strike (that | it) | undo [that | it | the last one] | take (that | it) back | (delete | ignore | forget | disregard | remove | erase) that
      | (delete | remove) it | (delete | ignore | remove) the last one | that's (wrong | not right) | that (was wrong | isn't right) | my mistake`,
    examples: ['scratch that', 'undo'],
    help: 'Take the last thing back. Nothing is deleted.',
    changesLog: true, button: 'Scratch that', key: 'Backspace',
  }),
  numbered('righting', 'correct', 'size', {
    name: 'correct',
    says: `(no | make (that | it) | no make (that | it) | no (it's | that should be) | [no] i (meant | mean | said) | correction | change (that | it) to | [that | it] should be
      | should have been | not that | [no] sorry | [no] wait | rather | [no] actually) <size>`,
    examples: ['no six twenty six', 'make that six twenty six'],
    help: 'Put the last number right.',
    changesLog: true, button: 'Make that', key: 'u',
  }, (found) => ({ type: 'correct', value: found.length() })),
  plain('righting', { type: 'yes' }, {
    name: 'yes',
    says: `yes [please | sir | it is | that's right | keep it | go ahead | do] | yeah | yep | yup | [that's] correct | that's (right | it | the one | what i said) | affirmative | okay | sure
      | keep (it | that) | go ahead | absolutely | exactly | [i'm] positive | i'm sure`,
    examples: ['yes', 'yeah'],
    help: 'Yes, to a question.',
    changesLog: true, button: 'Yes', key: 'y',
  }),
  plain('righting', { type: 'no' }, {
    name: 'no',
    says: `no [it's not | it isn't | sir | don't | the other one] | nope | nah | negative | not that [one] | no that's (wrong | not it | not right) | no thanks | don't keep it | the other one`,
    examples: ['no', 'nope'],
    help: 'No, to a question.',
    changesLog: false, button: 'No', key: '/',
  }),
  plain('righting', { type: 'cancel' }, {
    name: 'cancel',
    says: `cancel [that | it] | [no] never mind | forget [about] it | drop it | skip the question`,
    examples: ['cancel', 'never mind'],
    help: 'Drop the question; nothing is stored.',
    changesLog: false, button: 'Cancel', key: 'Escape',
  }),
];
