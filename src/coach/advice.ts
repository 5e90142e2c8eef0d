import { asLength, chanceBelow, combined, proofOf, type Estimate } from '../trade/index.ts';
import type { InstrumentKind, Length } from '../measure/index.ts';
import type { SizeWindow } from '../route/index.ts';
import { whereToFile, type FileWhere } from './filing.ts';
import { cutTaken, endsOf, engaged, expectedAfter, sizeOf, steadySpread, taperOf, type CutModel } from './cutModel.ts';
import type { Place } from './reading.ts';
import { RISK } from './priors.ts';

/** Why an advice is what it is; each has its one sentence. */
export type Why =
  | 'no-reading-since-the-cut'
  | 'warm-from-roughing'
  | 'caliper-cannot-tell'
  | 'too-near-the-limit'
  | 'ends-may-differ'
  | 'roughing-depth'
  | 'two-equal-passes'
  | 'like-the-cut-before'
  | 'takes-more-than-asked'
  | 'takes-less-than-asked'
  | 'risk-of-going-under'
  | 'thinner-than-the-tool-takes'
  | 'inside-with-uncertainty'
  | 'window-narrower-than-instrument'
  | 'under-for-certain'
  | 'probably-under'
  | 'lost-motion'
  | 'one-end-is-high'
  | 'binds-there'
  | 'left-for-the-file';

/** A size with its spread (one standard deviation), in whole nanometres. */
export type Expected = { readonly size: Length; readonly spread: Length };

/** What to do next at a size that is turned. Cuts are on the part: on the diameter where one is turned. */
export type Advice =
  | {
      readonly kind: 'measure';
      readonly instrument: InstrumentKind;
      readonly place: Place;
      readonly cool: boolean;
      readonly why: Why;
    }
  | {
      readonly kind: 'cut';
      readonly onPart: Length;
      /** How many of these before the next reading, and with them and after them until the size. */
      readonly passes: number;
      readonly passesLeft: number;
      /** One more pass of this depth before the next reading: the first of the two last ones. */
      readonly then: Length | null;
      /** The size expected once they are taken. */
      readonly expected: Expected;
      readonly chanceUnder: number;
      readonly why: Why;
    }
  /** The tool's edge is too far in for any safe cut: back off, touch off again. */
  | { readonly kind: 'touch-off'; readonly why: Why }
  /** Turning is over: about this much to come off by file or cloth. */
  | { readonly kind: 'file'; readonly where: FileWhere; readonly onPart: Length; readonly expected: Expected; readonly why: Why }
  | { readonly kind: 'accept'; readonly expected: Expected; readonly why: Why }
  /** Nothing more can be done or told here: under, or not to be told with the instruments there are. */
  | { readonly kind: 'stop'; readonly expected: Expected; readonly why: Why };

/** What a shop makes of a size beside the machine: how much finishing leaves to file, and what can measure it. */
export type Wishes = {
  readonly window: SizeWindow;
  /** One finishing pass at most, on the part. */
  readonly finishing: Length;
  readonly micrometer: boolean;
  /** False once the tool is put away: what is left comes off by file or cloth. */
  readonly turning: boolean;
  /** The part is warm from roughing and its temperature is not known. */
  readonly warm: boolean;
  /** The end at which it was last felt to bind in its mate. */
  readonly binds: 'chuck-end' | 'free-end' | null;
};

/** How many more readings after the second can still settle anything: the lasting error of the instrument stays. */
const READINGS_AT_MOST = 4;

/** An unmeasured taper of this share of the window, to either side, needs no reading at the other end. */
const STRAIGHT = 0.07;
/** Ends known no better than this share of the window: nothing can be decided yet. */
const UNTOLD = 0.5;
/** A taper of this share of the window is left alone: both ends still find room in it. */
const ALLOWED_TAPER = 0.35;

const expectedOf = ({ mean, spread }: Estimate): Expected => ({
  size: asLength(mean, 'half-even'),
  spread: asLength(spread, 'ceiling'),
});

type Standing = 'conforms' | 'does-not-conform' | 'not-proven';

/**
 * Both ends under the rule of ISO 14253-1: all inside the limits less the guard band (`RISK.acceptance`), one certainly outside,
 * or neither proven.
 */
export function standingOf(model: CutModel, window: SizeWindow): Standing {
  const proofs = endsOf(model).map(({ mean, spread }) =>
    proofOf(asLength(mean, 'half-even'), window, asLength(RISK.acceptance.deviations * spread, 'ceiling')),
  );
  if (proofs.includes('does-not-conform')) return 'does-not-conform';
  return proofs.every((proof) => proof === 'conforms') ? 'conforms' : 'not-proven';
}

/** The chance that both ends lie in the window, each end for itself and the worse of the two taken. */
export const chanceInside = (model: CutModel, { low, high }: SizeWindow): number =>
  Math.min(...endsOf(model).map((end) => chanceBelow(high, end) - chanceBelow(low, end)));

