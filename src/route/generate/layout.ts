import { dividedBy, larger, midway, minus, nanometres, plus, times, zero, type Length } from '../../measure/index.ts';
import { saidName, type Limits, type Part, type TurnedFeature } from '../../part/index.ts';
import { BOUNDS } from './allowances.ts';

/** A turned feature as the route meets it. Sizes are the middles of the limits; `needs` is the concentric bar it must lie in. */
export type Bar = {
  readonly feature: TurnedFeature;
  readonly diameter: Length;
  readonly length: Length;
  readonly offset: Length;
  readonly needs: Length;
};

/** One side of the part as it is turned: from the pivot outward, so the largest comes first but for necks. */
export type Side = readonly Bar[];

/** The part seen for turning: the largest concentric feature is the pivot, turned with the first end. */
export type Layout = {
  readonly pivot: Bar;
  readonly first: Side;
  readonly second: Side;
  readonly firstEnd: 'left' | 'right';
  readonly total: Length;
};

export const otherEnd = (end: 'left' | 'right'): 'left' | 'right' => (end === 'left' ? 'right' : 'left');

export const limitsOf = (feature: TurnedFeature): Limits => (feature.kind === 'thread' ? feature.major : feature.diameter);

function barOf(feature: TurnedFeature): Bar {
  const { low, high } = limitsOf(feature);
  const diameter = midway(low, high, 'half-even');
  const offset = feature.kind === 'offset-journal' ? feature.throw : zero;
  const length = midway(feature.length.low, feature.length.high, 'half-even');
  return { feature, diameter, length, offset, needs: plus(diameter, times(offset, 2)) };
}

export const lengthOf = (bars: readonly Bar[]): Length => nanometres(bars.reduce((sum, { length }) => sum + length, 0));

/** How thin a bar is at its thinnest: a cone at its small end. */
export const thinnestOf = ({ feature, diameter }: Bar): Length => (feature.kind === 'taper' ? feature.small : diameter);

const offsetsIn = (bars: readonly Bar[]): number => bars.filter(({ offset }) => offset > 0).length;

/**
 * The layout of a part, or null where nothing in it is concentric. The end that is turned first is the one with fewer offset
 * journals; of two alike, the longer; of two alike again, the right. Where that leaves nothing to hold and the other does, the
 * other.
 */
export function layoutOf(part: Part): Layout | null {
  const bars = part.turned.map(barOf);
  const largest = Math.max(...bars.map(({ offset, diameter }) => (offset > 0 ? 0 : diameter)));
  const at = bars.findIndex(({ offset, diameter }) => offset === 0 && diameter === largest);
  const pivot = bars[at];
  if (pivot === undefined) return null;
  const right = bars.slice(at + 1);
  const left = bars.slice(0, at).reverse();
  const fewer = offsetsIn(left) - offsetsIn(right);
  const longer = fewer < 0 || (fewer === 0 && lengthOf(left) > lengthOf(right));
  const holds = (side: Side): boolean => gripOn(side, pivot, BOUNDS.grip) !== null;
  const wrongWay = fewer === 0 && !holds(longer ? left : right) && holds(longer ? right : left);
  const leftFirst = longer !== wrongWay;
  return {
    pivot,
    first: leftFirst ? left : right,
    second: leftFirst ? right : left,
    firstEnd: leftFirst ? 'left' : 'right',
    total: lengthOf(bars),
  };
}

/** How far the inboard shoulder of each bar of a side lies from the finished end: its own length and all that is outboard. */
export function shouldersOf(side: Side): readonly Length[] {
  const shoulders: Length[] = [];
  let sum = zero;
  for (const { length } of [...side].reverse()) {
    sum = plus(sum, length);
    shoulders.push(sum);
  }
  return shoulders.reverse();
}

/** Which bars of a side are necks: something outboard of them needs more bar than they leave. */
export function necksOf(side: Side): readonly boolean[] {
  const necks: boolean[] = [];
  let outboard = zero;
  for (const { offset, diameter, needs } of [...side].reverse()) {
    necks.push(offset === 0 && outboard > diameter);
    outboard = larger(outboard, needs);
  }
  return necks.reverse();
}

/** True where the diameter wants a micrometer, and a rough cut before it is finished. */
export function isFine({ feature }: Bar): boolean {
  const { low, high } = limitsOf(feature);
  return minus(high, low) <= BOUNDS.fine;
}

/** True of a diameter that a chuck must not mark: a fit, a fine window, or one that was brought to size by hand. */
export const isDelicate = (bar: Bar): boolean =>
  isFine(bar) ||
  ('mate' in bar.feature && bar.feature.mate !== null) ||
  (bar.feature.kind !== 'thread' && bar.feature.finish !== 'turned');

/**
 * The feature of a side, or the pivot, that a chuck holds best for the other end: half as long as thick or more, no neck; the one
 * nearest the pivot, or one about as thick that a jaw may mark.
 */
export function gripOn(side: Side, pivot: Bar | null, least: Length): Bar | null {
  const necks = necksOf(side);
  const holds = ({ offset, length, diameter, feature }: Bar): boolean =>
    offset === 0 &&
    feature.kind !== 'thread' &&
    feature.kind !== 'taper' &&
    feature.kind !== 'groove' &&
    length >= least &&
    length >= dividedBy(diameter, 2, 'ceiling');
  const held = [
    ...side.filter((bar, index) => necks[index] === false && holds(bar)),
    ...(pivot !== null && holds(pivot) ? [pivot] : []),
  ];
  const [first] = held;
  // A much thinner one is not worth its clean jaws.
  return held.find((bar) => first !== undefined && !isDelicate(bar) && bar.diameter * 5 >= first.diameter * 4) ?? first ?? null;
}

/** True where the largest diameter is left as the bar came: only of round bar. */
export const isAsStock = (part: Part, pivot: Bar): boolean =>
  part.stock.form === 'round' && part.stock.size <= limitsOf(pivot.feature).high;

/** What the bar measures across at the most: over its corners, where it has any. */
export function acrossCorners({ stock }: Part): Length {
  switch (stock.form) {
    case 'round':
      return stock.size;
    case 'hexagon':
      // 2/√3 of the size across the flats.
      return nanometres(Math.ceil((stock.size * 2) / Math.sqrt(3)));
    case 'square':
      return nanometres(Math.ceil(stock.size * Math.SQRT2));
  }
}

/** Where the indicator stands when work is held on a bar: on the largest diameter, unless that is held itself or is a thread. */
export const indicatedOn = ({ pivot }: Layout, grip: Bar): string =>
  grip === pivot || pivot.feature.kind === 'thread' ? 'it, beside the jaws' : `the ${inSentence(pivot.feature)}`;

/** The name of a feature within a sentence: `Arm journal` as `arm journal`; `M20 thread` keeps its capital. */
export const inSentence = ({ name }: { readonly name: string }): string => saidName(name);

export const inSentenceOf = ({ feature }: Bar): string => inSentence(feature);
