import { INSTRUMENTS, type InstrumentKind, type Instruments, type Length } from '../measure/index.ts';
import {
  asLength,
  believed,
  changed,
  combined,
  fromLimits,
  independent,
  seen,
  shifted,
  type Belief,
  type Estimate,
  type Weights,
} from '../trade/index.ts';
import type { FileWhere } from './filing.ts';
import { PRIOR } from './priors.ts';
import { budgetOf, type Place, type SizeReading } from './reading.ts';

/** The lathe and its tool, as far as a cut depends on them. All on the part: on the diameter where one is turned. */
export type Cutter = {
  /** The least that the hand-wheel can be set to, on the part: half a division, split by eye. */
  readonly step: Length;
  /** One whole turn of the hand-wheel, on the part. */
  readonly turn: Length;
  /** The deepest cut, and the thinnest that the tool still takes. */
  readonly deepest: Length;
  readonly thinnest: Length;
  /** A journal has two ends that may differ; a length has not. */
  readonly tapers: boolean;
  /** Expansion of the part in 1e-6/K. */
  readonly perK: number;
};

/**
 * What is believed of a size and of the cuts that make it (docs/coach.md).
 * Invariants: the belief holds, in this order, the size in the middle at 20 °C (nm), its growth from the chuck end to the free
 * end (nm), the edge: the size that the tool would cut if nothing gave way (nm), the scale of the dial, the spring, and the
 * lasting errors of coarse and fine instruments (nm). `read` and `fine` count the readings since the last cut, all and by
 * micrometer. `short` says that the last cut took much less than it should.
 */
export type CutModel = {
  readonly cutter: Cutter;
  readonly instruments: Instruments;
  readonly belief: Belief;
  readonly lastAsked: number | null;
  /** How deep the last cut went in, as it was expected to. */
  readonly lastDepth: number | null;
  /** The size as it was believed before the last cut. */
  readonly before: number | null;
  readonly cuts: number;
  readonly read: number;
  readonly fine: number;
  readonly short: boolean;
  /** What the last cut left standing beyond what its spread explains, in nm: it may come off with the next one. */
  readonly shortfall: number;
  /** Twice in a row it took much less: where the edge is, nobody knows. */
  readonly lost: boolean;
  /** What file or cloth was expected to take since the last reading, in nm; 0 after a cut. */
  readonly filing: number;
  readonly lastPlace: Place | null;
  /** Which ends were read since the last cut. */
  readonly chuckEndRead: boolean;
  readonly freeEndRead: boolean;
};

const SIZE = 0;
const TAPER = 1;
const EDGE = 2;
const SCALE = 3;
const SPRING = 4;
const COARSE = 5;
const FINE = 6;
const COUNT = 7;

const weights = (...pairs: readonly (readonly [index: number, weight: number])[]): Weights => {
  const all = new Array<number>(COUNT).fill(0);
  for (const [index, weight] of pairs) all[index] = weight;
  return all;
};

const mean = ({ belief }: CutModel, index: number): number => belief.means[index] ?? 0;

/** A model before the first reading: the size as the plan has it, all else by the prior. */
export function startModel(cutter: Cutter, size: Estimate, instruments: Instruments = INSTRUMENTS): CutModel {
  const at = asLength(size.mean, 'half-even');
  const separate = independent([
    size,
    { mean: 0, spread: cutter.tapers ? PRIOR.taperNm : 0 },
    { mean: 0, spread: PRIOR.touchedOffNm },
    { mean: 0, spread: PRIOR.scale },
    { mean: PRIOR.spring.mean, spread: PRIOR.spring.spread },
    { mean: 0, spread: fromLimits(instruments.caliper.permissibleError(at)) },
    { mean: 0, spread: fromLimits(instruments.micrometer.permissibleError(at)) },
  ]);
  // The edge stands where the work is, give or take how well it was touched off.
  const belief = changed(separate, EDGE, weights([SIZE, 1]), 0, 0);
  return {
    cutter,
    instruments,
    belief,
    lastAsked: null,
    lastDepth: null,
    before: null,
    cuts: 0,
    read: 0,
    fine: 0,
    short: false,
    shortfall: 0,
    lost: false,
    filing: 0,
    lastPlace: null,
    chuckEndRead: false,
    freeEndRead: false,
  };
}

/** The model after the tool was touched off anew: the edge is where the size is. */
export function touchedOff(model: CutModel): CutModel {
  const belief = changed(model.belief, EDGE, weights([EDGE, -1], [SIZE, 1]), 0, PRIOR.touchedOffNm);
  return { ...model, belief, short: false, shortfall: 0, lost: false };
}

