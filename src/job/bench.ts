import {
  A_ROUND,
  advise,
  cutTaken,
  edgeUnsure,
  endsOf,
  expectedReading,
  filedOff,
  perRoundFrom,
  removedBy,
  shaken,
  sizeOf,
  sizeRead,
  startModel,
  surpriseOf,
  touchedOff,
  type Advice,
  type CutModel,
  type Filed,
  type FileWhere,
  type Place as CoachPlace,
  type SizeReading,
} from '../coach/index.ts';
import { instrumentsOf, nanometres, type Length } from '../measure/index.ts';
import type { Estimate } from '../trade/index.ts';
import type { Feel, Working } from './intent.ts';
import type { Filed as Counted, Reading, Work } from './state.ts';
import type { Shop } from './shop.ts';

/**
 * What the coach makes of an operation as its work goes on. `pending` are the cuts said since the last reading, on the part;
 * `rounds` the rounds of filing since then, `counted` how they are counted; `binds` the end where it was last felt to bind, until
 * that was filed and measured; `stretch` the filing that the readings since then tell about.
 */
export type Bench = {
  readonly shop: Shop;
  readonly model: CutModel;
  readonly advice: Advice;
  readonly working: Working;
  readonly pending: readonly { readonly onPart: number; readonly said: 'took' | 'dial' }[];
  readonly rounds: number;
  readonly counted: Counted['in'];
  readonly binds: 'chuck-end' | 'free-end' | null;
  readonly filed: readonly Filed[];
  readonly stretch: { readonly from: Estimate; readonly where: FileWhere; readonly rounds: number } | null;
  readonly cutSince: number;
  readonly readings: number;
};

/** So much taken off the diameter since the last reading leaves the part warm; 1 mm. Common practice, no source. */
const WARMS_NM = 1_000_000;
/** How warm a part is that nobody spoke of, and one whose temperature was said, in kelvin. Common practice, no source. */
const UNSPOKEN = { kelvin: 0, spread: 2.5 } as const;
const SPOKEN_SPREAD = 2;
/** A first reading further than this from the plan's size starts afresh. */
const PLAN_NM = 250_000;

type Moment = Pick<Bench, 'shop' | 'model' | 'working' | 'cutSince' | 'binds'>;

const advised = ({ shop, model, working, cutSince, binds }: Moment): Advice =>
  advise(model, { ...shop.wishes, turning: shop.wishes.turning && working === 'turning', warm: cutSince > WARMS_NM, binds });

/** Where a feel says that metal stands in the way. */
const BINDS: Readonly<Record<Feel, Bench['binds']>> = {
  'wont-start': null,
  tight: null,
  'binds-at-the-shoulder': 'chuck-end',
  'binds-at-the-end': 'free-end',
  slides: null,
  loose: null,
};

/** The bench before anything was done at the operation; `from` is the size that it starts at. */
export function freshBench(shop: Shop, from: number): Bench {
  const model = edgeUnsure(startModel(shop.cutter, { mean: from, spread: PLAN_NM }, instrumentsOf(shop.instruments)));
  const working = shop.wishes.turning ? 'turning' : shop.filing;
  const moment: Moment = { shop, model, working, cutSince: 0, binds: null };
  const nothing = { pending: [], rounds: 0, counted: 'rounds', filed: [], stretch: null, readings: 0 } as const;
  return { ...moment, ...nothing, advice: advised(moment) };
}

/** The size where the file goes. */
const sizeAt = (model: CutModel, where: FileWhere): Estimate =>
  where === 'all-along' ? sizeOf(model) : endsOf(model)[where === 'free-end' ? 1 : 0];

const PLACES: Readonly<Record<NonNullable<Reading['place']>, CoachPlace>> = {
  'at-the-shoulder': 'chuck-end',
  'at-the-end': 'free-end',
  'in-the-middle': 'middle',
  across: 'middle',
};

/** A logged reading as the coach takes it. One without a place is where it was asked for, else at the free end. */
export function readingAt(
  bench: Bench,
  reading: Pick<Reading, 'value' | 'instrument' | 'place'>,
  celsius: number | null,
): SizeReading {
  const asked = bench.advice.kind === 'measure' ? bench.advice.place : 'free-end';
  return {
    value: nanometres(reading.value * bench.shop.sign),
    instrument: reading.instrument,
    place: reading.place === null ? asked : PLACES[reading.place],
    warmth: celsius === null ? UNSPOKEN : { kelvin: celsius - 20, spread: SPOKEN_SPREAD },
  };
}

/** The cuts that an advice asks for before the next reading. */
const cutsOf = (advice: Extract<Advice, { kind: 'cut' }>): readonly number[] => [
  ...new Array<number>(advice.passes).fill(advice.onPart),
  ...(advice.then === null ? [] : [advice.then]),
];

