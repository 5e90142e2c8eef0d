import {
  assert, celsius, degrees, degreesAndMinutes, fahrenheit, nanometres, NM_PER_INCH, NM_PER_MICROMETRE, NM_PER_MM, NM_PER_TENTH_THOU, NM_PER_THOU,
  sixtyFourths, type DisplayUnit, type Length,
} from '../measure/index.ts';
import { PRIOR, type Candidate, type LengthCandidate } from './candidate.ts';
import { child, figures, natural } from './figures.ts';
import { placements, type Counting } from './placements.ts';
import type { Tree } from './walk.ts';

/** What the words of one number are read against: the shop's unit, and what the figures are of. */
export type Reading = { readonly words: readonly string[]; readonly unit: DisplayUnit; readonly counting: Counting };

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
  for (const { places, prior } of placements(shape, unit, reading.counting)) {
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

/** A number said with its point, with what hangs on it. One value, for the words leave nothing open. */
function pointed(reading: Reading, tree: Tree, unit: DisplayUnit, named: boolean): LengthCandidate {
  const whole = child(tree, 'run');
  const point = child(tree, 'pointed');
  const places = point === undefined ? undefined : child(point, 'places');
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
function hung(reading: Reading, run: Tree, tree: Tree): LengthCandidate[] {
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
  const isPointed = child(tree, 'pointed') !== undefined;
  const unit = child(tree, 'unit');
  const bare = (as: DisplayUnit, named: boolean): LengthCandidate[] =>
    isPointed ? [pointed(reading, tree, as, named)] : plain(named ? { ...reading, counting: 'size' } : reading, tree, as, named);
  if (unit === undefined) return bare(reading.unit, false);
  const kind = unit.children[0]?.rule ?? 'micron-word';
  if (kind === 'inch-word') return inchNamed(bare('inch', true));
  // "Two millimetres" is whole millimetres: the unit leaves no room for hundredths.
  if (kind === 'metric-word') return withMil(reading, unit, bare('millimetre', true).filter(({ prior }) => prior >= PRIOR.also));
  if (kind === 'misfit-word' && has(reading, unit, 'centimetre', 'centimetres')) return [{ kind: 'centimetres', prior: PRIOR.habit }];
  if (kind === 'thou-word' && isPointed) {
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
function inchAnd(reading: Reading, inches: number, tree: Tree): LengthCandidate {
  const thousandths = figures(reading.words, [child(tree, 'core') ?? child(tree, 'lead') ?? tree]).digits;
  const figure = child(tree, 'figure');
  const more = child(tree, 'tenths-more');
  const tail =
    figure !== undefined ? natural(reading.words, figure)
    : more !== undefined ? tenthsMore(reading, more)
    : child(tree, 'half') !== undefined ? 5
    : null;
  const nm = inches * NM_PER_INCH + Number(thousandths) * NM_PER_THOU + (tail ?? 0) * NM_PER_TENTH_THOU;
  return length(nm, 'inch', tail === null ? 3 : 4, PRIOR.habit, true);
}

const SIXTY_FOURTHS_OF: Readonly<Record<string, number>> = { half: 32, quarter: 16, fourth: 16, eighth: 8, sixteenth: 4, thirty: 2, sixty: 1 };

/**
 * Whole units and so many parts of one. Halves and quarters are of the shop's unit unless an inch is named; finer parts are
 * always of an inch. No parts, no number: "six twenty eighths" is none.
 */
function fractionOf(reading: Reading, whole: number, over: number | null, under: Tree, named: boolean): LengthCandidate[] {
  const part = SIXTY_FOURTHS_OF[(reading.words[under.from] ?? '').replace(/s$/, '')];
  assert(part !== undefined, `"${reading.words[under.from] ?? ''}" is a part of an inch`);
  if (over === null || over * part >= 64 * 64) return [];
  const inch = named || part < 16 || reading.unit === 'inch';
  const nm = inch ? whole * NM_PER_INCH + sixtyFourths(over * part) : whole * NM_PER_MM + (over * part * NM_PER_MM) / 64;
  return [length(nm, inch ? 'inch' : 'millimetre', null, PRIOR.habit, named || part < 16)];
}

/** A `<part>` after whole units: "five sixteenths", "a quarter", "half". */
function partOf(reading: Reading, whole: number, tree: Tree, named: boolean): LengthCandidate[] {
  const under = child(tree, 'under') ?? child(tree, 'one-part');
  assert(under !== undefined, 'a fraction has its parts');
  const over = child(tree, 'over')?.children[0];
  return fractionOf(reading, whole, over === undefined ? 1 : natural(reading.words, over), under, named);
}

function feet(reading: Reading, whole: number, tree: Tree): LengthCandidate[] {
  const inches = child(tree, 'figure') ?? child(tree, 'pair');
  const part = child(tree, 'part');
  const more = inches === undefined ? 0 : natural(reading.words, inches);
  const said = part === undefined ? [length(more * NM_PER_INCH, 'inch', null, PRIOR.habit, true)] : partOf(reading, more, part, true);
  return said.map((inch) => ({ ...inch, value: round(whole * 12 * NM_PER_INCH + inch.value) }));
}

/** Figures, and what their last words make of them. */
function fromFigures(reading: Reading, tree: Tree): Candidate[] {
  const [run, after] = tree.children;
  assert(run !== undefined, 'figures come first');
  const whole = counted(reading, run);
  switch (after?.rule) {
    case 'hung':
      return hung(reading, run, after);
    case 'thou-and': {
      const more = child(after, 'tenths-after');
      return whole === null ? [] : [ofThou(whole + (more === undefined ? 0.5 : tenthsMore(reading, more) / 10))];
    }
    case 'inch-and':
      return whole === null ? [] : [inchAnd(reading, whole, after)];
    case 'and-part': {
      const part = child(after, 'part');
      // Nobody says hundreds of inches and a fraction; "six twenty seven and a half" is thousandths.
      if (whole === null || part === undefined || (whole >= 100 && reading.unit === 'inch')) return [];
      return partOf(reading, whole, part, child(after, 'inch-word') !== undefined);
    }
    case 'under':
      return fractionOf(reading, 0, whole, after, child(tree, 'of-an-inch') !== undefined);
    case 'feet':
      return whole === null ? [] : feet(reading, whole, after);
    case undefined:
    case 'pointed':
    case 'half':
    case 'tenths-more':
    case 'unit':
      return countedIn(reading, tree);
  }
  throw new Error(`Broken invariant: no meaning is written for <${after?.rule}> after figures`);
}

/** A size or a cut by itself, of every form. */
function absolute(reading: Reading, tree: Tree): Candidate[] {
  const [form] = tree.children;
  assert(form !== undefined, 'a number has a form');
  switch (form.rule) {
    case 'figures':
      return fromFigures(reading, form);
    case 'point-first':
      return countedIn(reading, form);
    case 'part-first':
      return partFirst(reading, form);
    case 'inch-first': {
      const more = child(form, 'inch-and');
      const part = child(form, 'part');
      return more !== undefined ? [inchAnd(reading, 1, more)] : part !== undefined ? partOf(reading, 1, part, true) : [];
    }
    case 'foot-first':
      return feet(reading, 1, child(form, 'feet') ?? form);
    case 'single':
      return single(reading, form);
  }
  throw new Error(`Broken invariant: no meaning is written for <${form.rule}>`);
}

/** "a quarter", "half an inch". "A half" of a cut is half a thou, or half a hundredth. */
function partFirst(reading: Reading, tree: Tree): LengthCandidate[] {
  const under = child(tree, 'one-part');
  assert(under !== undefined, 'a fraction has its parts');
  const found = fractionOf(reading, 0, 1, under, child(tree, 'of-an-inch') !== undefined);
  if (reading.counting === 'size' || !has(reading, under, 'half')) return found;
  return [halfOfOne(reading.unit), ...found.map((said) => (said.named ? said : { ...said, prior: PRIOR.rare }))];
}

/** Half of what small amounts are counted in: a thou, or a hundredth of a millimetre. */
const halfOfOne = (unit: DisplayUnit): LengthCandidate =>
  unit === 'inch' ? length(NM_PER_THOU / 2, unit, 4, PRIOR.habit) : length(NM_PER_MM / 200, unit, 3, PRIOR.habit);

/** How far off or how much more: "two" is two thou, or two hundredths of a millimetre. What is no length is no amount. */
function amount(reading: Reading, tree: Tree): LengthCandidate[] {
  const inner = child(tree, 'figures');
  const bare = inner !== undefined && inner.children.every(({ rule }) => rule === 'run' || rule === 'half' || rule === 'tenths-more');
  if (inner === undefined || !bare) return absolute({ ...reading, counting: 'cut' }, tree).flatMap((said) => (said.kind === 'length' ? [said] : []));
  const total = countOf(reading, inner);
  if (total === null) return [];
  if (reading.unit === 'inch') return [{ ...ofThou(total), named: false }];
  if (child(inner, 'tenths-more') !== undefined) return [each(total, NM_PER_MM, 'millimetre', 0)];
  return [each(total, NM_PER_MM / 100, 'millimetre', 2), { ...each(total, NM_PER_MM, 'millimetre', 0), prior: PRIOR.stretch }];
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
      const [whole, over] = tree.children;
      assert(whole !== undefined && over !== undefined, 'an angle has degrees and minutes');
      return [{ kind: 'angle', value: degreesAndMinutes(natural(reading.words, whole), natural(reading.words, over)), prior: PRIOR.habit }];
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
  const [whole, after] = tree.children;
  assert(whole !== undefined, 'a temperature has its degrees');
  const part = after?.rule === 'figure' ? natural(reading.words, after) / 10 : after?.rule === 'half' ? 0.5 : 0;
  const count = natural(reading.words, whole) + part;
  const said = reading.words[tree.from] === 'minus' ? -count : count;
  const scale = child(tree, 'scale');
  const named = scale !== undefined;
  const own = (unit: DisplayUnit): number => (named || reading.unit === unit ? PRIOR.habit : PRIOR.rare);
  const inFahrenheit: Candidate = { kind: 'temperature', value: fahrenheit(said, 'half-even'), scale: 'fahrenheit', named, prior: own('inch') };
  const inCelsius: Candidate = { kind: 'temperature', value: celsius(said, 'half-even'), scale: 'celsius', named, prior: own('millimetre') };
  if (!named) return [inFahrenheit, inCelsius];
  return [reading.words[scale.from] === 'fahrenheit' ? inFahrenheit : inCelsius];
}
