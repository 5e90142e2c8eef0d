import type { NumberSlot } from '../../src/job/index.ts';
import type { InstrumentKind } from '../../src/measure/index.ts';
import type { ContextName } from './contexts.ts';

/**
 * The resolver's rule as a decision table: words, the moment, and what comes of them, one row for each branch of the rule in
 * docs/numbers.md and one on each side of each of its numbers. `value`, `either` in the unit named.
 */
export type Decision = { readonly rule: string; readonly context: ContextName; readonly words: string; readonly to: string };

export const DECISIONS: readonly Decision[] = [
  { rule: 'one reading alone is taken', context: 'inch nothing', words: 'point six two seven', to: 'one 0.627in' },
  { rule: 'one reading alone is taken, far as it is', context: 'inch .620', words: 'one point two six oh', to: 'one 1.26in' },
  { rule: 'of two, the one that is expected', context: 'inch 1.3125', words: 'one thirty one', to: 'one 1.31in' },
  { rule: 'of two, the one that is expected', context: 'inch .620', words: 'six two seven five', to: 'one 0.6275in' },
  { rule: 'of two, the one that is expected', context: 'inch 1.250', words: 'one two five oh', to: 'one 1.25in' },
  { rule: 'expected but hardly ever said so: asked', context: 'inch .620', words: 'six', to: 'either 0.6in 0.006in' },
  { rule: 'nothing expected, one habit: taken', context: 'inch nothing', words: 'six twenty', to: 'one 0.62in' },
  {
    rule: 'nothing expected, two habits: asked',
    context: 'inch nothing',
    words: 'thirteen twelve',
    to: 'either 0.1312in 1.312in',
  },
  { rule: 'nothing fits what is expected, one habit: taken', context: 'inch .620', words: 'one two fifty', to: 'one 1.25in' },
  {
    rule: 'over the stock is left out where something fits under it',
    context: 'inch .620',
    words: 'two five oh oh',
    to: 'one 0.25in',
  },
  {
    rule: 'over the stock but nothing else: taken, for the job to ask about',
    context: 'inch .620',
    words: 'three inches',
    to: 'one 3in',
  },
  { rule: 'farther than any machine here: refused', context: 'inch nothing', words: 'six feet', to: 'none outside-everything' },
  { rule: 'nought is no size', context: 'inch .620', words: 'zero point oh', to: 'none outside-everything' },
  {
    rule: 'too fine for the instrument: refused',
    context: 'inch .620',
    words: 'point six two seven four three',
    to: 'none finer-than-instrument',
  },
  {
    rule: 'too fine for this instrument: refused',
    context: 'mm 19 fresh',
    words: 'nineteen point oh oh five',
    to: 'none finer-than-instrument',
  },
  { rule: 'fine enough for another: taken', context: 'mm 19', words: 'nineteen point oh oh five', to: 'one 19.005mm' },
  { rule: 'a fraction claims no places', context: 'inch .625 fresh', words: 'thirteen sixty fourths', to: 'one 0.203125in' },
  { rule: 'against the target', context: 'inch .620', words: 'two over', to: 'one 0.622in' },
  { rule: 'against a target that is not there', context: 'inch nothing', words: 'two over', to: 'none no-target' },
  { rule: 'against the last reading', context: 'inch .620', words: 'down another thou', to: 'one 0.639in' },
  { rule: 'against a last reading that is not there', context: 'inch 1.250', words: 'same', to: 'none no-last-reading' },
  { rule: 'a unit that is no length', context: 'inch .620', words: 'thirty degrees', to: 'none not-a-number-here' },
  { rule: 'no measure at all', context: 'inch .620', words: 'a hair over', to: 'none vague' },
  { rule: 'a unit that shops do not use', context: 'mm 19', words: 'two centimetres', to: 'none centimetres' },
  { rule: 'words that are no number', context: 'inch .620', words: 'hello', to: 'none no-number' },
  { rule: "the named unit over the shop's", context: 'mm 19', words: 'two thou', to: 'one 0.002in' },
  { rule: "the named unit over the shop's", context: 'inch .620', words: 'nineteen millimetres', to: 'one 19mm' },
  { rule: 'a mil is asked about in inches', context: 'inch .620', words: 'half a mil', to: 'either 0.0005in 0.5mm' },
  { rule: 'a mil is a millimetre in millimetres', context: 'mm 19', words: 'half a mil', to: 'one 0.5mm' },
  {
    rule: 'a coarse window makes both plausible: asked',
    context: 'inch length 2.500',
    words: 'two five oh two',
    to: 'one 2.502in',
  },
];

