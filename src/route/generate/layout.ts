import { dividedBy, midway, nanometres, plus, times, zero, type Length } from '../../measure/index.ts';
import type { Part, TurnedFeature } from '../../part/index.ts';

/** A turned feature as the route meets it. Sizes are the middles of the limits; `needs` is the concentric bar it must lie in. */
export type Bar = {
  readonly feature: TurnedFeature;
  readonly diameter: Length;
  readonly length: Length;
  readonly offset: Length;
  readonly needs: Length;
};

/** One side of the part as it is turned: from the pivot outward, so the largest comes first. */
export type Side = readonly Bar[];

/** The part seen for turning: the largest concentric feature is the pivot, turned with the first end. */
export type Layout = {
  readonly pivot: Bar;
  readonly first: Side;
  readonly second: Side;
  readonly firstEnd: 'left' | 'right';
  readonly total: Length;
};

export const limitsOf = (feature: TurnedFeature): { readonly low: Length; readonly high: Length } =>
  feature.kind === 'thread' ? feature.major : feature.diameter;

function barOf(feature: TurnedFeature): Bar {
  const { low, high } = limitsOf(feature);
  const diameter = midway(low, high, 'half-even');
  const offset = feature.kind === 'offset-journal' ? feature.throw : zero;
  const length = midway(feature.length.low, feature.length.high, 'half-even');
  return { feature, diameter, length, offset, needs: plus(diameter, times(offset, 2)) };
}

export const lengthOf = (bars: readonly Bar[]): Length => nanometres(bars.reduce((sum, { length }) => sum + length, 0));

const offsetsIn = (bars: readonly Bar[]): number => bars.filter(({ offset }) => offset > 0).length;

/**
 * The layout of a part, or null where nothing in it is concentric. The end that is turned first is the one with fewer offset
 * journals; of two alike, the longer; of two alike again, the right.
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
  const leftFirst = fewer < 0 || (fewer === 0 && lengthOf(left) > lengthOf(right));
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

/** The feature of a side that a chuck holds best for the other end: nearest the pivot, half as long as thick or more. */
export function gripOn(side: Side, least: Length): Bar | null {
  const holds = ({ offset, length, diameter, feature }: Bar): boolean =>
    offset === 0 && feature.kind !== 'thread' && length >= least && length >= dividedBy(diameter, 2, 'ceiling');
  return side.find(holds) ?? null;
}

/** True where the largest diameter is left as the bar came. */
export const isAsStock = (part: Part, pivot: Bar): boolean => part.stock.size <= limitsOf(pivot.feature).high;
