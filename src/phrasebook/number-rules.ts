import type { GrammarNode } from './grammar.ts';
import { DIGITS, NOUGHTS, TEENS, TENS } from './numerals.ts';
import { template } from './template.ts';

/**
 * How numbers are said in the shop: the one description from which both the recogniser's grammar and the reader come. It
 * says only which words stand together; what they come to is in `meanings.ts`, by the name of the rule. No rule refers to
 * itself, so that any of them can be written out for an engine that knows no recursion.
 */
const RULES = {
  // Figures
  oh: NOUGHTS.join(' | '),
  digit: DIGITS.join(' | '),
  teen: TEENS.join(' | '),
  tens: TENS.join(' | '),
  figure: '<digit> | <oh>',
  // An "oh" by itself is an exclamation, or the knock of a cut, and never a size.
  nought: 'zero | nought',
  pair: '<teen> | <tens> [<digit>]!',
  hundreds: '(<digit> | <pair> | a) hundred (and (<pair> | <digit>) | [<pair> | <digit>]!)',

  // Figures one after another: "six twenty seven", "one oh sixty two", "thirteen twelve", "twenty five four"
  core: '<digit> (<pair> | <figure> <figure>)',
  even: '<digit> hundred',
  lead: '<oh> (<pair> | <figure> <figure>)',
  run: `(<core> | <lead> | <hundreds>) [<figure>]
      | (<digit> | <pair>) ((<core> | <lead>) [<figure>] | <even>)
      | <pair> [<pair> [<figure>] | <figure> [<figure>]]
      | <oh> <figure> | <digit> [<figure>] | <nought>`,

  // What hangs on the end
  half: 'and [a | one] half | a half',
  'tenths-more': 'and (a | <digit> | a couple [of]) (tenth | tenths)',
  'hundredths-more': 'and (a | <digit>) (hundredth | hundredths)',

  // Units, and words that count something which is not a length
  'thou-word': 'thou | thousandths | thousandth | thousand',
  'metric-word': 'millimetre | millimetres | mil | mils',
  'inch-word': 'inch | inches',
  'tenth-word': '(tenth | tenths) [of a (thou | millimetre)]',
  'hundredth-word': '(hundredth | hundredths) [of a millimetre]',
  'foot-word': 'foot | feet',
  'misfit-word': `centimetre | centimetres | (degree | degrees) [[and] <minutes>] | pass | passes | turn | turns`,
  minutes: '(<pair> | <figure>) (minute | minutes)',
  unit: `<thou-word> [of an inch] | <metric-word> | <inch-word> | <tenth-word> | <hundredth-word> | <foot-word> | micron | microns | <misfit-word>`,

  // What may follow figures
  places: `<figure> [<figure> [<figure> [<figure> [<figure>]]]]
         | <pair> [<pair> | <figure>]
         | <figure> <pair> [<figure>]
         | <figure> <figure> <pair>
         | <hundreds>`,
  pointed: 'point <places>',
  hung: '<oh> <digit>',
  'tenths-after': '[and] (a | <digit>) (tenth | tenths)',
  'thou-and': '<thou-word> (<half> | <tenths-after>)',
  'metric-and': '<metric-word> (<tenths-more> | <hundredths-more>)',
  'inch-and': `(inch | inches) [and] ((<core> | <lead> | <hundreds>) [<figure> | <half> [<thou-word>] | <tenths-more> | <thou-word>]
      | (<digit> | <pair>) [<half>] <thou-word>)`,
  over: '<digit> | <pair> | a | an',
  under: `half | quarter | quarters | fourth | fourths | eighth | eighths | sixteenth | sixteenths
        | thirty (second | seconds) | sixty (fourth | fourths)`,
  'one-part': 'half | quarter | fourth | eighth | sixteenth | thirty second | sixty fourth',
  part: '<over> <under> | <one-part>',
  'of-an-inch': '[[of] (a | an)] inch | inches',
  'and-part': '[<inch-word>] and <part> [<of-an-inch>] [<give-or-take>]',
  'give-or-take': '(plus | minus | less) (a | <digit> | <pair>) [<thou-word> | <tenth-word>]',
  feet: '<foot-word> [and] ((<figure> | <pair>) [and <part>] | <part>) [<of-an-inch>] [<give-or-take>]',

  // A number: figures and what follows them, or one that begins otherwise
  figures: `<run> [[<pointed>] [<half> | <tenths-more>] [<unit>]
      | <hung> | <hundredths-more> | <thou-and> | <metric-and> | <inch-and> | <and-part> | <under> [<of-an-inch>] [<give-or-take>] | <feet>]`,
  'point-first': '[oh] <pointed> [<half> | <tenths-more>] [<unit>]',
  'part-first': '[a | an] <one-part> [<of-an-inch>] [<give-or-take>]',
  'inch-first': '[an] (<inch-and> | inch [and] <part> [<of-an-inch>] [<give-or-take>])',
  'foot-first': 'a (<feet> | <foot-word>)',
  single: `(a | an | [a] couple [of] | [a] half [of] [a | an]) (<thou-word> | <metric-word> | <tenth-word> | <hundredth-word> | inch) [<half>]
         | [a] couple`,

  absolute: '<figures> | <point-first> | <part-first> | <inch-first> | <foot-first> | <single>',

  // Against the target or the last reading
  plus: 'plus | up | over',
  minus: 'minus | negative | down | under',
  oversize: 'over | up | [too] big | above | proud | oversize',
  undersize: 'under | down | [too] small | below | shy | undersize',
  offset: '(<plus> | <minus>) <absolute> | <absolute> (<oversize> | <undersize>)',
  'on-size': `[dead | bang | right] on size | (dead | spot | bang | right) on | [right] on the (money | nose | number | dot | button) | on target
            | dead size | (to | at) size | dead nuts`,
  same: '[still] [the] same [again | as before | as last time | as it was | thing] | no change | no different | unchanged | ditto',
  more: 'more | bigger',
  less: 'less | smaller',
  'one-more': '<thou-word> | tenth | hundredth',
  another:
    '(<plus> | <minus>) another (<absolute> | <one-more>) | (<plus> | <minus>) <absolute> more | <absolute> (<more> | <less>) [than (before | last time)]',
  'half-of-last': 'half [of] (what it was | that) | half [of] the last [one]',
  bits: 'a (hair | whisker | touch | smidge | bit | little [bit] | shade | few [thou | tenths | hundredths])',
  'near-by': '<bits> (over | under) | just (over | under | shy of) | about | around | roughly | nearly | almost',
  vague: '<bits> [over | under | big | small | more | less] | just (over | under) | <near-by> <absolute>',

  // What a command may take
  size: '<absolute> | <offset> | <on-size> | <same> | <another> | <half-of-last> | <vague>',
  signed: '[<plus> | <minus>] <absolute> | <vague>',
  small: '<absolute> | <vague>',
  step: '<figure> | <pair> | <hundreds>',
  scale: 'celsius | centigrade | fahrenheit | c | f',
  warmth: '<figure> | <pair> | <hundreds> | <digit> (<pair> | <figure> <figure>)',
  temperature: '[minus] <warmth> [<half> | point <figure>] [degree | degrees] [<scale>]',

  // What the ear listens for wherever a command takes a number: all of the above, a little too much of it, written once
  number: `[<plus> | <minus> | <near-by>] [another] <absolute> [<oversize> | <undersize> | (<more> | <less>) [than (before | last time)]]
         | (<plus> | <minus>) another <one-more>
         | <on-size> | <same> | <half-of-last> | <vague>`,
  // A number that is started again is said in plain figures.
  again: `(<digit> | <pair>) [<core> | <pair> [<figure>] | <figure> [<figure>]] [and [a] half]
        | [<digit> | <pair>] point <figure> [<figure> [<figure>]]`,
} as const;

export type NumberRule = keyof typeof RULES;

export const NUMBER_RULES: Readonly<Record<string, GrammarNode>> = Object.fromEntries(
  Object.entries(RULES).map(([name, text]) => [name, template(text)]),
);