/**
 * Figures without a point, one row a shape: the words, what they may be in inches and in millimetres. A letter after a value says
 * how usual it is: none for habit, `a` also, `r` rare, `s` stretch. Common practice, no source; docs/numbers.md tells the habits.
 */
export const SHAPE_ROWS: readonly (readonly [shape: string, words: string, inch: string, millimetre: string])[] = [
  ['o', 'zero', '0', '0'],
  ['d', 'six', '0.006 0.6s 6a', '0.06r 6'],
  ['p', 'sixty two', '0.062 0.62s 62a', '0.62s 62'],
  ['h', 'six hundred twenty seven', '0.627', '627'],
  ['h', 'twelve hundred fifty', '1.25', '1250'],
  ['od', 'oh five', '0.005 0.05a', '0.05 0.5r'],
  ['dd', 'six two', '0.062r 0.62a 6.2a', '6.2 62s'],
  ['dp', 'six twenty seven', '0.627 6.27r', '6.27 627'],
  ['ddd', 'six two seven', '0.627 6.27r', '6.27 62.7r 627r'],
  ['ddd', 'six oh five', '0.605 6.05r', '6.05 60.5r 605r'],
  ['pd', 'sixty two five', '0.0625 0.625r 62.5r', '62.5'],
  ['pp', 'thirteen twelve', '0.1312 1.312 13.12r', '13.12'],
  ['pdd', 'thirteen oh five', '0.1305 1.305 13.05r', '13.05'],
  ['op', 'oh forty', '0.04 0.4r', '0.4'],
  ['odd', 'oh six two', '0.062', '0.062 0.62a'],
  ['opd', 'oh sixty two five', '0.0625', '0.625'],
  ['oddd', 'oh six two five', '0.0625', '0.625'],
  ['dh', 'one six hundred', '1.6', '1.6s'],
  ['hd', 'six hundred twenty seven five', '0.6275 6.275r', '627.5'],
  ['dpd', 'six twenty seven five', '0.6275 6.275r', '6.275a 627.5'],
  ['ddp', 'one two fifty', '0.125r 1.25', '1.25a 12.5a'],
  ['dddd', 'one two five oh', '0.125 1.25', '1.25a 12.5a 125a'],
  ['ppd', 'thirteen twelve five', '1.3125 13.125r', '13.125'],
  ['pdp', 'twelve six twenty', '1.262r 12.62', '12.62'],
  ['pddd', 'twelve six two seven', '1.2627r 12.627', '12.627'],
  ['ph', 'twelve six hundred', '12.6', '12.6s'],
  ['ddpd', 'one three twelve five', '1.3125 13.125r', '13.125a'],
  ['ddddd', 'one three one two five', '0.13125r 1.3125 13.125r', '13.125a 131.25a'],
  ['pdpd', 'twelve six twenty seven five', '12.6275', '126.275s'],
  ['pdddd', 'twelve six two seven five', '12.6275', '126.275s'],
];

/** What each instrument shows: words of as many places as it has, and of one more, which are refused (common practice). */
export const INSTRUMENT_ROWS: readonly (readonly [instrument: InstrumentKind, inch: number, millimetre: number])[] = [
  ['caliper', 4, 2],
  ['micrometer', 4, 3],
  ['telescoping-gauge', 4, 3],
  ['depth-micrometer', 4, 3],
  ['rule', 3, 1],
  ['indicator', 4, 3],
  ['readout', 4, 3],
];

/** The same for a cut, the dial, an indicator and a coordinate in millimetre work. */
export const CUT_ROWS: readonly (readonly [slot: NumberSlot, words: string, millimetre: string])[] = [
  ['depth-of-cut', 'six', '0.06 6a'],
  ['depth-of-cut', 'twenty five', '0.25 25s'],
  ['depth-of-cut', 'one hundred twenty', '1.2 120s'],
  ['depth-of-cut', 'one fifty', '1.5 150s'],
  ['dial', 'six', '0.06 6a'],
  ['indicator', 'six', '0.06 6s'],
  ['indicator', 'twelve', '0.12 12s'],
  ['coordinate', 'six', '0.06r 6'],
];
