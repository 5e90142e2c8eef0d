import { dividedBy, larger, minus, plus, smaller, times, zero, type Length } from '../../measure/index.ts';
import type { Machine, Part } from '../../part/index.ts';
import { materialIn } from '../../trade/index.ts';
import { ALLOWANCES, BOUNDS, LIMITS, SLENDER, skinOf } from './allowances.ts';
import { dogHolds, turnsBetweenCentres } from './betweenCentres.ts';
import { boringBar } from './endSteps.ts';
import type { RouteFault } from './fault.ts';
import { evenThickness } from './held.ts';
import { holesOf, widthOfHole } from './holes.ts';
import { gripOn, lengthOf, limitsOf, necksOf, thinnestOf, type Bar, type Layout, type Side } from './layout.ts';
import { barLength, blankGrip, blankGripWanted, blankLength, comesOffBar } from './stockLength.ts';

/** How much thicker the work beyond a neck may be than the neck is long and thin: a neck carries so many diameters. Ours. */
const CARRIED = 4;

/** What is wrong with one side as it is turned from the pivot outward; `outward` is the end of the part that it points to. */
function sideFaults({ unit }: Part, side: Side, outward: 'left' | 'right'): RouteFault[] {
  const faults: RouteFault[] = [];
  const { shoulder, narrowGroove } = ALLOWANCES[unit];
  const necks = necksOf(side);
  // What lies outboard of each bar, added up once from the end inward.
  let beyond = zero;
  const outboardOf = side
    .map((_, index) => side.length - 1 - index)
    .map((index) => {
      const here = beyond;
      beyond = plus(beyond, side[index]?.length ?? zero);
      return here;
    })
    .reverse();
  side.forEach((bar, index) => {
    const neck = necks[index] === true;
    const { feature, length, diameter } = bar;
    if (!neck && length <= shoulder) faults.push({ key: 'too-short-to-turn', feature: feature.id, length });
    if (feature.kind === 'groove' && !neck) faults.push({ key: 'groove-at-end', feature: feature.id });
    if (neck && length < narrowGroove) faults.push({ key: 'neck-too-narrow', feature: feature.id, length, least: narrowGroove });
    const carried = outboardOf[index] ?? zero;
    if (neck && carried > times(diameter, CARRIED * 2))
      faults.push({
        key: 'neck-too-thin',
        feature: feature.id,
        diameter,
        beyond: carried,
        least: dividedBy(carried, CARRIED * 2, 'ceiling'),
      });
    const [next] = side.slice(index + 1);
    if (feature.kind === 'taper') {
      if (feature.smallEnd !== outward) faults.push({ key: 'taper-backwards', feature: feature.id });
      else if (next !== undefined && next.needs > feature.small)
        faults.push({ key: 'taper-blocked', feature: feature.id, outboard: next.feature.id, most: feature.small });
    }
    if (bar.offset === 0) return;
    // Turned about the offset axis, an outboard feature swings round it; it must pass inside the journal's own circle.
    const most = minus(diameter, times(bar.offset, 2));
    const blocked = side.slice(index + 1).find((outboard) => outboard.offset === 0 && outboard.diameter > most);
    if (blocked !== undefined) faults.push({ key: 'offset-blocked', feature: feature.id, outboard: blocked.feature.id, most });
  });
  return faults;
}

const describes = (fault: RouteFault): string => JSON.stringify(fault);

function holeFaults(part: Part, layout: Layout): RouteFault[] {
  const faults: RouteFault[] = [];
  const whole: readonly Bar[] =
    layout.firstEnd === 'right'
      ? [...layout.second].reverse().concat(layout.pivot, layout.first)
      : [...layout.first].reverse().concat(layout.pivot, layout.second);
  const holes = holesOf(part);
  for (const end of holes) {
    const inward = end.end === 'left' ? whole : [...whole].reverse();
    const hole = widthOfHole(end);
    const radius = dividedBy(hole, 2, 'ceiling');
    let depth: Length = end.drillDepth;
    for (const bar of inward) {
      const most = minus(minus(thinnestOf(bar), times(bar.offset, 2)), times(BOUNDS.wall, 2));
      if (hole > most) {
        faults.push({ key: 'hole-breaks-out', feature: end.id, hole, most });
        break;
      }
      for (const cut of part.milled) {
        if (cut.on !== bar.feature.id || cut.depth === null || cut.kind === 'cross-hole') continue;
        const wall = minus(minus(dividedBy(bar.diameter, 2, 'floor'), cut.depth), radius);
        if (wall < dividedBy(BOUNDS.wall, 2, 'floor'))
          faults.push({
            key: 'cuts-into-hole',
            feature: cut.id,
            hole: end.id,
            wall: larger(wall, zero),
            least: dividedBy(BOUNDS.wall, 2, 'floor'),
          });
      }
      if (depth <= bar.length) break;
      depth = minus(depth, bar.length);
    }
    if (end.drillDepth >= layout.total)
      faults.push({ key: 'hole-too-deep', feature: end.id, depth: end.drillDepth, most: layout.total });
    if (end.kind === 'bored-hole') {
      const most = times(boringBar(end.drill), LIMITS.boringBar);
      if (end.depth.high > most) faults.push({ key: 'bore-too-deep', feature: end.id, depth: end.depth.high, most });
    }
    const other = holes.find((candidate) => candidate !== end && candidate.end !== end.end);
    if (end.end === 'left' && other !== undefined && plus(end.drillDepth, other.drillDepth) > layout.total)
      faults.push({
        key: 'holes-meet',
        feature: end.id,
        other: other.id,
        over: minus(plus(end.drillDepth, other.drillDepth), layout.total),
      });
  }
  for (const cut of part.milled) {
    const on = whole.find(({ feature }) => feature.id === cut.on);
    if (cut.kind !== 'cross-hole' || on === undefined) continue;
    const most = minus(on.diameter, times(BOUNDS.wall, 2));
    if (cut.diameter > most)
      faults.push({ key: 'hole-breaks-out', feature: cut.id, hole: cut.diameter, most: larger(most, zero) });
  }
  return faults;
}

