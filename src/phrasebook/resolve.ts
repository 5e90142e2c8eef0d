import {
  assert,
  inches,
  larger,
  magnitude,
  millimetres,
  minus,
  nanometres,
  plus,
  scaled,
  smaller,
  toCelsius,
  zero,
  type DisplayUnit,
  type InstrumentKind,
  type Length,
  type Temperature,
} from '../measure/index.ts';
import type { Context, Heard, NumberRefusal, NumberSlot } from '../job/index.ts';
import type { Candidate } from './candidate.ts';

/** The numbers of the rule of docs/numbers.md, in one place. */
export const RESOLVE = {
  /** How far about the window, the last reading and the size before a reading is still expected: this share of the size … */
  expectedShare: 0.15,
  /** … or this much, whichever is more. */
  expectedLeast: { inch: inches(0.02), millimetre: millimetres(0.5) },
  /** Of two expected readings, one this much rarer than the other is not asked about. */
  rarerWhenExpected: 0.05,
  /** The same where nothing tells the two apart. */
  rarerWhenNot: 0.25,
  /** A reading that is expected but hardly ever said so is asked about. */
  hardlySaid: 0.1,
  /** Over the stock by no more than this is still read: the stock is never exactly what it is said to be. */
  overStock: 1.1,
  /** A last reading older than this many milliseconds (8 h) says nothing about the next. */
  lastGoesStale: 8 * 3_600_000,
  /** The most that a cut or the dial may be, and an indicator either way. */
  mostCut: { inch: inches(0.25), millimetre: millimetres(5) },
  mostDial: { inch: inches(1), millimetre: millimetres(10) },
  mostIndicator: { inch: inches(0.5), millimetre: millimetres(10) },
  mostCoordinate: { inch: inches(60), millimetre: millimetres(1500) },
  /** What is over the stock is still understood up to here, so that it can be asked about; further out it is no reading. */
  farthest: { inch: inches(60), millimetre: millimetres(1500) },
  /** Over or under by more than this share of what is wanted, and by more than this, is no way to say a size. */
  mostOffsetShare: 0.5,
  mostOffset: { inch: inches(0.1), millimetre: millimetres(2.5) },
  /** Degrees Celsius between which work in the shop is; a scale that was not named is taken only inside them. */
  temperatures: { low: 0, high: 120, unnamedOther: { low: 5, high: 60 } },
} as const;

/**
 * Decimal places that an instrument can show, by unit. One half more than the marks is allowed where people estimate it.
 * Common practice, no source.
 */
const PLACES: Readonly<Record<InstrumentKind, Readonly<Record<DisplayUnit, number>>>> = {
  caliper: { inch: 4, millimetre: 2 },
  micrometer: { inch: 4, millimetre: 3 },
  'telescoping-gauge': { inch: 4, millimetre: 3 },
  'depth-micrometer': { inch: 4, millimetre: 3 },
  rule: { inch: 3, millimetre: 1 },
  indicator: { inch: 4, millimetre: 3 },
  readout: { inch: 4, millimetre: 3 },
};
const WITHOUT_INSTRUMENT: Readonly<Record<DisplayUnit, number>> = { inch: 4, millimetre: 3 };

/**
 * Decimal places that a size may be said with here. An own instrument with a finer step than usual shows as many as its step has,
 * and no more than the page does; one with a coarser step takes none away, for tenths are estimated between its marks.
 */
function placesIn({ instrument, ownSteps }: Context, unit: DisplayUnit): number {
  if (instrument === null) return WITHOUT_INSTRUMENT[unit];
  const step = ownSteps[instrument];
  const usual = PLACES[instrument][unit];
  if (step === undefined) return usual;
  const one = unit === 'inch' ? inches(1) : millimetres(1);
  const ofStep = Math.ceil(Math.log10(one / step));
  return Math.max(usual, Math.min(ofStep, WITHOUT_INSTRUMENT[unit]));
}

type Weighed<T> = { readonly value: T; readonly prior: number };

const none = <T>(reason: NumberRefusal): Heard<T> => ({ as: 'none', reason });

/** The last reading, where it is fresh enough to say something about the next. */
const freshLast = (context: Context): Length | null =>
  context.last !== null && context.now - context.last.at <= RESOLVE.lastGoesStale ? context.last.value : null;

/** One candidate for each value, with the best prior that any reading gave it; the likelier first, then the smaller. */
function distinct<T extends number>(weighed: readonly Weighed<T>[]): Weighed<T>[] {
  const best = new Map<T, number>();
  for (const { value, prior } of weighed) best.set(value, Math.max(prior, best.get(value) ?? 0));
  return [...best].map(([value, prior]) => ({ value, prior })).sort((a, b) => b.prior - a.prior || a.value - b.value);
}

