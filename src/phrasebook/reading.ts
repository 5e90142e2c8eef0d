import {
  nanometres,
  NM_PER_INCH,
  NM_PER_MM,
  NM_PER_TENTH_THOU,
  NM_PER_THOU,
  type DisplayUnit,
  type Length,
} from '../measure/index.ts';
import { PRIOR, type LengthCandidate } from './candidate.ts';
import { child, figures, natural } from './figures.ts';
import type { Counting } from './placements.ts';
import type { Tree } from './walk.ts';

/** What the words of one number are read against: the shop's unit, and what the figures are of. */
export type Reading = { readonly words: readonly string[]; readonly unit: DisplayUnit; readonly counting: Counting };

export const round = (nm: number): Length => nanometres(Math.round(nm));

export const perUnit = (unit: DisplayUnit): number => (unit === 'inch' ? NM_PER_INCH : NM_PER_MM);

export const length = (nm: number, unit: DisplayUnit, places: number | null, prior: number, named = false): LengthCandidate => ({
  kind: 'length',
  value: round(nm),
  unit,
  named,
  places,
  signed: false,
  prior,
});

export const has = (reading: Reading, tree: Tree, ...wanted: readonly string[]): boolean =>
  reading.words.slice(tree.from, tree.to).some((word) => wanted.includes(word));

/** Figures that count something: one number, not several in a row. */
const NATURAL_SHAPES: ReadonlySet<string> = new Set(['o', 'd', 'p', 'h', 'dp', 'ddd']);

/** The whole number that figures say; null where they are more than one number, so that nothing can be counted with them. */
export function counted(reading: Reading, run: Tree): number | null {
  const { digits, shape } = figures(reading.words, [run]);
  return NATURAL_SHAPES.has(shape) ? Number(digits) : null;
}

/** A plain number as a count: "two", "two and a half", "two and three tenths". */
export function countOf(reading: Reading, tree: Tree): number | null {
  const run = child(tree, 'run');
  const whole = run === undefined ? null : counted(reading, run);
  const more = child(tree, 'tenths-more');
  if (whole === null) return null;
  return whole + (child(tree, 'half') !== undefined ? 0.5 : 0) + (more === undefined ? 0 : tenthsMore(reading, more) / 10);
}

/** "three tenths", "a tenth", "a couple of tenths", "five hundredths" after a number: how many. */
export function tenthsMore(reading: Reading, tree: Tree): number {
  const digit = child(tree, 'digit');
  if (digit !== undefined) return natural(reading.words, digit);
  return has(reading, tree, 'couple') ? 2 : 1;
}

/** So many of a small unit: thou, tenths, hundredths, microns. `places` are those of one of them. */
export const each = (count: number, nm: number, unit: DisplayUnit, places: number): LengthCandidate =>
  length(count * nm, unit, Number.isInteger(count) ? places : places + 1, PRIOR.habit, true);

export const ofThou = (count: number): LengthCandidate => each(count, NM_PER_THOU, 'inch', 3);

/** A tenth is .0001 in inch speech and .1 in millimetre speech, unless what it is a tenth of is named. */
export const ofTenths = (reading: Reading, tree: Tree, count: number): LengthCandidate =>
  has(reading, tree, 'thou') || (reading.unit === 'inch' && !has(reading, tree, 'millimetre'))
    ? each(count, NM_PER_TENTH_THOU, 'inch', 4)
    : each(count, NM_PER_MM / 10, 'millimetre', 1);

export const ofHundredths = (reading: Reading, tree: Tree, count: number): LengthCandidate =>
  reading.unit === 'inch' && !has(reading, tree, 'millimetre')
    ? each(count, NM_PER_INCH / 100, 'inch', 2)
    : each(count, NM_PER_MM / 100, 'millimetre', 2);

/** "Mil" may be a thou where inches are shown, and is left open there. */
export const withMil = (reading: Reading, tree: Tree, found: readonly LengthCandidate[]): LengthCandidate[] =>
  reading.unit === 'inch' && has(reading, tree, 'mil', 'mils')
    ? found.flatMap((said) => [
        said,
        length((said.value / NM_PER_MM) * NM_PER_THOU, 'inch', (said.places ?? 0) + 3, PRIOR.habit, true),
      ])
    : [...found];

/** Half of what small amounts are counted in: a thou, or a hundredth of a millimetre. */
export const halfOfOne = (unit: DisplayUnit): LengthCandidate =>
  unit === 'inch' ? length(NM_PER_THOU / 2, unit, 4, PRIOR.habit) : length(NM_PER_MM / 200, unit, 3, PRIOR.habit);
