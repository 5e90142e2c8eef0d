import type { Context, NumberSlot } from '../../src/job/index.ts';
import { inches, millimetres, type InstrumentKind, type Length } from '../../src/measure/index.ts';
import { CONTEXTS, type ContextName } from './contexts.ts';

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

/** What a row of the limits puts in place of its context, in inches or millimetres as that counts. */
type Instead = {
  readonly aim?: number;
  readonly from?: number;
  readonly largest?: number;
  /** The last reading, how long ago in milliseconds. */
  readonly lastAgo?: number;
};
export type LimitRow = {
  readonly rule: string;
  readonly slot: NumberSlot;
  readonly context: 'inch nothing' | 'mm nothing';
  readonly instead: Instead;
  readonly words: string;
  readonly to: string;
};
const EIGHT_HOURS_MS = 28_800_000;

/** Each number of the rule with what is said on either side of it. Common practice, no source; docs/numbers.md gives the rule. */
export const LIMIT_ROWS: readonly LimitRow[] = (
  [
    ['expected: 15 % about the size', 'size', 'inch nothing', { aim: 2.174, largest: 6 }, 'two fifty', 'one 2.5in'],
    ['expected: 15 % about the size', 'size', 'inch nothing', { aim: 2.17, largest: 6 }, 'two fifty', 'one 0.25in'],
    ['expected: at least .020 in', 'size', 'inch nothing', { aim: 0.112 }, 'thirteen twelve', 'one 0.1312in'],
    ['expected: at least .020 in', 'size', 'inch nothing', { aim: 0.11 }, 'thirteen twelve', 'either 0.1312in 1.312in'],
    ['expected: at least 0.5 mm', 'size', 'mm nothing', { aim: 0.76 }, 'one two five oh', 'one 1.25mm'],
    ['expected: at least 0.5 mm', 'size', 'mm nothing', { aim: 0.7 }, 'one two five oh', 'either 1.25mm 12.5mm'],
    ['rarer where expected', 'size', 'inch nothing', { aim: 0.6, from: 6.5 }, 'six', 'either 6in 0.6in'],
    ['rarer where nothing is expected', 'size', 'inch nothing', { largest: 1 }, 'six two', 'either 0.62in 0.062in'],
    ['a tenth over the stock', 'size', 'inch nothing', { largest: 1 }, 'one one oh oh', 'either 0.11in 1.1in'],
    ['a tenth over the stock', 'size', 'inch nothing', { largest: 1 }, 'one one oh one', 'one 0.1101in'],
    ['a last reading grows stale', 'size', 'inch nothing', { lastAgo: EIGHT_HOURS_MS }, 'same', 'one 0.64in'],
    ['a last reading grows stale', 'size', 'inch nothing', { lastAgo: EIGHT_HOURS_MS + 1 }, 'same', 'none no-last-reading'],
    ['the deepest cut', 'depth-of-cut', 'inch nothing', {}, 'two fifty', 'one 0.25in'],
    ['the deepest cut', 'depth-of-cut', 'inch nothing', {}, 'two fifty one', 'none outside-everything'],
    ['the deepest cut', 'depth-of-cut', 'mm nothing', {}, 'five millimetres', 'one 5mm'],
    ['the deepest cut', 'depth-of-cut', 'mm nothing', {}, 'six millimetres', 'none outside-everything'],
    ['the reach of the dial', 'dial', 'inch nothing', {}, 'one inch', 'one 1in'],
    ['the reach of the dial', 'dial', 'inch nothing', {}, 'one and a half inches', 'none outside-everything'],
    ['the reach of the dial', 'dial', 'mm nothing', {}, 'ten millimetres', 'one 10mm'],
    ['the reach of the dial', 'dial', 'mm nothing', {}, 'eleven millimetres', 'none outside-everything'],
    ['the reach of an indicator', 'indicator', 'inch nothing', {}, 'half an inch', 'one 0.5in'],
    ['the reach of an indicator', 'indicator', 'inch nothing', {}, 'three quarters of an inch', 'none outside-everything'],
    ['the reach of an indicator', 'indicator', 'mm nothing', {}, 'ten millimetres', 'one 10mm'],
    ['the reach of an indicator', 'indicator', 'mm nothing', {}, 'eleven millimetres', 'none outside-everything'],
    ['the farthest coordinate', 'coordinate', 'inch nothing', {}, 'five feet', 'one 60in'],
    ['the farthest coordinate', 'coordinate', 'inch nothing', {}, 'six feet', 'none outside-everything'],
    ['the farthest coordinate', 'coordinate', 'mm nothing', {}, 'fifteen hundred millimetres', 'one 1500mm'],
    ['the farthest coordinate', 'coordinate', 'mm nothing', {}, 'sixteen hundred millimetres', 'none outside-everything'],
    ['the farthest size', 'size', 'inch nothing', {}, 'five feet', 'one 60in'],
    ['the farthest size', 'size', 'inch nothing', {}, 'six feet', 'none outside-everything'],
    ['the farthest size', 'size', 'mm nothing', {}, 'fifteen hundred millimetres', 'one 1500mm'],
    ['the farthest size', 'size', 'mm nothing', {}, 'sixteen hundred millimetres', 'none outside-everything'],
    ['over by half the size', 'size', 'inch nothing', { aim: 0.62 }, 'three hundred thousandths over', 'one 0.92in'],
    ['over by half the size', 'size', 'inch nothing', { aim: 0.62 }, 'four hundred thousandths over', 'none not-a-number-here'],
    ['over by a tenth of an inch', 'size', 'inch nothing', { aim: 0.1 }, 'three thirty seconds over', 'one 0.19375in'],
    ['over by a tenth of an inch', 'size', 'inch nothing', { aim: 0.1 }, 'an eighth over', 'none not-a-number-here'],
    ['over by 2.5 mm', 'size', 'mm nothing', { aim: 3 }, 'two millimetres over', 'one 5mm'],
    ['over by 2.5 mm', 'size', 'mm nothing', { aim: 3 }, 'three millimetres over', 'none not-a-number-here'],
    ['the hottest work', 'temperature', 'mm nothing', {}, 'one hundred twenty celsius', 'one 120'],
    ['the hottest work', 'temperature', 'mm nothing', {}, 'one hundred twenty one celsius', 'none outside-everything'],
    ['the coldest work', 'temperature', 'mm nothing', {}, 'zero celsius', 'one 0'],
    ['the coldest work', 'temperature', 'mm nothing', {}, 'minus one celsius', 'none outside-everything'],
    ['a scale not named', 'temperature', 'mm nothing', {}, 'one hundred forty', 'one 60'],
    ['a scale not named', 'temperature', 'mm nothing', {}, 'one hundred forty one', 'none outside-everything'],
    ['a scale not named', 'temperature', 'inch nothing', {}, 'six', 'one 6'],
    ['a scale not named', 'temperature', 'inch nothing', {}, 'four', 'none outside-everything'],
  ] as const
).map(([rule, slot, context, instead, words, to]) => ({ rule, slot, context, instead, words, to }));

/** The moment in which a row of the limits is said. */
export function momentOf({ context, instead }: LimitRow): Context {
  const base = CONTEXTS[context];
  const length = (amount: number | undefined): Length | null =>
    amount === undefined ? null : base.unit === 'inch' ? inches(amount) : millimetres(amount);
  const aim = length(instead.aim);
  return {
    ...base,
    now: EIGHT_HOURS_MS * 2,
    window: aim === null ? null : { low: aim, aim, high: aim },
    from: length(instead.from),
    largest: length(instead.largest),
    last: instead.lastAgo === undefined ? null : { value: inches(0.64), at: EIGHT_HOURS_MS * 2 - instead.lastAgo },
  };
}
