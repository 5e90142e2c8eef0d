import type { SetUpCount, SetUpLength } from '../../job/index.ts';
import { numbered, plain, type Command } from '../command.ts';

type Entry = Parameters<typeof numbered>[3];

const counted = (what: SetUpCount, entry: Entry): Command =>
  numbered('set-up', 'set-up-count', 'count', entry, (found) => ({ type: 'set-up-count', what, value: found.count() }));

const given = (what: SetUpLength, entry: Entry): Command =>
  numbered('set-up', 'set-up-length', 'coordinate', entry, (found) => ({ type: 'set-up-length', what, value: found.length() }));

/** High spots, holes, tapping, tapers and packing: what a set-up is told, and what is asked of it. */
export const settingOut: readonly Command[] = [
  numbered('set-up', 'spot', 'indicator', {
    name: 'spot',
    says: '[the] (indicator | needle) [reads | shows | at | says] <signed>',
    examples: ['indicator twelve', 'needle shows minus two'],
    help: 'What the indicator shows at this angle, to find a high spot.',
    changesLog: true, button: 'Indicator', key: "' i",
  }, (found) => ({ type: 'spot', value: found.length() })),
  counted('degrees', {
    name: 'angle',
    says: '[at] angle <step> [degrees] | turned to <step> [degrees]',
    examples: ['angle ninety', 'turned to one hundred twenty degrees'],
    help: 'The angle of the next reading, or of the first hole.',
    changesLog: true, button: 'Angle', key: "' a",
  }),
  counted('readings', {
    name: 'readings-round',
    says: '<step> readings [round | around]',
    examples: ['three readings', 'six readings round'],
    help: 'How many readings, equally round, to find a high spot; four unless said.',
    changesLog: true, button: 'Readings a turn', key: "' r",
  }),
  given('finder', {
    name: 'finder',
    says: '[edge] finder [is] <signed>',
    examples: ['finder two hundred', 'edge finder point two'],
    help: 'The diameter of the tip of the edge finder.',
    changesLog: true, button: 'Finder', key: "' f",
  }),
  given('circle', {
    name: 'bolt-circle',
    says: '[a] bolt circle [of | is] <signed>',
    examples: ['bolt circle two inches', 'bolt circle one and a half'],
    help: 'Begin holes on a circle, by its diameter.',
    changesLog: true, button: 'Bolt circle', key: "' b",
  }),
  given('line', {
    name: 'hole-line',
    says: '[a] line of holes [at] <signed>',
    examples: ['line of holes one inch', 'line of holes seven fifty'],
    help: 'Begin holes in a line, by their spacing.',
    changesLog: true, button: 'Line of holes', key: "' d",
  }),
  counted('holes', {
    name: 'holes',
    says: '<step> holes',
    examples: ['six holes', 'four holes'],
    help: 'How many holes there are.',
    changesLog: true, button: 'How many holes', key: "' q",
  }),
  counted('hole', {
    name: 'hole-number',
    says: 'hole number <step>',
    examples: ['hole number three'],
    help: 'Read out where a hole is.',
    changesLog: true, button: 'Hole number', key: "' u",
  }),
  plain('set-up', { type: 'next-hole' }, {
    name: 'next-hole',
    says: 'next hole | the next hole | where is the next hole',
    examples: ['next hole'],
    help: 'Read out where the next hole is.',
    changesLog: true, button: 'Next hole', key: "' x",
  }),
  counted('turns', {
    name: 'turns',
    says: '<step> turns [done | in] | turns <step>',
    examples: ['four turns', 'turns thirteen'],
    help: 'How far the tap has gone, in turns from the first thread.',
    changesLog: true, button: 'Tap turns', key: "' t",
  }),
  given('large', {
    name: 'large-end',
    says: '[the] (large | big) end [is | at] <signed>',
    examples: ['large end one inch'],
    help: 'The diameter at the large end of a taper.',
    changesLog: true, button: 'Large end', key: "' g",
  }),
  given('small', {
    name: 'small-end',
    says: '[the] small end [is | at] <signed>',
    examples: ['small end seven fifty'],
    help: 'The diameter at the small end of a taper.',
    changesLog: true, button: 'Small end', key: "' s",
  }),
  given('over', {
    name: 'taper-length',
    says: '[the] taper length [is] <signed>',
    examples: ['taper length four inches'],
    help: 'How long the taper is, or how far its two readings are apart.',
    changesLog: true, button: 'Taper length', key: "' p",
  }),
  given('work', {
    name: 'work-length',
    says: '[the] work length [is] <signed>',
    examples: ['work length ten inches'],
    help: 'How long the work is between centres, for setting the tailstock over.',
    changesLog: true, button: 'Work length', key: "' w",
  }),
  plain('set-up', { type: 'ask-taper' }, {
    name: 'ask-taper',
    says: "check the taper | how's the taper | what's the taper",
    examples: ['check the taper'],
    help: 'What the readings at the shoulder and the end say of the taper.',
    changesLog: false, button: 'Check the taper', key: "' c",
  }),
  plain('set-up', { type: 'ask-packing' }, {
    name: 'ask-packing',
    says: "packing piece | what's the packing [piece] | how thick is the packing [piece]",
    examples: ['packing piece'],
    help: 'The packing piece for the throw, under one jaw of a three-jaw chuck.',
    changesLog: false, button: 'Packing piece', key: "' k",
  }),
  given('bar', {
    name: 'packing-on',
    says: 'packing on <signed>',
    examples: ['packing on one inch'],
    help: 'The diameter that the jaws hold, for the packing piece.',
    changesLog: true, button: 'Packing on', key: "' j",
  }),
  given('packing', {
    name: 'packed-with',
    says: 'packed with <signed>',
    examples: ['packed with one seventy six'],
    help: 'The packing piece that is in; with low and high, the one to make instead.',
    changesLog: true, button: 'Packed with', key: "' y",
  }),
  given('carriage', {
    name: 'carriage-dial',
    says: 'carriage [dial] at <signed>',
    examples: ['carriage at forty thou', 'carriage dial at one hundred'],
    help: 'What the carriage dial shows where the tool touches, for the stop.',
    changesLog: true, button: 'Carriage dial', key: "' z",
  }),
  plain('set-up', { type: 'ask-set-up' }, {
    name: 'ask-set-up',
    says: 'what now | now what | which jaw | next move | how many turns [left | to go] | how many more turns',
    examples: ['what now', 'which jaw'],
    help: 'What to do next in this set-up.',
    changesLog: false, button: 'What now', key: "' v",
  }),
];
