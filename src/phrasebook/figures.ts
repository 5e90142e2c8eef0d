import { assert } from '../measure/index.ts';
import { numeralValue } from './numerals.ts';
import type { Tree } from './walk.ts';

/** Figures as they were said, joined: their digits, and their shape in the letters of `placements.ts`. */
export type Figures = { readonly digits: string; readonly shape: string };

const valueOf = (word: string | undefined): number => {
  const value = numeralValue(word ?? '');
  assert(value !== undefined, `"${word}" is a numeral`);
  return value;
};

/** The whole number that a `pair`, `digit`, `oh`, `nought`, `figure`, `hundreds` or `even` says. */
export function natural(words: readonly string[], tree: Tree): number {
  if (tree.rule === 'hundreds' || tree.rule === 'even') {
    const at = words.indexOf('hundred', tree.from);
    let total = words[tree.from] === 'a' ? 100 : 0;
    for (const child of tree.children) total += natural(words, child) * (child.to <= at ? 100 : 1);
    return total;
  }
  // The words of a pair add up: twenty and seven. Everything else that comes here is one word.
  let total = 0;
  for (let at = tree.from; at < tree.to; at += 1) total += valueOf(words[at]);
  return total;
}

/** The figures in the rules given, left to right; rules that hold none add nothing. */
export function figures(words: readonly string[], trees: readonly Tree[]): Figures {
  let digits = '';
  let shape = '';
  const add = (letter: string, text: string): void => {
    digits += text;
    shape += letter === 'o' && shape !== '' ? 'd' : letter;
  };
  const visit = (tree: Tree): void => {
    switch (tree.rule) {
      case 'oh':
      case 'nought':
        add('o', '0');
        return;
      case 'digit':
        add('d', String(natural(words, tree)));
        return;
      case 'pair':
        add('p', String(natural(words, tree)));
        return;
      case 'hundreds':
      case 'even':
        add('h', String(natural(words, tree)));
        return;
      case 'figure':
      case 'run':
      case 'core':
      case 'lead':
      case 'places':
      case 'warmth':
        tree.children.forEach(visit);
        return;
    }
  };
  trees.forEach(visit);
  return { digits, shape };
}

/** The first of the children made by a rule. */
export const child = (tree: Tree, rule: string): Tree | undefined => tree.children.find((each) => each.rule === rule);
