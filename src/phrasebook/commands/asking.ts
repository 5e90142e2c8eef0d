import { plain, type Command } from '../command.ts';

/** Questions about the open step; none of them changes anything. */
export const asking: readonly Command[] = [
  plain('asking', { type: 'ask-target' }, {
    name: 'ask-target',
    says: `[the | my] target [size] | what's the (target | size | number) | what size | what size (is it | am i after | do i want | are we after | should it be)
      | what am i (after | going for | aiming for | looking for) | what diameter [am i after | do i want] | how big | how big should it be
      | what's it supposed to be | what should it (be | measure) | size`,
    examples: ['target', 'what size', "what's the size"],
    help: 'The size that is wanted here.',
    changesLog: false, button: 'Target', key: 't',
  }),
  plain('asking', { type: 'ask-left' }, {
    name: 'ask-left',
    says: `how much left | how much is left | how much [more] to go | what's left | how much more | how far [to go | off am i | off are we]
      | what have i got left | how much have i got [left | to go] | how much (do i have | have we got) left | how close am i | what's left to take`,
    examples: ['how much left', "what's left"],
    help: 'What is left to take, on the diameter and on the dial.',
    changesLog: false, button: 'How much left', key: 'l',
  }),
  plain('asking', { type: 'ask-passes' }, {
    name: 'ask-passes',
    says: 'how many (passes | cuts) [left | to go | more | is that] | how many more (passes | cuts) | passes [left]',
    examples: ['how many passes', 'how many more cuts'],
    help: 'How many passes are left at this depth of cut.',
    changesLog: false, button: 'How many passes', key: 'p',
  }),
  plain('asking', { type: 'ask-dial' }, {
    name: 'ask-dial',
    says: `what do i dial [in] | what should i dial [in] | what's the dial | what do i take | how much do i (take | dial [in] | take off) | dial what
      | what's the next cut | next cut | what do i put on [the dial] | how much on the dial | what should i take`,
    examples: ['what do i dial', 'how much do i take'],
    help: 'What to put on the dial for the next cut.',
    changesLog: false, button: 'What to dial', key: 'd',
  }),
  plain('asking', { type: 'ask-stop' }, {
    name: 'ask-stop',
    says: "where do i stop | where's the stop | where does it stop | where's the shoulder | how far along | how far in | stop where | where do i stop it",
    examples: ['where do i stop', "where's the shoulder"],
    help: 'Where the carriage stops.',
    changesLog: false, button: 'Where to stop', key: 'o',
  }),
  plain('asking', { type: 'ask-speed' }, {
    name: 'ask-speed',
    says: "[the | what | spindle] speed | what's the speed | how fast | what speed (do i want | should i run | am i at) | what revs | how many revs | what r p m",
    examples: ['speed', 'how fast'],
    help: 'The spindle speed for this cut.',
    changesLog: false, button: 'Speed', key: 'e',
  }),
  plain('asking', { type: 'ask-feed' }, {
    name: 'ask-feed',
    says: "[the | what] feed [rate] | what's the feed [rate]",
    examples: ['feed', "what's the feed"],
    help: 'The feed for this cut.',
    changesLog: false, button: 'Feed', key: 'f',
  }),
  plain('asking', { type: 'ask-last' }, {
    name: 'ask-last',
    says: `[the | my] last reading | what was the last (one | reading | size) | what did i get | what did i (measure | read) | what did it (read | measure)
      | last (one | size | number) | what was (my | the) last reading`,
    examples: ['last reading', 'what did it measure'],
    help: 'The last reading taken here.',
    changesLog: false, button: 'Last reading', key: 'a',
  }),
  plain('asking', { type: 'ask-bore' }, {
    name: 'ask-bore',
    says: `[the] bore [size] | what's the bore | how big is the (bore | hole) | what size is the (bore | hole) | what's it going in
      | what does it fit [in | into] | what did the bore measure`,
    examples: ['the bore', 'how big is the hole'],
    help: 'The size of what this has to fit.',
    changesLog: false, button: 'The bore', key: 'b',
  }),
  plain('asking', { type: 'ask-fit' }, {
    name: 'ask-fit',
    says: '(what | which | the) fit | what fit is it | what\'s the fit | what kind of fit [is it] | how should it fit | what fit do i want',
    examples: ['what fit', 'how should it fit'],
    help: 'The fit that is wanted, and its clearance.',
    changesLog: false, button: 'What fit', key: 'i',
  }),
  plain('asking', { type: 'ask-time' }, {
    name: 'ask-time',
    says: 'how long [will it take | does it take | will this take | does this take] | how long is left | how long to go | how much time [is left]',
    examples: ['how long', 'how long will it take'],
    help: 'A rough time for what is left.',
    changesLog: false, button: 'How long', key: 'm',
  }),
  plain('asking', { type: 'ask-caution' }, {
    name: 'ask-caution',
    says: `[the | any] (caution | cautions) | what do i watch [[out] for] | what should i watch [[out] for] | anything to watch [[out] for] | any warnings
      | what's the danger | is it safe`,
    examples: ['caution', 'what do i watch out for'],
    help: 'The caution for this step.',
    changesLog: false, button: 'Caution', key: 'c',
  }),
  plain('asking', { type: 'read-log' }, {
    name: 'read-log',
    says: 'read [me] the log | read [me] the readings | what have i (done | logged | got so far) | list the readings | all the readings | the log',
    examples: ['read the log', 'what have i logged'],
    help: 'Read out what was logged at this step.',
    changesLog: false, button: 'Read the log', key: 'v',
  }),
];
