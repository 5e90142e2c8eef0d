import type { NumberSlot } from '../job/index.ts';
import type { DisplayUnit } from '../measure/index.ts';
import type { Candidate } from './candidate.ts';
import { meanings } from './meanings.ts';
import type { Counting } from './placements.ts';
import { NUMBER_RULES, type NumberRule } from './number-rules.ts';
import { Walker, type Tree } from './walk.ts';

/** Which number rule stands where a command takes a number of that kind. */
export const SLOT_RULES = {
  size: 'size',
  'depth-of-cut': 'small',
  dial: 'small',
  indicator: 'signed',
  coordinate: 'signed',
  step: 'step',
  count: 'step',
  temperature: 'temperature',
} as const satisfies Readonly<Record<NumberSlot, NumberRule>>;

/** What figures alone are of, by the kind of number. */
const COUNTING: Readonly<Record<NumberSlot, Counting>> = {
  size: 'size',
  coordinate: 'size',
  step: 'size',
  count: 'size',
  temperature: 'size',
  'depth-of-cut': 'cut',
  dial: 'cut',
  indicator: 'indicator',
};

const walker = new Walker(NUMBER_RULES);
const roots = Object.fromEntries(Object.values(SLOT_RULES).map((name) => [name, { node: 'rule', name } as const]));

/** Every reading of the words as a number of that kind, in no order; none where the words are no such number. */
export function readNumber(words: readonly string[], slot: NumberSlot, unit: DisplayUnit): Candidate[] {
  const root = roots[SLOT_RULES[slot]];
  if (root === undefined) return [];
  return walker.walk(root, words).ways.flatMap((way) => way.flatMap((tree) => candidatesOf(words, tree, slot, unit)));
}

/** The readings of a number that was found inside a sentence. */
export const candidatesOf = (words: readonly string[], tree: Tree, slot: NumberSlot, unit: DisplayUnit): Candidate[] =>
  meanings({ words, unit, counting: COUNTING[slot] }, tree);
