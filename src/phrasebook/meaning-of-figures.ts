import {
  assert,
  degrees,
  degreesAndMinutes,
  NM_PER_INCH,
  NM_PER_MICROMETRE,
  NM_PER_MM,
  NM_PER_TENTH_THOU,
  NM_PER_THOU,
  type DisplayUnit,
} from '../measure/index.ts';
import { PRIOR, type Candidate, type LengthCandidate } from './candidate.ts';
import { child, figures, natural } from './figures.ts';
import { placements } from './placements.ts';
import {
  countOf,
  each,
  has,
  length,
  ofHundredths,
  ofTenths,
  ofThou,
  perUnit,
  tenthsMore,
  withMil,
  type Reading,
} from './reading.ts';
import type { Tree } from './walk.ts';

/** Figures without a point, with what hangs on them, in a unit. */
function plain(reading: Reading, tree: Tree, unit: DisplayUnit, named: boolean): LengthCandidate[] {
  const run = child(tree, 'run');
  assert(run !== undefined, 'a plain number has its figures');
  const { digits, shape } = figures(reading.words, [run]);
  const more = child(tree, 'tenths-more');
  const half = child(tree, 'half');
  const scale = perUnit(unit);
  const found: LengthCandidate[] = [];
  for (const { places, prior } of placements(shape, unit, reading.counting)) {
    const step = scale / 10 ** places;
    const base = Number(digits) * step;
    if (more !== undefined) {
      // A tenth is .0001 in inch shop speech, and .1 in millimetre speech.
      const tenths = tenthsMore(reading, more);
      if (unit === 'inch' && places === 3) found.push(length(base + tenths * NM_PER_TENTH_THOU, unit, 4, prior, named));
      if (unit === 'inch' && places === 0)
        found.push(length(base + (tenths * scale) / 10, unit, 1, named ? PRIOR.habit : PRIOR.rare, named));
      if (unit === 'millimetre' && places === 0) found.push(length(base + (tenths * scale) / 10, unit, 1, prior, named));
    } else if (half !== undefined) {
      // Half of the last place said, where that is a thing people say: half a thou, half a millimetre, half a hundredth.
      const usual = unit === 'inch' ? places === 3 || places === 0 : places === 0 || places === 2;
      if (usual) found.push(length(base + step / 2, unit, places + 1, prior, named));
    } else found.push(length(base, unit, places, prior, named));
  }
  return found;
}

/** A number said with its point, with what hangs on it. One value, for the words leave nothing open. */
function pointed(reading: Reading, tree: Tree, unit: DisplayUnit, named: boolean): LengthCandidate {
  const whole = child(tree, 'run');
  const point = child(tree, 'pointed');
  assert(point !== undefined, 'a number with a point has figures after it');
  const part = figures(reading.words, point.children).digits;
  const scale = perUnit(unit);
  const step = scale / 10 ** part.length;
  const base = Number(`${whole === undefined ? '' : figures(reading.words, [whole]).digits}${part}`) * step;
  const more = child(tree, 'tenths-more');
  if (more !== undefined)
    return length(
      base + (tenthsMore(reading, more) * scale) / (unit === 'inch' ? 10_000 : 10),
      unit,
      unit === 'inch' ? 4 : 1,
      PRIOR.habit,
      named,
    );
  if (child(tree, 'half') !== undefined) return length(base + step / 2, unit, part.length + 1, PRIOR.habit, named);
  return length(base, unit, part.length, PRIOR.habit, named);
}

/** Figures that end at the thousandth, so that "oh two" after them is tenths: "six twenty", "one six hundred". */
const ENDS_AT_THOUSANDTH = /^[dp]?(dp|h)$/;

/** "six twenty oh two": the last two words are tenths of a thou, or two more places. */
export function hung(reading: Reading, run: Tree, tree: Tree): LengthCandidate[] {
  const digit = child(tree, 'digit');
  assert(digit !== undefined, 'a hung number has its last figure');
  const { digits, shape } = figures(reading.words, [run]);
  if (!ENDS_AT_THOUSANDTH.test(shape)) return [];
  const before = Number(digits);
  const last = natural(reading.words, digit);
  if (reading.unit === 'inch') {
    return [
      length(before * NM_PER_THOU + last * NM_PER_TENTH_THOU, 'inch', 4, PRIOR.habit),
      length(((before * 100 + last) * NM_PER_INCH) / 10_000, 'inch', 4, PRIOR.also),
    ];
  }
  return [length(before * NM_PER_MM + (last * NM_PER_MM) / 100, 'millimetre', 2, PRIOR.habit)];
}