/** The lower end of the journal is the one that goes under first, with what the last cut failed to take on top. */
const lowestAfter = (model: CutModel, asked: number): Estimate => {
  const after = expectedAfter(model, asked);
  const [one, other] = endsOf(model);
  return { mean: after.mean - Math.abs(one.mean - other.mean) / 2 - model.shortfall, spread: after.spread };
};

/**
 * The deepest cut whose chance of going under the low limit is the stated risk, by
 * halving; -1 where even one more pass at the same dial risks more.
 */
export function deepestSafe(model: CutModel, low: Length): number {
  const safe = (asked: number): boolean => {
    const { mean, spread } = lowestAfter(model, asked);
    return mean - RISK.cut.deviations * spread >= low;
  };
  let under = 0;
  let over = Math.max(sizeOf(model).mean - low, 0);
  if (over === 0 || !safe(0)) return -1;
  for (let step = 0; step < 24; step += 1) {
    const middle = (under + over) / 2;
    if (safe(middle)) under = middle;
    else over = middle;
  }
  return under;
}

/** The cut that is expected to end at a size: solved by halving, since what a cut takes depends on it. */
function cutTo(model: CutModel, size: number): number {
  let under = 0;
  let over = Math.max(2 * (sizeOf(model).mean - size), 0);
  for (let step = 0; step < 30; step += 1) {
    const middle = (under + over) / 2;
    if (expectedAfter(model, middle).mean > size) under = middle;
    else over = middle;
  }
  return under;
}

const stepped = (amount: number, step: number): number => Math.floor(amount / step + 1e-6) * step;

/** What to do next. A pure function of what is believed and wished. */
export function advise(model: CutModel, wishes: Wishes): Advice {
  const { window, finishing } = wishes;
  const now = sizeOf(model);
  const fine: InstrumentKind = wishes.micrometer ? 'micrometer' : 'caliper';
  const left = now.mean - window.aim;
  // The last reading decides how near this is; before the first, the plan does.
  const near = left <= 3 * finishing;
  const cool = near && wishes.warm;
  if (model.read === 0)
    return {
      kind: 'measure',
      instrument: near && model.cuts > 0 ? fine : 'caliper',
      place: near ? lessKnownEnd(model) : 'middle',
      cool,
      why: cool ? 'warm-from-roughing' : 'no-reading-since-the-cut',
    };
  if (model.lost && wishes.turning) return { kind: 'touch-off', why: 'lost-motion' };
  if (!near && wishes.turning) return roughing(model, wishes, left);

  const ends = endsOf(model);
  const low = Math.min(...ends.map(({ mean }) => mean));
  const high = Math.max(...ends.map(({ mean }) => mean));
  const again: Advice = { kind: 'measure', instrument: fine, place: lessKnownEnd(model), cool: false, why: 'too-near-the-limit' };
  const standing = standingOf(model, window);
  // Where the taper can only be a small part of the window, one reading is enough.
  const straight = taperOf(model).spread / 2 <= STRAIGHT * (window.high - window.low);
  const bothEnds = straight || !model.cutter.tapers || (model.chuckEndRead && model.freeEndRead);
  if (standing === 'conforms' && bothEnds) return { kind: 'accept', expected: expectedOf(now), why: 'inside-with-uncertainty' };
  if (standing === 'conforms')
    return { kind: 'measure', instrument: fine, place: lessKnownEnd(model), cool: false, why: 'ends-may-differ' };
  if (wishes.micrometer && model.fine === 0 && wide(model, window))
    return { kind: 'measure', instrument: 'micrometer', place: lessKnownEnd(model), cool, why: 'caliper-cannot-tell' };
  if (ends.some(({ mean, spread }) => mean + 2 * spread < window.low))
    return { kind: 'stop', expected: expectedOf(now), why: 'under-for-certain' };
  // A reading that surprised from another end: the other end tells whether it is the taper or the cut.
  if (model.read === 1 && low < window.low && spreadOfEnds(model) > UNTOLD * (window.high - window.low)) return again;

  const cut = wishes.turning ? finishingCut(model, wishes) : null;
  if (cut !== null) return cut;
  if (wishes.micrometer && model.fine === 0)
    return { kind: 'measure', instrument: 'micrometer', place: lessKnownEnd(model), cool, why: 'caliper-cannot-tell' };
  // No cut is both thick enough and safe. Is there still metal to take, or only to be told where it stands?
  if (unsureEnd(model) && model.read < READINGS_AT_MOST) return again;
  if (high + 2 * spreadOfEnds(model) <= window.high || high - window.aim < window.aim - low)
    return model.read < READINGS_AT_MOST
      ? again
      : { kind: 'stop', expected: expectedOf(now), why: low < window.low ? 'probably-under' : 'window-narrower-than-instrument' };
  return filing(model, wishes, low, high);
}