/** Everything in part and stock that keeps a part from being made as it is given; empty where nothing does. */
export function faultsOf(part: Part, machines: readonly Machine[], layout: Layout | null): readonly RouteFault[] {
  if (layout === null) return [{ key: 'nothing-concentric' }];
  const faults: RouteFault[] = [];
  const { stock } = part;
  const [lathe] = machines;
  if (lathe === undefined) faults.push({ key: 'no-lathe' });
  const [milled] = part.milled;
  if (milled !== undefined && machines[1] === undefined) faults.push({ key: 'no-mill', feature: milled.id });
  if (materialIn(stock.material) === null) faults.push({ key: 'material-not-known', material: stock.material });
  const skin = skinOf(stock);
  for (const feature of part.turned) {
    const { low, high } = limitsOf(feature);
    const asStock = stock.form === 'round' && skin === 0 && stock.size <= high;
    const needed =
      feature.kind === 'offset-journal' ? plus(plus(high, times(feature.throw, 2)), skin) : asStock ? low : plus(high, skin);
    if (needed > stock.size) faults.push({ key: 'stock-too-thin', feature: feature.id, needed, stock: stock.size, skin });
  }
  if (stock.length < blankLength(part, layout))
    faults.push({ key: 'stock-too-short', needed: blankLength(part, layout), stock: stock.length });
  const { pivot, first, second, firstEnd } = layout;
  const other = firstEnd === 'left' ? 'right' : 'left';
  // A cone that is the largest of all may point either way: it is cut from the end that its small end points to.
  const toward = pivot.feature.kind === 'taper' ? pivot.feature.smallEnd : null;
  const found = [...sideFaults(part, [pivot, ...first], firstEnd), ...sideFaults(part, [pivot, ...second], other)].filter(
    (fault) => !(fault.key === 'taper-backwards' && fault.feature === pivot.feature.id && toward !== null),
  );
  // The pivot stands in both sides; what is wrong with it alone is said once.
  faults.push(
    ...found.filter((fault, index) => found.findIndex((one) => describes(one) === describes(fault)) === index),
    ...holeFaults(part, layout),
  );
  const offBar = lathe !== undefined && comesOffBar(part, lathe, layout);
  if (lathe !== undefined && turnsBetweenCentres(part, lathe, layout, offBar)) {
    if (!dogHolds(layout)) faults.push({ key: 'nothing-to-grip', needed: BOUNDS.dog });
  } else {
    const held = gripOn(first, pivot, BOUNDS.grip);
    if (held === null) faults.push({ key: 'nothing-to-grip', needed: BOUNDS.grip });
    // A blank is held on what becomes the second end; that must be long enough for the jaws.
    const asBlank = lathe === undefined || !comesOffBar(part, { ...lathe, spindleBore: null }, layout);
    const has = smaller(blankGrip(part, layout), lengthOf(second));
    if (
      asBlank &&
      stock.length >= blankLength(part, layout) &&
      (blankGrip(part, layout) < blankGripWanted(part) || lengthOf(second) < BOUNDS.grip)
    )
      faults.push({
        key: 'blank-grip',
        has: larger(has, zero),
        needed: blankGripWanted(part),
        piece: barLength(part, layout),
      });
  }
  const thinnest = part.turned.reduce<Length>((least, feature) => {
    const low = feature.kind === 'taper' ? feature.small : limitsOf(feature).low;
    return low < least ? low : least;
  }, stock.size);
  const rests = lathe?.tools.some((tool) => tool === 'steady' || tool === 'follow-rest') === true;
  const even = evenThickness([...first, pivot, ...second], layout.total, pivot.diameter);
  if (!rests && layout.total > times(even, SLENDER.steady))
    faults.push({ key: 'too-slender', length: layout.total, diameter: thinnest });
  return faults;
}