const deviations = (model: CutModel, reading: SizeReading): number => {
  const { mean, spread, got } = expectedReading(model, reading);
  return Math.abs(got - mean) / spread;
};
/** A reading within so many standard deviations of what a guess expects fits the guess. */
const FITS = 2.5;

/**
 * The model as it must be before a reading is weighed: the cuts or rounds that were said are taken; where none were said, what
 * was advised last, if the reading fits that better than nothing having been done.
 */
export function beforeReading(bench: Bench, reading: SizeReading): CutModel {
  const { model, advice, pending, rounds } = bench;
  if (rounds > 0) {
    const where = advice.kind === 'file' ? advice.where : 'all-along';
    const taken = removedBy(perRoundFrom(bench.shop.filing, bench.filed), rounds);
    return filedOff(model, where, taken.mean, taken.spread);
  }
  if (pending.length > 0) return pending.reduce((after, { onPart }) => cutTaken(after, onPart), model);
  if (bench.readings === 0 || deviations(model, reading) <= 1) return model;
  const { mean, got } = expectedReading(model, reading);
  if (bench.working !== 'turning') return got < mean ? filedOff(model, 'all-along', mean - got, mean - got) : model;
  if (advice.kind === 'cut') {
    const after = cutsOf(advice).reduce(cutTaken, model);
    if (deviations(after, reading) <= FITS && deviations(after, reading) <= deviations(model, reading)) return after;
  }
  if (deviations(model, reading) <= FITS || got >= mean) return model;
  // A cut that nobody spoke of, of any depth: what it took is what the reading says, and nothing is learned from it.
  return touchedOff(cutTaken(model, mean - got));
}

/** The bench after a reading. */
function read(bench: Bench, logged: Reading, celsius: number | null): Bench {
  const { shop, working } = bench;
  const reading = readingAt(bench, logged, celsius);
  const far = bench.readings === 0 && Math.abs(reading.value - sizeOf(bench.model).mean) > PLAN_NM;
  const start = far
    ? { ...bench, model: edgeUnsure(startModel(shop.cutter, { mean: reading.value, spread: PLAN_NM }, bench.model.instruments)) }
    : bench;
  const before = beforeReading(start, reading);
  const surprise = surpriseOf(before, reading);
  const model = sizeRead(surprise === null ? before : shaken(before, reading, surprise.by), reading);
  const where = bench.advice.kind === 'file' ? bench.advice.where : 'all-along';
  const stretch = bench.rounds > 0 ? { from: sizeAt(bench.model, where), where, rounds: bench.rounds } : bench.stretch;
  // A stretch is told by every reading after it until the next one begins: the last entry is replaced.
  const told = stretch === null ? null : sizeAt(model, stretch.where);
  const earlier = bench.rounds > 0 || bench.stretch === null ? bench.filed : bench.filed.slice(0, -1);
  const filed =
    stretch === null || told === null
      ? bench.filed
      : [
          ...earlier,
          {
            removed: { mean: stretch.from.mean - told.mean, spread: Math.hypot(stretch.from.spread, told.spread) },
            rounds: stretch.rounds,
          },
        ];
  const cutSince =
    model.cuts > bench.model.cuts ? bench.cutSince + Math.max(sizeOf(bench.model).mean - sizeOf(model).mean, 0) : 0;
  const binds = bench.rounds > 0 ? null : bench.binds;
  const advice = advised({ shop, model, working, cutSince, binds });
  return { ...bench, model, advice, binds, pending: [], rounds: 0, filed, stretch, cutSince, readings: bench.readings + 1 };
}

/** The bench after one more piece of work. */
export function worked(bench: Bench, work: Work): Bench {
  switch (work.did) {
    case 'dialled':
      return { ...bench, pending: [...bench.pending, { onPart: work.onDial * bench.shop.perDial, said: 'dial' }] };
    case 'cut': {
      // "Dial ten" and then "took ten" are one cut.
      const kept = bench.pending.at(-1)?.said === 'dial' ? bench.pending.slice(0, -1) : bench.pending;
      return { ...bench, pending: [...kept, { onPart: work.onDial * bench.shop.perDial, said: 'took' }] };
    }
    case 'touched-off':
      return { ...bench, model: touchedOff(bench.model), pending: [] };
    case 'filed':
      return {
        ...bench,
        rounds: bench.rounds + work.amount.count / A_ROUND[work.amount.in],
        counted: work.amount.in,
      };
    case 'felt': {
      const felt = { ...bench, binds: BINDS[work.feel] };
      return { ...felt, advice: advised(felt) };
    }
    case 'working': {
      const changed = { ...bench, working: work.working };
      return { ...changed, advice: advised(changed) };
    }
    case 'read':
      return work.reading.quantity === bench.shop.quantity ? read(bench, work.reading, work.celsius) : bench;
  }
}

/** A length of the coach as the job has it: a bore is mirrored, since it grows as it is cut. */
export const unmirrored = (shop: Shop, length: Length): Length => nanometres(length * shop.sign);