/** Figures with or without a point, and what they count where a unit is named. */
export function countedIn(reading: Reading, tree: Tree): Candidate[] {
  const isPointed = child(tree, 'pointed') !== undefined;
  const unit = child(tree, 'unit');
  const bare = (as: DisplayUnit, named: boolean): LengthCandidate[] =>
    isPointed ? [pointed(reading, tree, as, named)] : plain(named ? { ...reading, counting: 'size' } : reading, tree, as, named);
  if (unit === undefined) return bare(reading.unit, false);
  const kind = unit.children[0]?.rule ?? '';
  if (kind === 'inch-word') return inchNamed(bare('inch', true));
  // "Two millimetres" is whole millimetres: the unit leaves no room for hundredths.
  if (kind === 'metric-word')
    return withMil(
      reading,
      unit,
      bare('millimetre', true).filter(({ prior }) => prior >= PRIOR.also),
    );
  if (kind === 'foot-word') return inFeet(reading, tree);
  if (has(reading, unit, 'centimetre', 'centimetres')) return [{ kind: 'centimetres', prior: PRIOR.habit }];
  if (kind === 'thou-word' && isPointed) {
    // Each figure behind the point is a place more, which a count does not know.
    const said = pointed(reading, tree, 'inch', true);
    return [length(said.value / 1000, 'inch', (said.places ?? 0) + 3, PRIOR.habit, true)];
  }
  const count = isPointed ? pointed(reading, tree, 'millimetre', true).value / NM_PER_MM : countOf(reading, tree);
  if (count === null) return [];
  switch (kind) {
    case 'thou-word':
      return [ofThou(count)];
    case 'tenth-word':
      // "One hundred and two tenths" is never 102 of them.
      return count < 100 ? [ofTenths(reading, unit, count)] : [];
    case 'hundredth-word':
      return [ofHundredths(reading, unit, count)];
    case 'misfit-word':
      return has(reading, unit, 'degree', 'degrees')
        ? angle(reading, unit, count)
        : [{ kind: 'count', count, of: 'tally', prior: PRIOR.habit }];
  }
  // Microns are the one unit that has no rule of its own.
  return [each(count, NM_PER_MICROMETRE, 'millimetre', 3)];
}

/** "Thirty degrees", "thirty degrees fifteen minutes"; minutes after half a degree are no angle. */
function angle(reading: Reading, unit: Tree, count: number): Candidate[] {
  const over = unit.children.flatMap((word) => word.children).find(({ rule }) => rule === 'minutes')?.children[0];
  if (over === undefined) return [{ kind: 'angle', value: degrees(count, 'half-even'), prior: PRIOR.habit }];
  if (!Number.isInteger(count)) return [];
  return [{ kind: 'angle', value: degreesAndMinutes(count, natural(reading.words, over)), prior: PRIOR.habit }];
}

/** "Three foot", "two and a half feet", "two point five feet". */
function inFeet(reading: Reading, tree: Tree): LengthCandidate[] {
  const isPointed = child(tree, 'pointed') !== undefined;
  const count = isPointed ? pointed(reading, tree, 'inch', true).value / NM_PER_INCH : countOf(reading, tree);
  return count === null || child(tree, 'tenths-more') !== undefined
    ? []
    : [length(count * 12 * NM_PER_INCH, 'inch', null, PRIOR.habit, true)];
}

/** "Six inches" is never six thou: whole inches where the figures can be, else a decimal of one. */
function inchNamed(found: readonly LengthCandidate[]): LengthCandidate[] {
  const whole = found.filter(({ places, value }) => places === 0 || value % NM_PER_INCH === NM_PER_INCH / 2);
  return whole.length > 0 ? whole.map((said) => ({ ...said, prior: PRIOR.habit })) : [...found];
}

/** "a thou", "half a thou", "a couple of tenths", "a thou and a half", "a couple". */
export function single(reading: Reading, tree: Tree): LengthCandidate[] {
  const unit = tree.children.find(({ rule }) => rule !== 'half');
  const count = has(reading, tree, 'couple') ? 2 : child(tree, 'half') !== undefined ? 1.5 : has(reading, tree, 'half') ? 0.5 : 1;
  if (unit === undefined) {
    if (has(reading, tree, 'inch')) return [length(count * NM_PER_INCH, 'inch', null, PRIOR.habit, true)];
    return [
      reading.unit === 'inch'
        ? { ...ofThou(count), named: false }
        : { ...each(count, NM_PER_MM / 100, 'millimetre', 2), named: false },
    ];
  }
  switch (unit.rule) {
    case 'thou-word':
      return [ofThou(count)];
    case 'tenth-word':
      return [ofTenths(reading, unit, count)];
    case 'hundredth-word':
      return [ofHundredths(reading, unit, count)];
  }
  return withMil(reading, unit, [each(count, NM_PER_MM, 'millimetre', 0)]);
}