/** One of them, or a question between the first two where the second is not much rarer. */
function settle<T>(sorted: readonly Weighed<T>[], rarer: number): Heard<T> {
  const [first, second] = sorted;
  assert(first !== undefined, 'there is something to settle');
  if (second === undefined || second.prior < rarer * first.prior) return { as: 'one', value: first.value };
  return { as: 'either', values: [first.value, second.value] };
}

/** Where the next reading is expected to lie; null where nothing is known. */
function expectedRange(context: Context): { readonly low: Length; readonly high: Length } | null {
  const known = [context.window?.low, context.window?.high, context.from, freshLast(context)].filter(
    (each) => each !== null && each !== undefined,
  );
  const [first, ...rest] = known;
  if (first === undefined) return null;
  const low = rest.reduce(smaller, first);
  const high = rest.reduce(larger, first);
  const about = scaled(context.window?.aim ?? first, RESOLVE.expectedShare, 'half-even');
  const margin = larger(magnitude(about), RESOLVE.expectedLeast[context.unit]);
  return { low: minus(low, margin), high: plus(high, margin) };
}

/** What is possible at all for a number of that kind, and what is expected; both ends count. */
function limits(
  slot: NumberSlot,
  context: Context,
): { low: Length; high: Length; beyond: Length; expected: { low: Length; high: Length } | null } {
  const last = freshLast(context);
  const unit = context.unit;
  switch (slot) {
    case 'depth-of-cut':
    case 'dial': {
      // No more can be taken than there is between what was there and the low limit; a little over is still believed.
      const before = last ?? context.from;
      const left = before === null || context.window === null ? null : larger(minus(before, context.window.low), zero);
      const most = slot === 'dial' ? RESOLVE.mostDial[unit] : RESOLVE.mostCut[unit];
      const expected =
        left === null || slot === 'dial'
          ? null
          : {
              low: zero,
              high: plus(
                left,
                larger(scaled(left, RESOLVE.expectedShare, 'half-even'), scaled(RESOLVE.expectedLeast[unit], 0.5, 'half-even')),
              ),
            };
      return { low: zero, high: most, beyond: most, expected };
    }
    case 'indicator': {
      const most = RESOLVE.mostIndicator[unit];
      return { low: nanometres(-most), high: most, beyond: most, expected: null };
    }
    case 'coordinate': {
      const most = RESOLVE.mostCoordinate[unit];
      return { low: nanometres(-most), high: most, beyond: most, expected: null };
    }
    case 'size':
    case 'step':
    case 'count':
    case 'temperature': {
      const farthest = RESOLVE.farthest[unit];
      const high =
        context.largest === null ? farthest : smaller(scaled(context.largest, RESOLVE.overStock, 'half-even'), farthest);
      return { low: zero, high, beyond: farthest, expected: expectedRange(context) };
    }
  }
}

const farOffset = (aim: Length, unit: DisplayUnit): Length =>
  larger(scaled(magnitude(aim), RESOLVE.mostOffsetShare, 'half-even'), RESOLVE.mostOffset[unit]);

/** Candidates as lengths: those against the target or the last reading are worked out, those of another kind are left out. */
type Found = {
  readonly found: readonly Weighed<Length>[];
  readonly finer: readonly Length[];
  readonly trouble: NumberRefusal | null;
};
function lengthsOf(candidates: readonly Candidate[], slot: NumberSlot, context: Context): Found {
  const found: Weighed<Length>[] = [];
  const finer: Length[] = [];
  let trouble: NumberRefusal | null = null;
  const most = (unit: DisplayUnit): number => (slot === 'size' ? placesIn(context, unit) : WITHOUT_INSTRUMENT[unit]);
  const last = freshLast(context);
  for (const candidate of candidates) {
    switch (candidate.kind) {
      case 'length':
        if (candidate.places !== null && candidate.places > most(candidate.unit)) {
          trouble ??= 'finer-than-instrument';
          finer.push(candidate.value);
        } else if (candidate.signed && slot === 'size') trouble ??= 'not-a-number-here';
        else found.push(candidate);
        break;
      case 'from-target':
        if (context.window === null) trouble ??= 'no-target';
        else if (magnitude(candidate.by) > farOffset(context.window.aim, context.unit)) trouble ??= 'not-a-number-here';
        else found.push({ value: plus(context.window.aim, candidate.by), prior: candidate.prior });
        break;
      case 'from-last':
        if (last === null) trouble ??= 'no-last-reading';
        else found.push({ value: plus(last, candidate.by), prior: candidate.prior });
        break;
      case 'half-of-last':
        if (last === null) trouble ??= 'no-last-reading';
        else found.push({ value: scaled(last, 0.5, 'half-even'), prior: candidate.prior });
        break;
      case 'vague':
      case 'centimetres':
        trouble ??= candidate.kind;
        break;
      case 'temperature':
      case 'angle':
      case 'count':
        trouble ??= 'not-a-number-here';
        break;
    }
  }
  return { found, finer, trouble };
}

