import {
  assert, celsius, degrees, degreesAndMinutes, fahrenheit, nanometres, NM_PER_INCH, NM_PER_MICROMETRE, NM_PER_MM, NM_PER_TENTH_THOU, NM_PER_THOU,
  sixtyFourths, type DisplayUnit, type Length,
} from '../measure/index.ts';
import { PRIOR, type Candidate, type LengthCandidate } from './candidate.ts';
import { child, figures, natural } from './figures.ts';
import { placements } from './placements.ts';
import type { Tree } from './walk.ts';

/** What the words of one number are read against: the shop's unit, and whether a cut or a dial is meant rather than a size. */
export type Reading = { readonly words: readonly string[]; readonly unit: DisplayUnit; readonly small: boolean };

const round = (nm: number): Length => nanometres(Math.round(nm));
const perUnit = (unit: DisplayUnit): number => (unit === 'inch' ? NM_PER_INCH : NM_PER_MM);

const length = (nm: number, unit: DisplayUnit, places: number | null, prior: number, named = false): LengthCandidate => ({
  kind: 'length', value: round(nm), unit, named, places, signed: false, prior,
});

const has = (reading: Reading, tree: Tree, ...wanted: readonly string[]): boolean =>
  reading.words.slice(tree.from, tree.to).some((word) => wanted.includes(word));

/** Figures that count something: one number, not several in a row. */
const NATURAL_SHAPES: ReadonlySet<string> = new Set(['o', 'd', 'p', 'h', 'dp', 'ddd']);

/** The whole number that figures say; null where they are more than one number, so that nothing can be counted with them. */
function counted(reading: Reading, run: Tree): number | null {
  const { digits, shape } = figures(reading.words, [run]);
  return NATURAL_SHAPES.has(shape) ? Number(digits) : null;
}

/** A plain number as a count: "two", "two and a half", "two and three tenths". */
function countOf(reading: Reading, tree: Tree): number | null {
  const run = child(tree, 'run');
  const whole = run === undefined ? null : counted(reading, run);
  const more = child(tree, 'tenths-more');
  if (whole === null) return null;
  return whole + (child(tree, 'half') !== undefined ? 0.5 : 0) + (more === undefined ? 0 : tenthsMore(reading, more) / 10);
}

/** "three tenths", "a tenth" after a number. */
function tenthsMore(reading: Reading, tree: Tree): number {
  const digit = child(tree, 'digit');
  return digit === undefined ? 1 : natural(reading.words, digit);
}

/** Figures without a point, with what hangs on them, in a unit. */
function plain(reading: Reading, tree: Tree, unit: DisplayUnit, named: boolean): LengthCandidate[] {
  const run = child(tree, 'run');
  assert(run !== undefined, 'a plain number has its figures');
  const { digits, shape } = figures(reading.words, [run]);
  const more = child(tree, 'tenths-more');
  const half = child(tree, 'half');
  const scale = perUnit(unit);
  const found: LengthCandidate[] = [];
  for (const { places, prior } of placements(shape, unit, reading.small)) {
    const step = scale / 10 ** places;
    const base = Number(digits) * step;
    if (more !== undefined) {
      // A tenth is .0001 in inch shop speech, and .1 in millimetre speech.
      const tenths = tenthsMore(reading, more);
      if (unit === 'inch' && places === 3) found.push(length(base + tenths * NM_PER_TENTH_THOU, unit, 4, prior, named));
      if (unit === 'inch' && places === 0) found.push(length(base + (tenths * scale) / 10, unit, 1, named ? PRIOR.habit : PRIOR.rare, named));
      if (unit === 'millimetre' && places === 0) found.push(length(base + (tenths * scale) / 10, unit, 1, prior, named));
    } else if (half !== undefined) {
      // Half of the last place said, where that is a thing people say: half a thou, half a millimetre, half a hundredth.
      const usual = unit === 'inch' ? places === 3 || places === 0 : places === 0 || places === 2;
      if (usual) found.push(length(base + step / 2, unit, places + 1, prior, named));
    } else found.push(length(base, unit, places, prior, named));
  }
  return found;
}

