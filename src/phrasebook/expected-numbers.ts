import type { Context } from '../job/index.ts';
import { nanometres, NM_PER_THOU, type Length } from '../measure/index.ts';
import { oneOf, type GrammarNode } from './grammar.ts';
import { digitWord, sizeWords } from './speak-number.ts';
import { template } from './template.ts';

/** How many steps to each side of a likely value are written out. */
const REACH = 6;

/** The step between them: a thou, or a hundredth of a millimetre. */
const STEP_NM = { inch: NM_PER_THOU, millimetre: 10_000 } as const;

const half = template('and [a] half | five');

/**
 * The numbers that are likeliest to be said now, as the words they are likeliest to be said in: near the middle of the window,
 * its limits and the last reading. Null where nothing is awaited. Shared beginnings are written once.
 */
export function expectedNumbers(context: Context): GrammarNode | null {
  const step = STEP_NM[context.unit];
  const { last, window } = context;
  const near = [...(last === null ? [] : [last.value]), ...(window === null ? [] : [window.aim, window.low, window.high])];
  if (near.length === 0) return null;
  const values = new Set<Length>();
  for (const value of near) {
    const middle = Math.round(value / step);
    for (let away = -REACH; away <= REACH; away += 1) if (middle + away > 0) values.add(nanometres((middle + away) * step));
  }
  const phrases = [...values].flatMap((value) => phrasesOf(value, context));
  return prefixTree(phrases, context.unit === 'inch' ? half : null);
}

/** A value as it is spoken back, and figure by figure. */
function phrasesOf(value: Length, context: Context): readonly (readonly string[])[] {
  const spoken = sizeWords(value, context.unit);
  const digits = String(Math.round(value / STEP_NM[context.unit]));
  if (context.unit === 'millimetre') {
    // "Nineteen oh five" beside "nineteen point oh five".
    const short = spoken.filter((word) => word !== 'point');
    return short.length < 2 ? [spoken] : [spoken, short];
  }
  const figures = [...digits.padStart(3, '0')].map((digit) => digitWord(Number(digit)));
  return [spoken, [...figures.slice(0, -3), 'point', ...figures.slice(-3)]];
}

/** Phrases as a tree on their first words; each may end in the tail. */
function prefixTree(phrases: readonly (readonly string[])[], tail: GrammarNode | null): GrammarNode {
  const byFirst = new Map<string, (readonly string[])[]>();
  let ends = false;
  for (const phrase of phrases) {
    const [first, ...rest] = phrase;
    if (first === undefined) ends = true;
    else byFirst.set(first, [...(byFirst.get(first) ?? []), rest]);
  }
  const branches: { readonly item: GrammarNode }[] = [...byFirst].map(([word, rests]) => {
    const here: GrammarNode = { node: 'word', word };
    if (rests.some((rest) => rest.length > 0)) return { item: { node: 'sequence', items: [here, prefixTree(rests, tail)] } };
    return { item: tail === null ? here : { node: 'sequence', items: [here, { node: 'optional', item: tail }] } };
  });
  const all = oneOf(branches);
  return ends ? { node: 'optional', item: all } : all;
}
