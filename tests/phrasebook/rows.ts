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
  { rule: 'nothing expected, two habits: asked', context: 'inch nothing', words: 'thirteen twelve', to: 'either 0.1312in 1.312in' },
  { rule: 'nothing fits what is expected, one habit: taken', context: 'inch .620', words: 'one two fifty', to: 'one 1.25in' },
  { rule: 'over the stock is left out where something fits under it', context: 'inch .620', words: 'two five oh oh', to: 'one 0.25in' },
  { rule: 'over the stock but nothing else: taken, for the job to ask about', context: 'inch .620', words: 'three inches', to: 'one 3in' },
  { rule: 'farther than any machine here: refused', context: 'inch nothing', words: 'six feet', to: 'none outside-everything' },
  { rule: 'nought is no size', context: 'inch .620', words: 'zero point oh', to: 'none outside-everything' },
  { rule: 'too fine for the instrument: refused', context: 'inch .620', words: 'point six two seven four three', to: 'none finer-than-instrument' },
  { rule: 'too fine for this instrument: refused', context: 'mm 19 fresh', words: 'nineteen point oh oh five', to: 'none finer-than-instrument' },
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
  { rule: 'the named unit over the shop\'s', context: 'mm 19', words: 'two thou', to: 'one 0.002in' },
  { rule: 'the named unit over the shop\'s', context: 'inch .620', words: 'nineteen millimetres', to: 'one 19mm' },
  { rule: 'a mil is asked about in inches', context: 'inch .620', words: 'half a mil', to: 'either 0.0005in 0.5mm' },
  { rule: 'a mil is a millimetre in millimetres', context: 'mm 19', words: 'half a mil', to: 'one 0.5mm' },
  { rule: 'a coarse window makes both plausible: asked', context: 'inch length 2.500', words: 'two five oh two', to: 'one 2.502in' },
];
