import { numbered, plain, type Command } from '../command.ts';

/** Stepping through the operation plan. */
export const moving: readonly Command[] = [
  plain('moving', { type: 'next' }, {
    name: 'next',
    says: `next [one | step | operation | please] | done [with (this | that)] | that's done | all done | finished | i'm (done | finished)
      | move on | carry on | next one please | that one's done | on to the next [one]`,
    examples: ['next', 'done', "that's done"],
    help: 'Finish this step and go to the next.',
    changesLog: true, button: 'Next', key: 'PageDown',
  }),
  plain('moving', { type: 'back' }, {
    name: 'back',
    says: 'back [one | a step | one step] | go back [one | a step | one step] | previous [step | one | operation] | back up [one | a step]',
    examples: ['back', 'go back one'],
    help: 'Open the step before this one.',
    changesLog: true, button: 'Back', key: 'PageUp',
  }),
  plain('moving', { type: 'skip' }, {
    name: 'skip',
    says: 'skip [it | this [one | step] | that [one | step] | the step] | pass over this one | leave this one [out | for now]',
    examples: ['skip', 'skip this one'],
    help: 'Leave this step out and go on.',
    changesLog: true, button: 'Skip', key: 'k',
  }),
  numbered('moving', 'go-to', 'step', {
    name: 'go-to',
    says: 'go to [step] [number] <step> | step [number] <step> | (jump | take me | go back) to [step] [number] <step> | operation [number] <step>',
    examples: ['go to step five', 'step twelve'],
    help: 'Open a step by its number.',
    changesLog: true, button: 'Go to step', key: 'g',
  }, (found) => ({ type: 'go-to', step: found.step() })),
  plain('moving', { type: 'where-am-i' }, {
    name: 'where-am-i',
    says: `where am i | where are we | (what | which) step [is this | am i on | are we on] | what am i doing | what's this step | what are we doing
      | where was i | what was i doing`,
    examples: ['where am i', 'what step is this'],
    help: 'Say which step is open and what it is.',
    changesLog: false, button: 'Where am I', key: 'w',
  }),
  plain('moving', { type: 'whats-next' }, {
    name: 'whats-next',
    says: "what's next | what is next | what comes next | what's after this | what's the next (one | step | operation) | what do i do next",
    examples: ["what's next", 'what do i do next'],
    help: 'Say what the next step is, without going there.',
    changesLog: false, button: "What's next", key: 'n',
  }),
  plain('moving', { type: 'repeat' }, {
    name: 'repeat',
    says: 'repeat [that] | say again | say that again | say it again | again | come again | what was that | what did you say | pardon | one more time',
    examples: ['repeat', 'say again'],
    help: 'Say the last answer again.',
    changesLog: false, button: 'Say again', key: 'r',
  }),
];
