import { numbered, plain, type Command } from '../command.ts';

/** What the tool did. */
export const cutting: readonly Command[] = [
  numbered('cutting', 'took', 'depth-of-cut', {
    name: 'took',
    says: `[[i] just | i] took [off | another] <small> [off | out | more | on the dial] | [[i] just | i] took a cut of <small> | [[i] just | i] took a <small> (cut | pass)
      | [i'm] taking [off] <small> [off] | (cut | i've taken | taken | removed | shaved off | skimmed off) <small> [off] | <small> off`,
    examples: ['took ten', 'took five thou'],
    help: 'Log the cut just taken, as the dial reads.',
    changesLog: true, button: 'Took', key: 'x',
  }, (found) => ({ type: 'took', value: found.length() })),
  numbered('cutting', 'dial', 'dial', {
    name: 'dial',
    says: `[the] dial [is] [at | in | on | to | reads | says | set to] <small> | (dial's | the dial's) (at | on) <small> | (dialed | dialing) [in] <small> [in]
      | (set | setting) [the dial] (to | at) <small> | (put | putting) <small> on [the dial] | set dial to <small>
      | (going | coming) in <small> | <small> on the dial`,
    examples: ['dial ten', 'dial at forty'],
    help: 'Log what the dial reads or what was put on.',
    changesLog: true, button: 'Dialled', key: 'h',
  }, (found) => ({ type: 'dial', value: found.length() })),
  plain('cutting', { type: 'touched-off' }, {
    name: 'touched-off',
    says: `[i] touched off [on the (work | part)] | touch off | touching off | [just | i'm | it's | tool's] touching | [i] just touched [the (work | part)] | touched (on the | the) (work | part)
      | i've touched off | picked up the (diameter | work) | made contact | just kissed it`,
    examples: ['touched off', 'just touching'],
    help: 'The tool just touches the work.',
    changesLog: true, button: 'Touched off', key: 'q',
  }),
  plain('cutting', { type: 'dial-zeroed' }, {
    name: 'dial-zeroed',
    says: `zero [it | that | here | set] | [i] zeroed [it | out] | (zero | zeroed) the dial | dial's zeroed | set [the dial | dial | it] to zero | set zero | dial zeroed
      | zero [it] out | zero on the dial`,
    examples: ['zero', 'zeroed the dial'],
    help: 'The dial was set to zero.',
    changesLog: true, button: 'Dial at zero', key: 'z',
  }),
];