/** A number said with its point. One value, for the words leave nothing open. */
function pointed(reading: Reading, tree: Tree, unit: DisplayUnit, named: boolean): LengthCandidate {
  const whole = child(tree, 'run');
  const places = child(tree, 'places');
  assert(places !== undefined, 'a number with a point has figures after it');
  const part = figures(reading.words, [places]).digits;
  const scale = perUnit(unit);
  const step = scale / 10 ** part.length;
  const base = Number(`${whole === undefined ? '' : figures(reading.words, [whole]).digits}${part}`) * step;
  const more = child(tree, 'tenths-more');
  if (more !== undefined) return length(base + (tenthsMore(reading, more) * scale) / (unit === 'inch' ? 10_000 : 10), unit, unit === 'inch' ? 4 : 1, PRIOR.habit, named);
  if (child(tree, 'half') !== undefined) return length(base + step / 2, unit, part.length + 1, PRIOR.habit, named);
  return length(base, unit, part.length, PRIOR.habit, named);
}

/** Figures that end at the thousandth, so that "oh two" after them is tenths: "six twenty", "one six hundred". */
const ENDS_AT_THOUSANDTH = /^[dp]?(dp|h)$/;

/** "six twenty oh two": the last two words are tenths of a thou, or two more places. */
function hung(reading: Reading, tree: Tree): LengthCandidate[] {
  const [run, , digit] = tree.children;
  assert(run !== undefined && digit !== undefined, 'a hung number has its figures');
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

/** So many of a small unit: thou, tenths, hundredths, microns. `places` are those of one of them. */
const each = (count: number, nm: number, unit: DisplayUnit, places: number): LengthCandidate =>
  length(count * nm, unit, Number.isInteger(count) ? places : places + 1, PRIOR.habit, true);

const ofThou = (count: number): LengthCandidate => each(count, NM_PER_THOU, 'inch', 3);

/** A tenth is .0001 in inch speech and .1 in millimetre speech, unless what it is a tenth of is named. */
const ofTenths = (reading: Reading, tree: Tree, count: number): LengthCandidate =>
  has(reading, tree, 'thou') || (reading.unit === 'inch' && !has(reading, tree, 'millimetre'))
    ? each(count, NM_PER_TENTH_THOU, 'inch', 4)
    : each(count, NM_PER_MM / 10, 'millimetre', 1);

const ofHundredths = (reading: Reading, tree: Tree, count: number): LengthCandidate =>
  reading.unit === 'inch' && !has(reading, tree, 'millimetre')
    ? each(count, NM_PER_INCH / 100, 'inch', 2)
    : each(count, NM_PER_MM / 100, 'millimetre', 2);

/** "Mil" may be a thou where inches are shown, and is left open there. */
const withMil = (reading: Reading, tree: Tree, found: readonly LengthCandidate[]): LengthCandidate[] =>
  reading.unit === 'inch' && has(reading, tree, 'mil', 'mils')
    ? found.flatMap((said) => [said, length((said.value / NM_PER_MM) * NM_PER_THOU, 'inch', (said.places ?? 0) + 3, PRIOR.habit, true)])
    : [...found];

/** Figures with or without a point, and what they count where a unit is named. */
function countedIn(reading: Reading, tree: Tree): Candidate[] {
  const inPlain = child(tree, 'plain');
  const inPoint = child(tree, 'pointed');
  const unit = child(tree, 'unit');
  const bare = (as: DisplayUnit, named: boolean): LengthCandidate[] =>
    inPoint !== undefined ? [pointed(reading, inPoint, as, named)] : inPlain !== undefined ? plain(named ? { ...reading, small: false } : reading, inPlain, as, named) : [];
  if (unit === undefined) return bare(reading.unit, false);
  const kind = unit.children[0]?.rule ?? 'micron-word';
  if (kind === 'inch-word') return inchNamed(bare('inch', true));
  // "Two millimetres" is whole millimetres: the unit leaves no room for hundredths.
  if (kind === 'metric-word') return withMil(reading, unit, bare('millimetre', true).filter(({ prior }) => prior >= PRIOR.also));
  if (kind === 'misfit-word' && has(reading, unit, 'centimetre', 'centimetres')) return [{ kind: 'centimetres', prior: PRIOR.habit }];
  if (kind === 'thou-word' && inPoint !== undefined) {
    const said = pointed(reading, inPoint, 'inch', true);
    return [length(said.value / 1000, 'inch', (said.places ?? 0) + 3, PRIOR.habit, true)];
  }
  const count = inPlain !== undefined ? countOf(reading, inPlain) : inPoint !== undefined ? pointed(reading, inPoint, 'millimetre', true).value / NM_PER_MM : null;
  if (count === null) return [];
  switch (kind) {
    case 'thou-word':
      return [ofThou(count)];
    case 'tenth-word':
      return [ofTenths(reading, unit, count)];
    case 'hundredth-word':
      return [ofHundredths(reading, unit, count)];
    case 'misfit-word':
      return has(reading, unit, 'degree', 'degrees')
        ? [{ kind: 'angle', value: degrees(count, 'half-even'), prior: PRIOR.habit }]
        : [{ kind: 'count', count, of: 'tally', prior: PRIOR.habit }];
  }
  return [each(count, NM_PER_MICROMETRE, 'millimetre', 3)];
}

/** "Six inches" is never six thou: whole inches where the figures can be, else a decimal of one. */
function inchNamed(found: readonly LengthCandidate[]): LengthCandidate[] {
  const whole = found.filter(({ places, value }) => places === 0 || value % NM_PER_INCH === NM_PER_INCH / 2);
  return whole.length > 0 ? whole.map((said) => ({ ...said, prior: PRIOR.habit })) : [...found];
}

/** "a thou", "half a thou", "a couple of tenths", "a thou and a half", "a couple". */
function single(reading: Reading, tree: Tree): LengthCandidate[] {
  const unit = tree.children.find(({ rule }) => rule !== 'half');
  const count = has(reading, tree, 'couple') ? 2 : child(tree, 'half') !== undefined ? 1.5 : has(reading, tree, 'half') ? 0.5 : 1;
  if (unit === undefined) {
    if (has(reading, tree, 'inch')) return [length(count * NM_PER_INCH, 'inch', null, PRIOR.habit, true)];
    return [reading.unit === 'inch' ? { ...ofThou(count), named: false } : { ...each(count, NM_PER_MM / 100, 'millimetre', 2), named: false }];
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

/** "One inch three twelve and a half": whole inches, then thousandths. */
function inchAnd(reading: Reading, tree: Tree): LengthCandidate[] {
  const whole = child(tree, 'run');
  const inches = whole === undefined ? 1 : counted(reading, whole);
  if (inches === null) return [];
  const thousandths = figures(reading.words, [child(tree, 'core') ?? child(tree, 'lead') ?? tree]).digits;
  const figure = child(tree, 'figure');
  const more = child(tree, 'tenths-more');
  const tail =
    figure !== undefined ? natural(reading.words, figure)
    : more !== undefined ? tenthsMore(reading, more)
    : child(tree, 'half') !== undefined ? 5
    : null;
  const nm = inches * NM_PER_INCH + Number(thousandths) * NM_PER_THOU + (tail ?? 0) * NM_PER_TENTH_THOU;
  return [length(nm, 'inch', tail === null ? 3 : 4, PRIOR.habit, true)];
}

/** Parts of a whole in sixty-fourths: "five eighths", "a quarter", "thirteen sixty fourths". */
function part(reading: Reading, tree: Tree): { readonly count: number; readonly coarse: boolean } {
  const over = child(tree, 'over');
  const under = child(tree, 'under');
  assert(under !== undefined, 'a fraction has its parts');
  const inner = over?.children[0];
  const count = inner === undefined ? 1 : natural(reading.words, inner);
  const said = reading.words.slice(under.from, under.to);
  const sixtyFourthsOf: Readonly<Record<string, number>> = { half: 32, quarter: 16, fourth: 16, eighth: 8, sixteenth: 4, thirty: 2, sixty: 1 };
  const size = sixtyFourthsOf[(said[0] ?? '').replace(/s$/, '')];
  assert(size !== undefined, `"${said.join(' ')}" is a part of an inch`);
  return { count: count * size, coarse: size >= 16 };
}

/** Halves and quarters are of the shop's unit; finer parts are always of an inch. */
function fractionOf(reading: Reading, whole: number, tree: Tree, named: boolean): LengthCandidate {
  const { count, coarse } = part(reading, tree);
  const unit = named || !coarse ? 'inch' : reading.unit;
  const nm = unit === 'inch' ? whole * NM_PER_INCH + sixtyFourths(count) : whole * NM_PER_MM + (count * NM_PER_MM) / 64;
  return length(nm, unit, null, PRIOR.habit, named || !coarse);
}

function feet(reading: Reading, tree: Tree): LengthCandidate[] {
  const run = child(tree, 'run');
  const whole = run === undefined ? 1 : counted(reading, run);
  if (whole === null) return [];
  const inches = child(tree, 'figure') ?? child(tree, 'pair');
  const fraction = child(tree, 'part');
  const more = (inches === undefined ? 0 : natural(reading.words, inches)) * NM_PER_INCH;
  return [length((whole * 12 * NM_PER_INCH) + more + (fraction === undefined ? 0 : fractionOf(reading, 0, fraction, true).value), 'inch', null, PRIOR.habit, true)];
}

/** "one and five sixteenths", "an inch and a quarter". */
function mixed(reading: Reading, tree: Tree): LengthCandidate[] {
  const run = child(tree, 'run');
  const fraction = child(tree, 'part');
  const whole = run === undefined ? 1 : counted(reading, run);
  if (whole === null || fraction === undefined) return [];
  return [fractionOf(reading, whole, fraction, has(reading, tree, 'inch', 'inches'))];
}

/** A size or a cut by itself, of every form. */
function absolute(reading: Reading, tree: Tree): Candidate[] {
  const [form] = tree.children;
  assert(form !== undefined, 'a number has a form');
  switch (form.rule) {
    case 'counted':
      return countedIn(reading, form);
    case 'hung':
      return hung(reading, form);
    case 'thou-and':
      return thouAnd(reading, form);
    case 'inch-and':
      return inchAnd(reading, form);
    case 'single':
      return single(reading, form);
    case 'fraction':
      return fraction(reading, form);
    case 'mixed':
      return mixed(reading, form);
    case 'feet':
      return feet(reading, form);
  }
  throw new Error(`Broken invariant: no meaning is written for <${form.rule}>`);
}

/** "two thou and a half", "two thou and three tenths". */
function thouAnd(reading: Reading, tree: Tree): LengthCandidate[] {
  const count = countOf(reading, tree);
  return count === null ? [] : [ofThou(count)];
}

/** A fraction by itself. "A half" of a cut is half a thou, or half a hundredth. */
function fraction(reading: Reading, tree: Tree): LengthCandidate[] {
  const said = fractionOf(reading, 0, child(tree, 'part') ?? tree, has(reading, tree, 'inch'));
  if (!reading.small || said.named || !has(reading, tree, 'half')) return [said];
  return [halfOfOne(reading.unit), { ...said, prior: PRIOR.rare }];
}

/** Half of what small amounts are counted in: a thou, or a hundredth of a millimetre. */
const halfOfOne = (unit: DisplayUnit): LengthCandidate =>
  unit === 'inch' ? length(NM_PER_THOU / 2, unit, 4, PRIOR.habit) : length(NM_PER_MM / 200, unit, 3, PRIOR.habit);

/** How far off or how much more: "two" is two thou, or two hundredths of a millimetre. What is no length is no amount. */
function amount(reading: Reading, tree: Tree): LengthCandidate[] {
  const [form] = tree.children;
  const inPlain = form?.rule === 'counted' && child(form, 'unit') === undefined ? child(form, 'plain') : undefined;
  if (inPlain === undefined) return absolute({ ...reading, small: true }, tree).flatMap((said) => (said.kind === 'length' ? [said] : []));
  const run = child(inPlain, 'run');
  const count = run === undefined ? null : counted(reading, run);
  const total = countOf(reading, inPlain);
  if (count === null || total === null) return [];
  if (reading.unit === 'inch') return [{ ...ofThou(total), named: false }];
  if (child(inPlain, 'tenths-more') !== undefined) return [each(total, NM_PER_MM, 'millimetre', 0)];
  return [each(total, NM_PER_MM / 100, 'millimetre', 2), { ...each(total, NM_PER_MM, 'millimetre', 0), prior: PRIOR.rare }];
}

/** "Another thou": one of what was named. */
function oneMore(reading: Reading, tree: Tree): LengthCandidate {
  if (has(reading, tree, 'tenth')) return ofTenths(reading, tree, 1);
  return has(reading, tree, 'hundredth') ? ofHundredths(reading, tree, 1) : ofThou(1);
}

function signOf(tree: Tree): 1 | -1 {
  return child(tree, 'minus') !== undefined || child(tree, 'undersize') !== undefined || child(tree, 'less') !== undefined ? -1 : 1;
}

/** All that a number rule of the top level may mean. */
export function meanings(reading: Reading, tree: Tree): Candidate[] {
  switch (tree.rule) {
    case 'size':
    case 'small':
    case 'signed': {
      const sign = signOf(tree);
      const signed = child(tree, 'plus') !== undefined || child(tree, 'minus') !== undefined;
      return tree.children.flatMap((inner) => {
        if (inner.rule === 'plus' || inner.rule === 'minus') return [];
        if (inner.rule !== 'absolute') return meanings(reading, inner);
        return absolute(reading, inner).map((said) => (said.kind === 'length' ? { ...said, value: round(sign * said.value), signed } : said));
      });
    }
    case 'offset':
      return amount(reading, child(tree, 'absolute') ?? tree).map(({ value, prior }) => ({ kind: 'from-target', by: round(signOf(tree) * value), prior }));
    case 'on-size':
      return [{ kind: 'from-target', by: round(0), prior: PRIOR.habit }];
    case 'same':
      return [{ kind: 'from-last', by: round(0), prior: PRIOR.habit }];
    case 'another':
      return (child(tree, 'one-more') === undefined ? amount(reading, child(tree, 'absolute') ?? tree) : [oneMore(reading, tree)]).map(({ value, prior }) => ({ kind: 'from-last', by: round(signOf(tree) * value), prior }));
    case 'half-of-last':
      return [{ kind: 'half-of-last', prior: PRIOR.habit }];
    case 'vague':
      return [{ kind: 'vague', prior: PRIOR.habit }];
    case 'minutes': {
      const [whole, over] = tree.children.map((inner) => countOf(reading, inner));
      if (whole === undefined || whole === null || over === undefined || over === null) return [];
      return [{ kind: 'angle', value: degreesAndMinutes(whole, over), prior: PRIOR.habit }];
    }
    case 'step': {
      const [inner] = tree.children;
      assert(inner !== undefined, 'a step has its number');
      return [{ kind: 'count', count: natural(reading.words, inner), of: 'step', prior: PRIOR.habit }];
    }
    case 'temperature':
      return temperature(reading, tree);
  }
  throw new Error(`Broken invariant: no meaning is written for <${tree.rule}>`);
}

function temperature(reading: Reading, tree: Tree): Candidate[] {
  const point = child(tree, 'pointed');
  const inPlain = child(tree, 'plain');
  const count = point !== undefined ? pointed(reading, point, 'millimetre', true).value / NM_PER_MM : inPlain === undefined ? null : countOf(reading, inPlain);
  if (count === null) return [];
  const said = reading.words[tree.from] === 'minus' ? -count : count;
  const scale = child(tree, 'scale');
  const named = scale !== undefined;
  const own = (unit: DisplayUnit): number => (named || reading.unit === unit ? PRIOR.habit : PRIOR.rare);
  const inFahrenheit: Candidate = { kind: 'temperature', value: fahrenheit(said, 'half-even'), scale: 'fahrenheit', named, prior: own('inch') };
  const inCelsius: Candidate = { kind: 'temperature', value: celsius(said, 'half-even'), scale: 'celsius', named, prior: own('millimetre') };
  if (!named) return [inFahrenheit, inCelsius];
  return [reading.words[scale.from] === 'fahrenheit' ? inFahrenheit : inCelsius];
}
