import {
  assert, celsius, degrees, fahrenheit, nanometres, NM_PER_INCH, NM_PER_MICROMETRE, NM_PER_MM, NM_PER_TENTH_THOU, NM_PER_THOU,
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

/** How many of something: "two", "six twenty seven", "two and a half", "a", "half a", "a couple of". */
function howMany(reading: Reading, tree: Tree): number {
  const count = child(tree, 'count');
  const half = child(tree, 'half') !== undefined ? 0.5 : 0;
  if (count !== undefined) return Number(figures(reading.words, [count]).digits) + half;
  if (has(reading, tree, 'couple')) return 2;
  if (half === 0 && has(reading, tree, 'half')) return 0.5;
  return 1 + half;
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
  const whole = child(tree, 'whole');
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

/** "six twenty oh two": the last two words are tenths of a thou, or two more places. */
function hung(reading: Reading, tree: Tree, unit: DisplayUnit): LengthCandidate[] {
  const all = figures(reading.words, tree.children).digits;
  const last = Number(all.slice(-1));
  const before = Number(all.slice(0, -2));
  if (unit === 'inch') {
    return [
      length(before * NM_PER_THOU + last * NM_PER_TENTH_THOU, unit, 4, PRIOR.habit),
      length((Number(all) * NM_PER_INCH) / 10_000, unit, 4, PRIOR.also),
    ];
  }
  return [length(before * NM_PER_MM + (last * NM_PER_MM) / 100, unit, 2, PRIOR.habit)];
}

function thou(reading: Reading, tree: Tree): LengthCandidate {
  const point = child(tree, 'pointed');
  if (point !== undefined) {
    const said = pointed(reading, point, 'inch', true);
    return length(said.value / 1000, 'inch', said.places === null ? null : said.places + 3, PRIOR.habit, true);
  }
  const more = child(tree, 'tenths-more');
  const count = howMany(reading, tree);
  if (more !== undefined) return length(count * NM_PER_THOU + tenthsMore(reading, more) * NM_PER_TENTH_THOU, 'inch', 4, PRIOR.habit, true);
  return length(count * NM_PER_THOU, 'inch', Number.isInteger(count) ? 3 : 4, PRIOR.habit, true);
}

function tenths(reading: Reading, tree: Tree): LengthCandidate {
  const count = howMany(reading, tree);
  const finer = Number.isInteger(count) ? 0 : 1;
  const inch = has(reading, tree, 'thou') || (reading.unit === 'inch' && !has(reading, tree, 'millimetre'));
  return inch
    ? length(count * NM_PER_TENTH_THOU, 'inch', 4 + finer, PRIOR.habit, true)
    : length((count * NM_PER_MM) / 10, 'millimetre', 1 + finer, PRIOR.habit, true);
}

function hundredths(reading: Reading, tree: Tree): LengthCandidate {
  const count = howMany(reading, tree);
  const finer = Number.isInteger(count) ? 0 : 1;
  const unit = reading.unit === 'inch' && !has(reading, tree, 'millimetre') ? 'inch' : 'millimetre';
  return length((count * perUnit(unit)) / 100, unit, 2 + finer, PRIOR.habit, true);
}

/** Millimetres named; "mil" may be a thou where inches are shown, and is left open there. */
function metric(reading: Reading, tree: Tree): LengthCandidate[] {
  const inner = child(tree, 'plain') ?? child(tree, 'pointed');
  const count = howMany(reading, tree);
  const found =
    inner === undefined
      ? [length(count * NM_PER_MM, 'millimetre', Number.isInteger(count) ? 0 : 1, PRIOR.habit, true)]
      : inner.rule === 'plain'
        ? plain({ ...reading, small: false }, inner, 'millimetre', true)
        : [pointed(reading, inner, 'millimetre', true)];
  // "Two millimetres" is whole millimetres: the unit leaves no room for hundredths.
  const whole = found.filter((each) => each.prior >= PRIOR.also);
  if (reading.unit !== 'inch' || !has(reading, tree, 'mil', 'mils')) return whole;
  return whole.flatMap((each) => [
    each,
    length((each.value / NM_PER_MM) * NM_PER_THOU, 'inch', (each.places ?? 0) + 3, PRIOR.habit, true),
  ]);
}

/** Inches named: the whole number is inches, or the figures are a decimal of one. */
function inch(reading: Reading, tree: Tree): LengthCandidate[] {
  const point = child(tree, 'pointed');
  if (point !== undefined) return [pointed(reading, point, 'inch', true)];
  const inner = child(tree, 'plain');
  if (inner === undefined) return [length(NM_PER_INCH, 'inch', 0, PRIOR.habit, true)];
  const whole = plain(reading, inner, 'inch', true);
  // "Six inches" is never six thou: with so few figures the unit is the whole inch.
  const inches = whole.filter((each) => each.places === 0 || (each.places === 1 && child(inner, 'run') !== undefined && child(inner, 'half') !== undefined));
  return inches.length > 0 ? inches.map((each) => ({ ...each, prior: PRIOR.habit })) : whole;
}

/** "One inch three twelve and a half": whole inches, then thousandths. */
function inchAnd(reading: Reading, tree: Tree): LengthCandidate {
  const whole = child(tree, 'whole');
  const thousandths = figures(reading.words, [child(tree, 'core') ?? child(tree, 'lead') ?? tree]).digits;
  const figure = child(tree, 'figure');
  const more = child(tree, 'tenths-more');
  const tail =
    figure !== undefined ? natural(reading.words, figure)
    : more !== undefined ? tenthsMore(reading, more)
    : child(tree, 'half') !== undefined ? 5
    : null;
  const inches = whole === undefined ? 1 : Number(figures(reading.words, [whole]).digits);
  return length(
    inches * NM_PER_INCH + Number(thousandths) * NM_PER_THOU + (tail ?? 0) * NM_PER_TENTH_THOU,
    'inch', tail === null ? 3 : 4, PRIOR.habit, true,
  );
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

function feet(reading: Reading, tree: Tree): LengthCandidate {
  const [first] = tree.children;
  const saidFeet = first !== undefined && (first.rule === 'figure' || first.rule === 'pair') ? natural(reading.words, first) : 1;
  const whole = child(tree, 'whole');
  const mixed = child(tree, 'mixed');
  const fraction = child(tree, 'part');
  const inches =
    mixed !== undefined ? fractionOf(reading, wholeOf(reading, mixed), child(mixed, 'part') ?? mixed, true).value
    : fraction !== undefined ? fractionOf(reading, 0, fraction, true).value
    : whole !== undefined ? Number(figures(reading.words, [whole]).digits) * NM_PER_INCH
    : 0;
  return length(saidFeet * 12 * NM_PER_INCH + inches, 'inch', null, PRIOR.habit, true);
}

function wholeOf(reading: Reading, tree: Tree): number {
  const [first] = tree.children;
  return first === undefined || first.rule === 'part' ? 1 : Number(figures(reading.words, [first]).digits);
}

/** A size or a cut by itself, of every form. */
export function absolute(reading: Reading, tree: Tree): LengthCandidate[] {
  const [form] = tree.children;
  assert(form !== undefined, 'a number has a form');
  switch (form.rule) {
    case 'plain':
      return plain(reading, form, reading.unit, false);
    case 'hung':
      return hung(reading, form, reading.unit);
    case 'pointed':
      return [pointed(reading, form, reading.unit, false)];
    case 'thou':
      return [thou(reading, form)];
    case 'tenths':
      return [tenths(reading, form)];
    case 'hundredths':
      return [hundredths(reading, form)];
    case 'metric':
      return metric(reading, form);
    case 'microns':
      return [length(howMany(reading, form) * NM_PER_MICROMETRE, 'millimetre', 3, PRIOR.habit, true)];
    case 'inch':
      return inch(reading, form);
    case 'inch-and':
      return [inchAnd(reading, form)];
    case 'fraction':
      return fraction(reading, form);
    case 'mixed':
      return [fractionOf(reading, wholeOf(reading, form), child(form, 'part') ?? form, has(reading, form, 'inch', 'inches'))];
    case 'feet':
      return [feet(reading, form)];
  }
  throw new Error(`Broken invariant: no meaning is written for <${form.rule}>`);
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

/** How far off or how much more: "two" is two thou, or two hundredths of a millimetre. */
function amount(reading: Reading, tree: Tree): LengthCandidate[] {
  const [form] = tree.children;
  if (form !== undefined && form.rule !== 'count') {
    const inSmall = { ...reading, small: true };
    if (form.rule === 'pointed') return [pointed(inSmall, form, reading.unit, false)];
    return absolute(inSmall, tree);
  }
  if (form === undefined && !has(reading, tree, 'couple')) return [halfOfOne(reading.unit)];
  const count = howMany(reading, tree);
  const more = child(tree, 'tenths-more');
  if (reading.unit === 'inch') {
    const nm = count * NM_PER_THOU + (more === undefined ? 0 : tenthsMore(reading, more) * NM_PER_TENTH_THOU);
    return [length(nm, 'inch', Number.isInteger(count) && more === undefined ? 3 : 4, PRIOR.habit)];
  }
  if (more !== undefined) return [length(count * NM_PER_MM + (tenthsMore(reading, more) * NM_PER_MM) / 10, 'millimetre', 1, PRIOR.habit)];
  return [
    length((count * NM_PER_MM) / 100, 'millimetre', Number.isInteger(count) ? 2 : 3, PRIOR.habit),
    length(count * NM_PER_MM, 'millimetre', Number.isInteger(count) ? 0 : 1, PRIOR.rare),
  ];
}

/** "Another thou": one of what was named. */
function oneMore(reading: Reading, tree: Tree): LengthCandidate {
  if (has(reading, tree, 'tenth')) return tenths(reading, tree);
  return has(reading, tree, 'hundredth') ? hundredths(reading, tree) : thou(reading, tree);
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
        return absolute(reading, inner).map((each) => ({ ...each, value: round(sign * each.value), signed }));
      });
    }
    case 'offset':
      return amount(reading, child(tree, 'amount') ?? tree).map(({ value, prior }) => ({ kind: 'from-target', by: round(signOf(tree) * value), prior }));
    case 'on-size':
      return [{ kind: 'from-target', by: round(0), prior: PRIOR.habit }];
    case 'same':
      return [{ kind: 'from-last', by: round(0), prior: PRIOR.habit }];
    case 'another':
      return (child(tree, 'one-more') === undefined ? amount(reading, child(tree, 'amount') ?? tree) : [oneMore(reading, tree)]).map(({ value, prior }) => ({ kind: 'from-last', by: round(signOf(tree) * value), prior }));
    case 'half-of-last':
      return [{ kind: 'half-of-last', prior: PRIOR.habit }];
    case 'vague':
      return [{ kind: 'vague', prior: PRIOR.habit }];
    case 'misfit':
      return tree.children.flatMap((inner) => meanings(reading, inner));
    case 'centimetres':
      return [{ kind: 'centimetres', prior: PRIOR.habit }];
    case 'angle': {
      const [first, ...rest] = tree.children;
      assert(first !== undefined, 'an angle has its degrees');
      const whole = first.rule === 'pointed' ? pointed(reading, first, 'millimetre', true).value / NM_PER_MM : howMany(reading, tree);
      const minutes = rest.find((each) => each.rule === 'count');
      const over = minutes === undefined ? 0 : Number(figures(reading.words, [minutes]).digits) / 60;
      return [{ kind: 'angle', value: degrees(whole + over, 'half-even'), prior: PRIOR.habit }];
    }
    case 'tally':
      return [{ kind: 'count', count: howMany(reading, tree), of: 'tally', prior: PRIOR.habit }];
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
  const sign = reading.words[tree.from] === 'minus' ? -1 : 1;
  const said = sign * (point === undefined ? howMany(reading, tree) : pointed(reading, point, 'millimetre', true).value / NM_PER_MM);
  const scale = child(tree, 'scale');
  const scaleWord = scale === undefined ? null : reading.words[scale.from];
  const inFahrenheit: Candidate = { kind: 'temperature', value: fahrenheit(said, 'half-even'), scale: 'fahrenheit', named: scale !== undefined, prior: reading.unit === 'inch' || scale !== undefined ? PRIOR.habit : PRIOR.rare };
  const inCelsius: Candidate = { kind: 'temperature', value: celsius(said, 'half-even'), scale: 'celsius', named: scale !== undefined, prior: reading.unit === 'millimetre' || scale !== undefined ? PRIOR.habit : PRIOR.rare };
  if (scaleWord === 'fahrenheit') return [inFahrenheit];
  if (scaleWord !== null) return [inCelsius];
  return [inFahrenheit, inCelsius];
}
