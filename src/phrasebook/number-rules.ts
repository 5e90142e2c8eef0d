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
  pair: '<teen> | <tens> [<digit>]!',
  hundreds: '(<digit> | <pair> | a) hundred (and (<pair> | <digit>) | [<pair> | <digit>]!)',

  // Figures one after another: "six twenty seven", "one oh sixty two", "thirteen twelve", "twenty five four"
  core: '<digit> (<pair> | <figure> <figure>) | <hundreds>',
  lead: '<oh> (<pair> | <figure> <figure>)',
  run: `(<core> | <lead>) [<figure>]
      | (<digit> | <pair>) (<core> | <lead>) [<figure>]
      | <pair> [<pair> [<figure>] | <figure> [<figure>]]
      | <figure> [<figure>]`,

  // What hangs on the end
  half: 'and [a | one] half | a half',
  'tenths-more': 'and (a | <digit>) (tenth | tenths)',

  // Units, and words that count something which is not a length
  'thou-word': 'thou | thousandths | thousandth | thousand',
  'metric-word': 'millimetre | millimetres | mil | mils',
  'inch-word': 'inch | inches',
  'tenth-word': '(tenth | tenths) [of a (thou | millimetre)]',
  'hundredth-word': '(hundredth | hundredths) [of a millimetre]',
  'misfit-word': `centimetre | centimetres | degree | degrees | pass | passes | cut | cuts | turn | turns`,
  unit: `<thou-word> [of an inch] | <metric-word> | <inch-word> | <tenth-word> | <hundredth-word> | micron | microns | <misfit-word>`,

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
  'inch-and': 'inch [and] (<core> | <lead>) [<figure> | <half> | <tenths-more>]',
  over: '<digit> | <pair> | a | an',
  under: `half | quarter | quarters | fourth | fourths | eighth | eighths | sixteenth | sixteenths
        | thirty (second | seconds) | sixty (fourth | fourths)`,
  'one-part': 'half | quarter | fourth | eighth | sixteenth | thirty second | sixty fourth',
  part: '<over> <under> | <one-part>',
  'and-part': '[<inch-word>] and <part> [<inch-word>]',
  'of-an-inch': '[of] [a | an] inch',
  feet: '(foot | feet) [[and] ((<figure> | <pair>) [and <part>] | <part>) [<inch-word>]]',

  // A number: figures and what follows them, or one that begins otherwise
  figures: `<run> [[<pointed>] [<half> | <tenths-more>] [<unit>]
      | <hung> | <thou-and> | <inch-and> | <and-part> | <under> [<of-an-inch>] | <feet>]`,
  'point-first': '<pointed> [<half> | <tenths-more>] [<unit>]',
  'part-first': '[a | an] <one-part> [<of-an-inch>]',
  'inch-first': '[an] (<inch-and> | inch [and] <part> [<inch-word>])',
  'foot-first': 'a <feet>',
  single: `(a | an | [a] couple [of] | [a] half [of] [a | an]) (<thou-word> | <metric-word> | <tenth-word> | <hundredth-word> | inch) [<half>]
         | [a] couple`,

  absolute: '<figures> | <point-first> | <part-first> | <inch-first> | <foot-first> | <single>',

  // Against the target or the last reading
  plus: 'plus | up | over',
  minus: 'minus | down | under',
  oversize: 'over | up | big | above | proud | oversize',
  undersize: 'under | down | small | below | shy | undersize',
  offset: '(<plus> | <minus>) <absolute> | <absolute> (<oversize> | <undersize>)',
  'on-size': `on size | dead on | spot on | bang on | right on | on the (money | nose | number | dot) | on target | dead size | to size
            | bang on size | right on size`,
  same: '[the] same [again | as before | as last time | as it was] | no change | no different',
  more: 'more | bigger',
  less: 'less | smaller',
  'one-more': '<thou-word> | tenth | hundredth',
  another:
    '(<plus> | <minus>) another (<absolute> | <one-more>) | (<plus> | <minus>) <absolute> more | <absolute> (<more> | <less>) [than (before | last time)]',
  'half-of-last': 'half [of] what it was | half of that',
  vague: `a (hair | whisker | touch | smidge | bit | little [bit] | shade) [over | under | big | small | more | less]
        | just (over | under)`,
  minutes: '<pair> (degree | degrees) [and] (<pair> | <figure>) (minute | minutes)',

  // What a command may take
  size: '<absolute> | <offset> | <on-size> | <same> | <another> | <half-of-last> | <vague> | <minutes>',
  signed: '[<plus> | <minus>] <absolute> | <vague>',
  small: '<absolute> | <vague>',
  step: '<figure> | <pair> | <hundreds>',
  scale: 'celsius | centigrade | fahrenheit',
  temperature: '[minus] (<figure> | <pair> | <hundreds>) [<half> | point <figure>] [degrees] [<scale>]',

  // What the ear listens for wherever a command takes a number: all of the above, a little too much of it, written once
  number: `[<plus> | <minus>] [another] <absolute> [<oversize> | <undersize> | (<more> | <less>) [than (before | last time)]]
         | (<plus> | <minus>) another <one-more>
         | <on-size> | <same> | <half-of-last> | <vague>`,
} as const;

export type NumberRule = keyof typeof RULES;

export const NUMBER_RULES: Readonly<Record<string, GrammarNode>> = Object.fromEntries(
  Object.entries(RULES).map(([name, text]) => [name, template(text)]),
);
