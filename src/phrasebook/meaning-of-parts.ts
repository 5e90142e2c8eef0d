import { assert, NM_PER_INCH, NM_PER_MM, NM_PER_TENTH_THOU, NM_PER_THOU, sixtyFourths } from '../measure/index.ts';
import { PRIOR, type LengthCandidate } from './candidate.ts';
import { child, figures, natural } from './figures.ts';
import { halfOfOne, has, length, ofTenths, ofThou, round, tenthsMore, type Reading } from './reading.ts';
import type { Tree } from './walk.ts';

/** "One inch three twelve and a half", "two inches and five thou": whole inches, then thousandths. */
export function inchAnd(reading: Reading, inches: number, tree: Tree): LengthCandidate {
  const small = child(tree, 'digit') ?? child(tree, 'pair');
  const run = child(tree, 'core') ?? child(tree, 'hundreds') ?? child(tree, 'lead');
  const thousandths = small !== undefined ? natural(reading.words, small) : Number(figures(reading.words, [run ?? tree]).digits);
  const figure = child(tree, 'figure');
  const more = child(tree, 'tenths-more');
  const tail =
    figure !== undefined
      ? natural(reading.words, figure)
      : more !== undefined
        ? tenthsMore(reading, more)
        : child(tree, 'half') !== undefined
          ? 5
          : null;
  const nm = inches * NM_PER_INCH + thousandths * NM_PER_THOU + (tail ?? 0) * NM_PER_TENTH_THOU;
  return length(nm, 'inch', tail === null ? 3 : 4, PRIOR.habit, true);
}

/** "Nineteen and five hundredths": of a millimetre, and only where the whole number is of millimetres. */
export function hundredthsMore(reading: Reading, whole: number | null, tree: Tree, named: boolean): LengthCandidate[] {
  if (whole === null || (reading.unit === 'inch' && !named)) return [];
  return [length(whole * NM_PER_MM + (tenthsMore(reading, tree) * NM_PER_MM) / 100, 'millimetre', 2, PRIOR.habit, named)];
}

/** "Five eighths plus two thou": what is said after a fraction is added or taken away, thou where no unit is named. */
export function giveOrTake(reading: Reading, tree: Tree, said: readonly LengthCandidate[]): LengthCandidate[] {
  const more = child(tree, 'give-or-take');
  if (more === undefined) return [...said];
  const figure = child(more, 'digit') ?? child(more, 'pair');
  const count = figure === undefined ? 1 : natural(reading.words, figure);
  const tenths = child(more, 'tenth-word');
  const amount = tenths === undefined ? ofThou(count) : ofTenths(reading, tenths, count);
  const sign = has(reading, more, 'plus') ? 1 : -1;
  return said.map((each) => ({ ...each, value: round(each.value + sign * amount.value) }));
}

const SIXTY_FOURTHS_OF: Readonly<Record<string, number>> = {
  half: 32,
  quarter: 16,
  fourth: 16,
  eighth: 8,
  sixteenth: 4,
  thirty: 2,
  sixty: 1,
};

/**
 * Whole units and so many parts of one. Halves and quarters are of the shop's unit unless an inch is named; finer parts are
 * always of an inch. No parts, no number: "six twenty eighths" is none.
 */
export function fractionOf(reading: Reading, whole: number, over: number | null, under: Tree, named: boolean): LengthCandidate[] {
  const part = SIXTY_FOURTHS_OF[(reading.words[under.from] ?? '').replace(/s$/, '')];
  assert(part !== undefined, `"${reading.words[under.from] ?? ''}" is a part of an inch`);
  if (over === null || over * part >= 64 * 64) return [];
  const inch = named || part < 16 || reading.unit === 'inch';
  const nm = inch ? whole * NM_PER_INCH + sixtyFourths(over * part) : whole * NM_PER_MM + (over * part * NM_PER_MM) / 64;
  return [length(nm, inch ? 'inch' : 'millimetre', null, PRIOR.habit, named || part < 16)];
}

/** A `<part>` after whole units: "five sixteenths", "a quarter", "half". */
export function partOf(reading: Reading, whole: number, tree: Tree, named: boolean): LengthCandidate[] {
  const under = child(tree, 'under') ?? child(tree, 'one-part');
  assert(under !== undefined, 'a fraction has its parts');
  const over = child(tree, 'over')?.children[0];
  return fractionOf(reading, whole, over === undefined ? 1 : natural(reading.words, over), under, named);
}

/**
 * "Two foot six", "two foot six and a half inches". "A foot and a half" is half a foot, unless the inch is named; "and a quarter"
 * may be of either.
 */
export function feet(reading: Reading, whole: number, tree: Tree): LengthCandidate[] {
  const inches = child(tree, 'figure') ?? child(tree, 'pair');
  const part = child(tree, 'part');
  const more = inches === undefined ? 0 : natural(reading.words, inches);
  const inInches =
    part === undefined ? [length(more * NM_PER_INCH, 'inch', null, PRIOR.habit, true)] : partOf(reading, more, part, true);
  const said = inInches.map((inch) => ({ ...inch, value: round(whole * 12 * NM_PER_INCH + inch.value) }));
  if (part === undefined || inches !== undefined || child(tree, 'of-an-inch') !== undefined) return said;
  const inFeet = inInches.map((inch) => ({ ...inch, value: round((whole * NM_PER_INCH + inch.value) * 12) }));
  if (has(reading, part, 'half')) return inFeet;
  return has(reading, part, 'quarter', 'quarters', 'fourth', 'fourths') ? [...inFeet, ...said] : said;
}

/** "a quarter", "half an inch". "A half" of a cut, with no unit, is half a thou, or half a hundredth. */
export function partFirst(reading: Reading, tree: Tree): LengthCandidate[] {
  const under = child(tree, 'one-part');
  assert(under !== undefined, 'a fraction has its parts');
  const found = fractionOf(reading, 0, 1, under, child(tree, 'of-an-inch') !== undefined);
  if (reading.counting === 'size' || !has(reading, under, 'half') || found.every((said) => said.named)) return found;
  return [halfOfOne(reading.unit), ...found.map((said) => (said.named ? said : { ...said, prior: PRIOR.rare }))];
}
