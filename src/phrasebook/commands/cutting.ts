import { numbered, plain, type Command } from '../command.ts';

/** What the tool did. */
export const cutting: readonly Command[] = [
  numbered('cutting', 'took', 'depth-of-cut', {
    name: 'took',
    says: `took [off] <small> [off] | [i] took <small> [off | out] | taking [off] <small> [off] | (cut | just took | i've taken | taken) <small> [off]
      | took a <small> cut`,
    examples: ['took ten', 'took five thou'],
    help: 'Log the cut just taken, as the dial reads.',
    changesLog: true, button: 'Took', key: 'x',
  }, (found) => ({ type: 'took', value: found.length() })),
  numbered('cutting', 'dial', 'dial', {
    name: 'dial',
    says: `dial [is] [at | in | on | to | reads] <small> | [the] dial (is at | reads | says | at) <small> | dialed [in] <small> [in]
      | dialing [in] <small> | set the dial (to | at) <small> | (put | putting) <small> on [the dial] | dial's at <small>`,
    examples: ['dial ten', 'dial at forty'],
    help: 'Log what the dial reads or what was put on.',
    changesLog: true, button: 'Dialled', key: 'h',
  }, (found) => ({ type: 'dial', value: found.length() })),
  plain('cutting', { type: 'touched-off' }, {
    name: 'touched-off',
    says: "touched off | touch off | [just] touching | just touched | i'm touching | touched [off] on the (work | part) | picked up the (diameter | work)",
    examples: ['touched off', 'just touching'],
    help: 'The tool just touches the work.',
    changesLog: true, button: 'Touched off', key: 'q',
  }),
  plain('cutting', { type: 'dial-zeroed' }, {
    name: 'dial-zeroed',
    says: "zero [it | that] | zeroed [it | out] | zero the dial | zeroed the dial | dial's zeroed | set [the dial] to zero | set zero | dial zeroed | zero [it] out",
    examples: ['zero', 'zeroed the dial'],
    help: 'The dial was set to zero.',
    changesLog: true, button: 'Dial at zero', key: 'z',
  }),
];
