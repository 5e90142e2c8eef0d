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
  hundreds: '(<digit> | <pair> | a) hundred [[and] (<pair> | <digit>)]!',

  // Figures one after another: "six twenty seven", "one oh sixty two", "thirteen twelve", "twenty five four"
  core: '<digit> (<pair> | <figure> <figure>) | <hundreds>',
  lead: '<oh> (<pair> | <figure> <figure>)',
  run: `(<core> | <lead>) [<figure>]
      | (<digit> | <pair>) (<core> | <lead>) [<figure>]
      | <pair> [<pair> [<figure>] | <figure> [<figure>]]
      | <figure> [<figure>]`,
  count: '<figure> | <pair> | <core>',
  whole: '<figure> | <pair> | <hundreds> | <digit> <pair>',
  places: `<figure> [<figure> [<figure> [<figure> [<figure>]]]]
         | <pair> [<pair> | <figure>]
         | <figure> <pair> [<figure>]
         | <figure> <figure> <pair>
         | <hundreds>`,

  // What hangs on the end
  half: '[and] [a | one] half',
  'tenths-more': '[and] (a | <digit>) (tenth | tenths)',

  // A number by itself
  plain: '<run> [<half> | <tenths-more>]',
  hung: '[<digit> | <pair>] (<digit> <pair> | <hundreds>) <oh> <digit>',
  pointed: '[<whole>] point <places> [<half> | <tenths-more>]',

  // With its unit
  'thou-word': 'thou | thousandths | thousandth | thousand',
  thou: `<count> [<half>] <thou-word> [of an inch]
       | <count> <thou-word> (<half> | <tenths-more>)
       | <pointed> <thou-word>
       | a <thou-word> [<half>]
       | [a] couple [of] <thou-word>
       | [a] half [of] [a] <thou-word>`,
  tenths: '(<count> | a | [a] couple [of] | [a] half [of] [a]) (tenth | tenths) [of a (thou | millimetre)]',
  hundredths: '(<count> | a | [a] couple [of] | [a] half [of] [a]) (hundredth | hundredths) [of a millimetre]',
  'metric-word': 'millimetre | millimetres | mil | mils',
  metric: `(<plain> | <pointed>) <metric-word>
         | a <metric-word> [<half>]
         | [a] half [of] [a] <metric-word>`,
  microns: '<count> (micron | microns)',
  inch: '(<plain> | <pointed>) (inch | inches) | an inch',
  'inch-and': '(<whole> | an) inch [and] (<core> | <lead>) [<figure> | <half> | <tenths-more>]',

  // Fractions and feet
  over: '<digit> | <pair> | a | an',
  under: `half | quarter | quarters | fourth | fourths | eighth | eighths | sixteenth | sixteenths
        | thirty (second | seconds) | sixty (fourth | fourths)`,
  part: '[<over>] <under>',
  fraction: '<part> [[of] [a | an] inch]',
  mixed: '((<figure> | <pair> | <hundreds>) [inch | inches] and | [an] inch [and]) <part> [inch | inches]',
  feet: '(<figure> | <pair> | a) (foot | feet) [[and] (<whole> | <mixed> | <part>) [inch | inches]]',

  absolute: `<plain> | <hung> | <pointed> | <thou> | <tenths> | <hundredths> | <metric> | <microns> | <inch> | <inch-and>
           | <fraction> | <mixed> | <feet>`,

  // Against the target or the last reading
  amount: '<count> [<half> | <tenths-more>] | <thou> | <tenths> | <hundredths> | <metric> | <pointed> | [a] half | [a] couple',
  plus: 'plus | up | over',
  minus: 'minus | down | under',
  oversize: 'over | up | big | above | proud | oversize',
  undersize: 'under | down | small | below | shy | undersize',
  offset: '(<plus> | <minus>) <amount> | <amount> (<oversize> | <undersize>)',
  'on-size': `on size | dead on | spot on | bang on | right on | on the (money | nose | number | dot) | on target | dead size | to size
            | bang on size | right on size`,
  same: '[the] same [again | as before | as last time | as it was] | no change | no different',
  more: 'more | bigger',
  less: 'less | smaller',
  'one-more': '<thou-word> | tenth | hundredth',
  another: '(<plus> | <minus>) another (<amount> | <one-more>) | (<plus> | <minus>) <amount> more | <amount> (<more> | <less>) [than (before | last time)]',
  'half-of-last': 'half [of] what it was | half of that',
  vague: `a (hair | whisker | touch | smidge | bit | little [bit] | shade) [over | under | big | small | more | less]
        | just (over | under)`,

  // Numbers that are understood in order to be refused
  centimetres: '(<plain> | <pointed>) (centimetre | centimetres)',
  angle: '(<count> | <pointed>) [<half>] (degree | degrees) [[and] <count> (minute | minutes)]',
  tally: '<count> (pass | passes | cut | cuts | turn | turns)',
  misfit: '<centimetres> | <angle> | <tally>',

  // What a command may take
  size: '<absolute> | <offset> | <on-size> | <same> | <another> | <half-of-last> | <vague> | <misfit>',
  signed: '[<plus> | <minus>] <absolute> | <vague> | <misfit>',
  small: '<absolute> | <vague> | <misfit>',
  step: '<figure> | <pair> | <hundreds>',
  scale: 'celsius | centigrade | fahrenheit',
  temperature: '[minus] (<count> | <pointed>) [<half>] [degrees] [<scale>]',
} as const;

export type NumberRule = keyof typeof RULES;

export const NUMBER_RULES: Readonly<Record<string, GrammarNode>> = Object.fromEntries(
  Object.entries(RULES).map(([name, text]) => [name, template(text)]),
);