/** Where a place lies from the middle, in lengths of the journal. */
const ALONG: Readonly<Record<Place, number>> = { 'chuck-end': -0.5, middle: 0, 'free-end': 0.5, anywhere: 0 };

const isFine = (instrument: InstrumentKind | null): boolean => instrument === 'micrometer';

/** How deep the tool goes into the work at a cut that is asked for: what was left standing before comes on top. */
export const engaged = (model: CutModel, asked: number): number => Math.max(mean(model, SIZE) - mean(model, EDGE) + asked, 0);

/** Standard deviation of the size about where a cut of this depth should leave it, in nm: setting, slides, depth, rubbing. */
function cutSpread({ cutter }: CutModel, depth: number): number {
  const rubbing = depth < cutter.thinnest ? PRIOR.rubbingShare * depth : 0;
  return combined([PRIOR.settingShare * 2 * cutter.step, PRIOR.slidesNm, PRIOR.depthShare * depth, rubbing]);
}

/** The same of a shallow cut that the tool takes well: no cut here is surer. */
export const steadySpread = (model: CutModel): number => cutSpread(model, 2 * model.cutter.thinnest);

/** How far the taper may change with a cut, in nm: work that springs away more at the free end is cut less there. */
const taperSpread = ({ lastDepth, cutter }: CutModel, depth: number): number =>
  cutter.tapers ? combined([PRIOR.taperDriftNm, PRIOR.taperShare * Math.abs(depth - (lastDepth ?? depth))]) : 0;

/** The size in the middle at 20 °C after a cut that is asked for, on the part: edge − a·(1 + g) + κ·depth, with its spread. */
export function expectedAfter(model: CutModel, asked: number): Estimate {
  const depth = engaged(model, asked);
  if (depth === 0) return sizeOf(model);
  const after = believed(model.belief, weights([EDGE, 1], [SCALE, -asked], [SPRING, depth]));
  return { mean: after.mean - asked, spread: combined([after.spread, PRIOR.driftNm, cutSpread(model, depth)]) };
}

/** The model after a cut has been taken. The edge drifts a little with every cut, as the tool wears and the slides warm. */
export function cutTaken(model: CutModel, asked: number): CutModel {
  const depth = engaged(model, asked);
  const fed = changed(model.belief, EDGE, weights([SCALE, -asked]), -asked, PRIOR.driftNm);
  const bent = changed(fed, TAPER, weights(), 0, taperSpread(model, depth));
  const belief =
    depth === 0 ? fed : changed(bent, SIZE, weights([SIZE, -1], [EDGE, 1], [SPRING, depth]), 0, cutSpread(model, depth));
  return {
    ...model,
    belief,
    lastAsked: asked,
    lastDepth: depth,
    before: mean(model, SIZE),
    cuts: model.cuts + 1,
    read: 0,
    fine: 0,
    filing: 0,
    chuckEndRead: false,
    freeEndRead: false,
  };
}

/** The model after metal came off by file or cloth: about `removed`, give or take `spread`, at one end alone or all along. */
export function filedOff(model: CutModel, where: FileWhere, removed: number, spread: number): CutModel {
  const belief = shifted(model.belief, FILED[where], -removed, spread);
  return { ...model, belief, before: mean(model, SIZE), read: 0, fine: 0, filing: removed };
}

/** What filing changes: one end alone takes half of it off the middle, and tilts. */
const FILED: Readonly<Record<FileWhere, Weights>> = {
  'all-along': weights([SIZE, 1]),
  'free-end': weights([SIZE, 0.5], [TAPER, 1]),
  'chuck-end': weights([SIZE, 0.5], [TAPER, -1]),
};

/**
 * The model before a confirmed reading that it did not expect, `by` nm larger than it should be.
 *
 * - At another place than the reading before, the taper may not be what it was thought to be; a second reading since the cut
 *   says nothing else.
 * - A cut that took too little may have lost its way in the backlash, and the rest comes with the next one: the edge is left
 *   where it was, until it happens twice.
 * - One that took too much was dialled so: the edge moves with the size.
 */
