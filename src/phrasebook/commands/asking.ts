import { plain, type Command } from '../command.ts';

/** Questions about the open step; none of them changes anything. */
export const asking: readonly Command[] = [
  plain('asking', { type: 'ask-why' }, {
    name: 'ask-why',
    says: "why [is that | so | that]",
    examples: ['why', 'why is that'],
    help: 'The reason for what was just told, in one sentence.',
    changesLog: false, button: 'Why', key: '; y',
  }),
  plain('asking', { type: 'ask-target' }, {
    name: 'ask-target',
    says: `[the | my] target [size] | <what-is> (it supposed to (be | measure) | the (target | size | number | dimension | diameter | tolerance) | my target)
      | what size [(is it | am i after | do i (want | need) | are we after | should it be)] | what number [am i after] | what's it (want | need) to be
      | what (am i | are we) (after | going for | aiming for | looking for | shooting for | turning [this | it] to)
      | what does it (need | have | want) to be | what do i (want | need) | what do i turn (this | it) to | what diameter [am i after | do i (want | need)]
      | how (big | long | deep) should it be | how (big | deep) | how deep do i go | what should it (be | measure) | size | tolerance | what are the limits | [the] (finish | finished | final) size
      | <what-is> the (finish | finished | final) (size | diameter) | what (does | is | did) the (print | drawing) say | <what-is> on the (print | drawing)`,
    examples: ['target', 'what size', "what's the size"],
    help: 'The size that is wanted here.',
    changesLog: false, button: 'Target', key: 't',
  }),
  plain('asking', { type: 'ask-left' }, {
    name: 'ask-left',
    says: `how much [is] left [to (take | go) [off]] | how much [more | further | farther] [to (go | take) [off]] | how much (stock | metal | material) [is] left
      | <what-is> [still] (left [to (take | go) [off] | on it] | remaining | to go) | left to go
      | how much (is remaining | remains) | remaining | how (far | close) (am i | are we) [off] | how far (to go | off [am i | are we])
      | how far do (i | we) have to go | what (have (i | we) got | do (i | we) have) (left | to go) [to (take | go)]
      | how much (have (i | we) got | do (i | we) have) (left | to (go | take [off])) | how much do i [still] (need | have) to take [off]
      | how (many | much) (thou | thousandths | hundredths) [(left | to go) [to (take | go)]] | how many left | how close | am i (close | there) [yet]`,
    examples: ['how much left', "what's left"],
    help: 'What is left to take, on the diameter and on the dial.',
    changesLog: false, button: 'How much left', key: 'l',
  }),
  plain('asking', { type: 'ask-passes' }, {
    name: 'ask-passes',
    says: `how many [more] (passes | cuts) [left | to go | more | is that | are left | (do i have | have i got) left | [will] (it | does it) take | till i'm there]
      | passes [left] | number of (passes | cuts)`,
    examples: ['how many passes', 'how many more cuts'],
    help: 'How many passes are left at this depth of cut.',
    changesLog: false, button: 'How many passes', key: 'p',
  }),
  plain('asking', { type: 'ask-dial' }, {
    name: 'ask-dial',
    says: `what (do | should) i (dial [in] | take [off] | set [the dial (to | at)] | put on [the dial] | feed in) | <what-is> (the dial | on the dial)
      | where do i set the dial | how much (do | should | can) i (take [off] | dial [in] | feed [in] | put on) | dial what | how much on the dial
      | [<what-is> (the | my)] next (cut | pass) | <what-is> (the | this) cut | what cut | what depth of cut | <what-is> the depth of cut | how deep a cut`,
    examples: ['what do i dial', 'how much do i take'],
    help: 'What to put on the dial for the next cut.',
    changesLog: false, button: 'What to dial', key: 'd',
  }),
  plain('asking', { type: 'ask-stop' }, {
    name: 'ask-stop',
    says: `where (do i stop [it] | does it stop) | <where-is> (the | my) (stop | shoulder) | <what-is> the stop | how far (along | in) [do i go]
      | how far (do i (go | cut | turn) [in] | does it go | to the (shoulder | stop)) | stop where | when do i stop | how long is the (cut | shoulder) | carriage stop`,
    examples: ['where do i stop', "where's the shoulder"],
    help: 'Where the carriage stops.',
    changesLog: false, button: 'Where to stop', key: 'o',
  }),
  plain('asking', { type: 'ask-speed' }, {
    name: 'ask-speed',
    says: `[the | what | spindle | what spindle] speed | <what-is> the (speed | r p m | spindle speed) | how fast [do i (run | turn) [it | this] | should (i go | it (turn | run | be))]
      | what speed (do i (want | run [it [at]]) | should (i run [it [at]] | it be) | am i at) | (what | how many) revs | [what | how many] r p m | what should i run it at`,
    examples: ['speed', 'how fast'],
    help: 'The spindle speed for this cut.',
    changesLog: false, button: 'Speed', key: 'e',
  }),
  plain('asking', { type: 'ask-feed' }, {
    name: 'ask-feed',
    says: `[the | what] feed [rate] | <what-is> the feed [rate] | what feed [rate] (do i (want | use) | should i use) | how fast do i feed [it] | how much feed`,
    examples: ['feed', "what's the feed"],
    help: 'The feed for this cut.',
    changesLog: false, button: 'Feed', key: 'f',
  }),
  plain('asking', { type: 'ask-last' }, {
    name: 'ask-last',
    says: `[the | my] last (reading | measurement) | (what was | <what-is>) (the | my) last (one | reading | size | number | measurement)
      | what did (i | we) (get | measure | read | mike) [last [time]] | what did it (read | measure | mike) [at] [last [time]] | what was it [last time]
      | last (one | size | number) | what's it (at | reading) [now] | what is it now | what (am i | are we) at [now] | how big is it [now] | where was i at`,
    examples: ['last reading', 'what did it measure'],
    help: 'The last reading taken here.',
    changesLog: false, button: 'Last reading', key: 'a',
  }),
  plain('asking', { type: 'ask-taken' }, {
    name: 'ask-taken',
    says: `what did (it | that | the last (cut | pass | round)) [really] take [off] | how much did (it | that | the last (cut | pass | round)) [really] take [off]
      | how much came off | what came off`,
    examples: ['what did it take', 'how much came off'],
    help: 'What the last cut really took, against what was dialled.',
    changesLog: false, button: 'What it took', key: '; j',
  }),
  plain('asking', { type: 'ask-bore' }, {
    name: 'ask-bore',
    says: `[the] bore [size] | <what-is> the (bore | hole) [size] | how big (is | was) the (bore | hole) | what size (is | was) the (bore | hole)
      | what's it (going (in | into) | go (in | into) | fit | have to fit) | what does it (fit | go) [in | into | on] | what did the (bore | hole) measure
      | what was the (bore | hole) | what's the (mate | mating part)`,
    examples: ['the bore', 'how big is the hole'],
    help: 'The size of what this has to fit.',
    changesLog: false, button: 'The bore', key: 'b',
  }),
  plain('asking', { type: 'ask-fit' }, {
    name: 'ask-fit',
    says: `(what | which | the) fit | what fit is it | <what-is> the (fit | clearance) | what (kind | sort | type | class) of fit [is it]
      | [the] bearing seat | seat for (a | the) bearing | what seat | how (tight | loose) should it be | how should it fit | how's it supposed to fit | what fit (do i want | am i after) | (what | how much) clearance`,
    examples: ['what fit', 'how should it fit'],
    help: 'The fit that is wanted, and its clearance.',
    changesLog: false, button: 'What fit', key: 'i',
  }),
  plain('asking', { type: 'ask-time' }, {
    name: 'ask-time',
    says: `how long [(will | does) (it | this) take | left | is (left | this going to take) | to go] | how (much | many) (time | minutes) [left | is left | are left]
      | how much longer | when will (i | this | it) be done`,
    examples: ['how long', 'how long will it take'],
    help: 'A rough time for what is left.',
    changesLog: false, button: 'How long', key: 'm',
  }),
  plain('asking', { type: 'ask-caution' }, {
    name: 'ask-caution',
    says: `[the | any] (caution | cautions | warning | warnings) | <what-is> the (caution | danger | warning) | what (do i [need to] | should i) watch [[out] for]
      | anything to (watch | look) [[out] for] | anything i should know | is it safe | what (can | could) go wrong | what should i be careful of`,
    examples: ['caution', 'what do i watch out for'],
    help: 'The caution for this step.',
    changesLog: false, button: 'Caution', key: 'c',
  }),
  plain('asking', { type: 'read-log' }, {
    name: 'read-log',
    says: `[read | show] [me] the (log | readings) | read (back the readings | it back | them back) | what have i (done | logged | measured | taken | got [so far]) [so far]
      | list the readings | all the readings | what are the readings | give me the readings | <what-is> in the log`,
    examples: ['read the log', 'what have i logged'],
    help: 'Read out what was logged at this step.',
    changesLog: false, button: 'Read the log', key: 'v',
  }),
];