/**
 * What a length said in a slot comes to, by the rule of docs/numbers.md: one value, a question between two that are both
 * plausible, or none with the reason.
 */
export function resolveLength(candidates: readonly Candidate[], slot: NumberSlot, context: Context): Heard<Length> {
  const { found, finer, trouble } = lengthsOf(candidates, slot, context);
  if (found.length === 0) return none(trouble ?? 'no-number');
  const { low, high, beyond, expected } = limits(slot, context);
  const all = distinct(found);
  const isExpected = (value: Length): boolean => expected !== null && value >= expected.low && value <= expected.high;
  // Nothing is measured as nought, unless nought is what is expected.
  const possible = all.filter(
    ({ value }) => value >= low && value <= high && (value !== 0 || slot !== 'size' || expected === null || isExpected(value)),
  );
  // What was said fits what is expected, but no such instrument shows it: better refused than taken for something else.
  if (finer.some(isExpected) && !possible.some(({ value }) => isExpected(value))) return none('finer-than-instrument');
  if (possible.length === 0) {
    const near = all.filter(({ value }) => value > high && value <= beyond);
    return near.length === 0 ? none('outside-everything') : settle(near, RESOLVE.rarerWhenNot);
  }
  const within = possible.filter(({ value }) => isExpected(value));
  const [best] = within;
  if (best === undefined) return settle(possible, RESOLVE.rarerWhenNot);
  if (best.prior >= RESOLVE.hardlySaid) return settle(within, RESOLVE.rarerWhenExpected);
  const other = possible.find(({ value }) => value !== best.value);
  return other === undefined ? { as: 'one', value: best.value } : { as: 'either', values: [best.value, other.value] };
}

/** What a step number comes to: a step that is there, else the number as it was said, for the job to say how far steps go. */
export function resolveStep(candidates: readonly Candidate[], context: Context): Heard<number> {
  const counts = candidates.flatMap((each) =>
    each.kind === 'count' && each.of === 'step' ? [{ value: each.count, prior: each.prior }] : [],
  );
  if (counts.length === 0) return none(candidates.length === 0 ? 'no-number' : 'not-a-number-here');
  const possible = distinct(counts).filter(({ value }) => value >= 1 && value <= context.steps);
  return settle(possible.length === 0 ? distinct(counts) : possible, RESOLVE.rarerWhenNot);
}

/** What a whole number of anything but steps comes to: an angle, holes, turns. */
export function resolveCount(candidates: readonly Candidate[]): Heard<number> {
  const counts = candidates.flatMap((each) => (each.kind === 'count' ? [{ value: each.count, prior: each.prior }] : []));
  if (counts.length === 0) return none(candidates.length === 0 ? 'no-number' : 'not-a-number-here');
  return settle(distinct(counts), RESOLVE.rarerWhenNot);
}

/** What a temperature comes to; one without its scale is in the shop's own unless that cannot be. */
export function resolveTemperature(candidates: readonly Candidate[], context: Context): Heard<Temperature> {
  const { low, high, unnamedOther } = RESOLVE.temperatures;
  const own = context.unit === 'inch' ? 'fahrenheit' : 'celsius';
  const said = candidates.flatMap((each) => (each.kind === 'temperature' ? [each] : []));
  if (said.length === 0) return none(candidates.length === 0 ? 'no-number' : 'not-a-number-here');
  const between = (value: Temperature, from: number, to: number): boolean => toCelsius(value) >= from && toCelsius(value) <= to;
  const named = said.filter((each) => (each.named || each.scale === own) && between(each.value, low, high));
  const other = said.filter(
    (each) => !each.named && each.scale !== own && between(each.value, unnamedOther.low, unnamedOther.high),
  );
  const possible = distinct(named.length > 0 ? named : other);
  return possible.length === 0 ? none('outside-everything') : settle(possible, RESOLVE.rarerWhenNot);
}