export function shaken(model: CutModel, reading: SizeReading, by: number): CutModel {
  const spread = Math.abs(by);
  const elsewhere = reading.place !== model.lastPlace;
  const bent = elsewhere ? shifted(model.belief, weights([TAPER, 1]), 0, 2 * spread) : model.belief;
  if (model.read > 0 && elsewhere) return { ...model, belief: bent };
  const moved = shifted(bent, weights([SIZE, 1]), 0, spread);
  if (model.read > 0) return { ...model, belief: moved };
  if (by > 0 && !model.short) return { ...model, belief: moved, short: true };
  // The edge stands under the size by what the spring has left of the last cut, wherever both have gone.
  const under = weights([EDGE, -1], [SIZE, 1], [SPRING, -(model.lastDepth ?? 0)]);
  return { ...model, belief: changed(moved, EDGE, under, 0, PRIOR.touchedOffNm), short: by > 0, lost: by > 0 };
}

const readingWeights = (reading: SizeReading): Weights =>
  weights([SIZE, 1], [TAPER, ALONG[reading.place]], [isFine(reading.instrument) ? FINE : COARSE, 1]);

/** What of a reading passes from one to the next, in nm; warmth and an unnamed place are part of it. */
function passing(model: CutModel, { instrument, value, place, warmth }: SizeReading): number {
  const { lasting, passing: own } = budgetOf(instrument, value, model.instruments);
  const foreign = instrument === 'caliper' || instrument === 'micrometer' || instrument === null ? 0 : lasting;
  const unplaced = place === 'anywhere' ? PRIOR.unplacedShare * taperOf(model).spread : 0;
  return combined([own, foreign, unplaced, model.cutter.perK * 1e-6 * value * warmth.spread]);
}

/** A reading brought to 20 °C: L/(1 + α·ΔT), in nm. */
const cold = (model: CutModel, { value, warmth }: SizeReading): number => value / (1 + model.cutter.perK * 1e-6 * warmth.kelvin);

/** What a reading at this place with this instrument is expected to show, brought to 20 °C; and what it shows. */
export function expectedReading(model: CutModel, reading: SizeReading): Estimate & { readonly got: number } {
  const expected = believed(model.belief, readingWeights(reading));
  return { mean: expected.mean, spread: combined([expected.spread, passing(model, reading)]), got: cold(model, reading) };
}

/** From here on a cut that took too little is not put down to its own spread alone: in standard deviations, and in nm. */
const SHORT = { deviations: 1.5, nm: 15_000 } as const;

/** The model after a reading. */
export function sizeRead(model: CutModel, reading: SizeReading): CutModel {
  const belief = seen(model.belief, readingWeights(reading), cold(model, reading), passing(model, reading));
  const { mean: expected, spread, got } = expectedReading(model, reading);
  const first = model.read === 0 && model.cuts > 0 && model.filing === 0;
  const by = got - expected;
  const shortfall = first ? (by > Math.max(SHORT.deviations * spread, SHORT.nm) ? by : 0) : model.shortfall;
  const fine = model.fine + (isFine(reading.instrument) ? 1 : 0);
  const { place } = reading;
  return {
    ...model,
    belief,
    read: model.read + 1,
    fine,
    shortfall,
    lastPlace: place,
    chuckEndRead: model.chuckEndRead || place === 'chuck-end',
    freeEndRead: model.freeEndRead || place === 'free-end',
  };
}

/** The size in the middle at 20 °C. */
export const sizeOf = ({ belief }: CutModel): Estimate => believed(belief, weights([SIZE, 1]));
/** The size at both ends at 20 °C. */
export const endsOf = ({ belief }: CutModel): readonly [chuckEnd: Estimate, freeEnd: Estimate] => [
  believed(belief, weights([SIZE, 1], [TAPER, -0.5])),
  believed(belief, weights([SIZE, 1], [TAPER, 0.5])),
];
/** Free end less chuck end. */
export const taperOf = ({ belief }: CutModel): Estimate => believed(belief, weights([TAPER, 1]));

/**
 * The next cut as a straight line: a cut of `asked` takes offset + slope·asked on the part, each with its spread. The offset is
 * what stands in the tool's way already; the slope is what the spring lets through of what is dialled.
 */
export function lineOf(model: CutModel): { readonly offset: Estimate; readonly slope: Estimate } {
  const standing = engaged(model, 0);
  const slope = believed(model.belief, weights([SCALE, 1], [SPRING, -1]));
  return {
    offset: believed(model.belief, weights([SIZE, 1], [EDGE, -1], [SPRING, -standing])),
    slope: { mean: 1 + slope.mean, spread: slope.spread },
  };
}

/** The model of a tool whose edge was not touched off here: where it stands is known only roughly. */
export const edgeUnsure = (model: CutModel): CutModel => ({
  ...model,
  belief: changed(model.belief, EDGE, weights(), 0, PRIOR.notTouchedOffNm),
});
