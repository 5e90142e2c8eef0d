import { numbered, plain, type Command } from '../command.ts';

/** Stepping through the operation plan. */
export const moving: readonly Command[] = [
  plain('moving', { type: 'next' }, {
    name: 'next',
    says: `next [one | step | operation | please] | next one please | go next | done [here | with (this | that | it)] | all (done | finished)
      | (that's | this is | this one's | that one's | step's) (done | finished) | finished [here | with (this | that | it) | this one | that one]
      | i'm (done | finished) [here | with (this | that | it)] | move on | moving on | let's move on | carry on | continue
      | on to the next [one] | mark it done`,
    examples: ['next', 'done', "that's done"],
    help: 'Finish this step and go to the next.',
    changesLog: true, button: 'Next', key: 'PageDown',
  }),
  plain('moving', { type: 'back' }, {
    name: 'back',
    says: `back [up] [one | a step | one step] | go back [one | a step | one step] | previous [step | one | operation] | one (back | step back)`,
    examples: ['back', 'go back one'],
    help: 'Open the step before this one.',
    changesLog: true, button: 'Back', key: 'PageUp',
  }),
  plain('moving', { type: 'skip' }, {
    name: 'skip',
    says: `skip [it | this [one | step] | that [one | step] | the step | ahead] | pass [over | on] this one | leave (this | that) one [out | for (now | later)]
      | leave it for (now | later) | (do (this | it) | come back to (this | it)) later`,
    examples: ['skip', 'skip this one'],
    help: 'Leave this step out and go on.',
    changesLog: true, button: 'Skip', key: 'k',
  }),
  numbered('moving', 'go-to', 'step', {
    name: 'go-to',
    says: `go [back] to [step | operation] [number] <step> | step [number] <step> | (jump | take me | skip | back) to [step | operation] [number] <step>
      | operation [number] <step> | (open | show me) step [number] <step>`,
    examples: ['go to step five', 'step twelve'],
    help: 'Open a step by its number.',
    changesLog: true, button: 'Go to step', key: 'g',
  }, (found) => ({ type: 'go-to', step: found.step() })),
  plain('moving', { type: 'where-am-i' }, {
    name: 'where-am-i',
    says: `where (am i | are we) [at] | (what | which) (step | operation) [is this | am i on | are we on] | what (am i | are we) (doing | on)
      | <what-is> (this step | this operation | the operation) | where (was i | were we) | where did (i | we) leave off | what was i doing
      | what do i do [here] | what am i supposed to (do | be doing)`,
    examples: ['where am i', 'what step is this'],
    help: 'Say which step is open and what it is.',
    changesLog: false, button: 'Where am I', key: 'w',
  }),
  plain('moving', { type: 'whats-next' }, {
    name: 'whats-next',
    says: `<what-is> (next | coming up | up next | after this) | what comes (next | after [this | that]) | what do i do (next | after this)
      | <what-is> the next (one | step | operation) | then what | and then what`,
    examples: ["what's next", 'what do i do next'],
    help: 'Say what the next step is, without going there.',
    changesLog: false, button: "What's next", key: 'n',
  }),
  plain('moving', { type: 'repeat' }, {
    name: 'repeat',
    says: `repeat [that | it] | [can you] (say | repeat) (that | it) again | [can you] repeat that please | say again | again [please] | come again | what was that
      | what did you say | pardon [me] | one more time | once more | say what | i missed that | [i] didn't (catch | hear | get) (that | it)`,
    examples: ['repeat', 'say again'],
    help: 'Say the last answer again.',
    changesLog: false, button: 'Say again', key: 'r',
  }),
];