/** What is to come off by file or cloth, and where. */
function filing(model: CutModel, { window, binds, turning }: Wishes, low: number, high: number): Advice {
  const allowed = ALLOWED_TAPER * (window.high - window.low);
  const measured = whereToFile(taperOf(model), allowed, null);
  const where = whereToFile(taperOf(model), allowed, binds);
  // One end that is larger comes down to the other; else the middle of both comes down to the size wanted.
  const off = measured === 'all-along' ? (high + low) / 2 - window.aim : Math.min(high - low, high - window.aim);
  const plain = turning ? 'thinner-than-the-tool-takes' : 'left-for-the-file';
  return {
    kind: 'file',
    where,
    onPart: asLength(Math.max(off, 0), 'half-even'),
    expected: expectedOf({ mean: window.aim, spread: sizeOf(model).spread }),
    why: measured !== 'all-along' ? 'one-end-is-high' : where === 'all-along' ? plain : 'binds-there',
  };
}

const spreadOfEnds = (model: CutModel): number => Math.max(...endsOf(model).map(({ spread }) => spread));
/** An end known so many times worse than the middle is worth a reading; chosen on simulated journals. */
const UNSURE = 1.5;
/** A second reading at the other end would tell much more than the instrument's own error leaves open. */
const unsureEnd = (model: CutModel): boolean => spreadOfEnds(model) > UNSURE * sizeOf(model).spread;
/** The end of the journal that is known less well; the free end where they are known alike. */
const lessKnownEnd = (model: CutModel): Place => {
  const [chuckEnd, freeEnd] = endsOf(model);
  if (model.chuckEndRead !== model.freeEndRead) return model.freeEndRead ? 'chuck-end' : 'free-end';
  return chuckEnd.spread > freeEnd.spread ? 'chuck-end' : 'free-end';
};

/** The caliper's own uncertainty is too much of the window for any decision near it. */
const wide = (model: CutModel, { low, high }: SizeWindow): boolean => sizeOf(model).spread > 0.22 * (high - low);

/**
 * Equal passes down to what two finishing passes take, none deeper than the plan's, and the first of those two: the reading comes
 * after it, so that the last pass is like one that was measured.
 */
function roughing(model: CutModel, { window, finishing }: Wishes, left: number): Advice {
  const { deepest, step } = model.cutter;
  const toTake = left - 2 * finishing;
  const passes = Math.max(1, Math.ceil(toTake / deepest - 1e-9));
  const each = Math.max(step, stepped(toTake / passes, step));
  const then = stepped(finishing, step);
  let after = model;
  for (let pass = 0; pass < passes; pass += 1) after = cutTaken(after, each);
  const expected = expectedAfter(after, then);
  return {
    kind: 'cut',
    onPart: asLength(each, 'half-even'),
    passes,
    passesLeft: passes + 2,
    then: asLength(then, 'half-even'),
    expected: expectedOf(expected),
    chanceUnder: chanceBelow(window.low, expected),
    why: 'roughing-depth',
  };
}

/**
 * The next finishing pass: half of what is left, until a cut like it has been measured; then what is left, corrected by what the
 * cuts take. Never deeper than the risk allows, never thinner than the tool takes: null where there is no such cut. A pass of
 * nothing is one more at the same dial: what the last cut left standing comes off.
 */
function finishingCut(model: CutModel, { window, finishing }: Wishes): Advice | null {
  const { thinnest, step, deepest } = model.cutter;
  const now = sizeOf(model);
  const left = now.mean - window.aim;
  const safe = deepestSafe(model, window.low);
  if (safe < 0) return left > thinnest && engaged(model, 0) > left ? { kind: 'touch-off', why: 'lost-motion' } : null;
  const all = cutTo(model, window.aim);
  const last = expectedAfter(model, Math.min(all, safe));
  // Cut to the end where that ends in the window, or where a cut is already as sure as cuts get here; else halve what is left.
  const ends = last.mean <= window.high - 0.2 * (window.high - window.low);
  const surest = combined([steadySpread(model), now.spread]);
  const one = (ends && last.spread < 0.6 * (window.high - window.low)) || last.spread < 1.35 * surest || left / 2 < 2 * thinnest;
  const wanted = Math.min(one ? all : cutTo(model, now.mean - left / 2), Math.max(deepest, finishing));
  const asked = Math.max(0, stepped(Math.min(wanted, safe), step));
  if (engaged(model, asked) < thinnest) return null;
  const after = expectedAfter(model, asked);
  const taken = now.mean - after.mean;
  const why: Why =
    asked < stepped(wanted, step)
      ? 'risk-of-going-under'
      : !one
        ? 'two-equal-passes'
        : taken > 1.05 * asked
          ? 'takes-more-than-asked'
          : taken < 0.95 * asked
            ? 'takes-less-than-asked'
            : 'like-the-cut-before';
  return {
    kind: 'cut',
    onPart: asLength(asked, 'half-even'),
    passes: 1,
    passesLeft: Math.max(1, Math.round(left / Math.max(taken, 1))),
    then: null,
    expected: expectedOf(after),
    chanceUnder: chanceBelow(window.low, lowestAfter(model, asked)),
    why,
  };
}
