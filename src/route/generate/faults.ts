import { formatSize, minus, plus, times, type DisplayUnit, type Length } from '../../measure/index.ts';
import type { Machine, Part } from '../../part/index.ts';
import { materialIn } from '../../trade/index.ts';
import { ALLOWANCES, SLENDER } from './allowances.ts';
import { gripOn, lengthOf, limitsOf, type Layout, type Side } from './layout.ts';

/** Why a part cannot be made as it is given. The sentence, with what would help, is made by `describeRouteFault`. */
export type RouteFault =
  | { readonly key: 'nothing-concentric' }
  | { readonly key: 'no-lathe' }
  | { readonly key: 'no-mill'; readonly feature: string }
  | { readonly key: 'stock-form'; readonly form: string }
  | { readonly key: 'material-not-known'; readonly material: string }
  | { readonly key: 'stock-too-thin'; readonly feature: string; readonly needed: Length; readonly stock: Length }
  | { readonly key: 'stock-too-short'; readonly needed: Length; readonly stock: Length }
  | {
      readonly key: 'neck';
      readonly feature: string;
      readonly outboard: string;
      readonly diameter: Length;
      readonly needed: Length;
    }
  | { readonly key: 'offset-blocked'; readonly feature: string; readonly outboard: string; readonly most: Length }
  | { readonly key: 'too-short-to-turn'; readonly feature: string; readonly length: Length }
  | { readonly key: 'nothing-to-grip'; readonly needed: Length }
  | { readonly key: 'too-slender'; readonly length: Length; readonly diameter: Length }
  | { readonly key: 'hole-breaks-out'; readonly feature: string; readonly hole: Length; readonly most: Length }
  | { readonly key: 'hole-too-deep'; readonly feature: string; readonly depth: Length; readonly most: Length };

function sideFaults(side: Side): RouteFault[] {
  const faults: RouteFault[] = [];
  side.forEach((bar, index) => {
    if (bar.length <= ALLOWANCES.shoulder)
      faults.push({ key: 'too-short-to-turn', feature: bar.feature.id, length: bar.length });
    for (const outboard of side.slice(index + 1)) {
      // Turned from the end inward, so nothing outboard may be larger than what lies behind it.
      if (bar.offset === 0 && outboard.needs > bar.needs) {
        faults.push({
          key: 'neck',
          feature: bar.feature.id,
          outboard: outboard.feature.id,
          diameter: bar.diameter,
          needed: outboard.needs,
        });
        break;
      }
      // Turned about the offset axis, an outboard feature swings round it; it must pass inside the journal's own circle.
      const most = minus(bar.diameter, times(bar.offset, 2));
      if (bar.offset > 0 && outboard.offset === 0 && outboard.diameter > most) {
        faults.push({ key: 'offset-blocked', feature: bar.feature.id, outboard: outboard.feature.id, most });
        break;
      }
    }
  });
  return faults;
}

const describes = (fault: RouteFault): string => JSON.stringify(fault);

/** The length of stock that is needed at least: as a sawn blank that is held on its own second end. */
export const blankLength = ({ total }: Layout): Length => plus(total, times(ALLOWANCES.sawn, 2));

/** The length of stock that is needed to part the work off a bar that stays in the chuck. */
export function barLength({ total }: Layout, stock: Length): Length {
  const out = plus(plus(total, plus(ALLOWANCES.secondEnd, ALLOWANCES.sawn)), plus(ALLOWANCES.partingWidth, ALLOWANCES.jawRoom));
  return plus(out, stock);
}

function holeFaults(part: Part, layout: Layout): RouteFault[] {
  const faults: RouteFault[] = [];
  const whole =
    layout.firstEnd === 'right'
      ? [...layout.second].reverse().concat(layout.pivot, layout.first)
      : [...layout.first].reverse().concat(layout.pivot, layout.second);
  for (const end of part.ends) {
    if (end.kind !== 'tapped-hole') continue;
    const inward = end.end === 'left' ? whole : [...whole].reverse();
    let depth: Length = end.drillDepth;
    for (const bar of inward) {
      const most = minus(minus(bar.diameter, times(bar.offset, 2)), times(ALLOWANCES.wall, 2));
      if (end.drill > most) {
        faults.push({ key: 'hole-breaks-out', feature: end.id, hole: end.drill, most });
        break;
      }
      if (depth <= bar.length) break;
      depth = minus(depth, bar.length);
    }
    if (end.drillDepth >= layout.total)
      faults.push({ key: 'hole-too-deep', feature: end.id, depth: end.drillDepth, most: layout.total });
  }
  return faults;
}

/** Everything that keeps a part from being made as it is given; empty where it can be. */
export function faultsOf(part: Part, machines: readonly Machine[], layout: Layout | null): readonly RouteFault[] {
  if (layout === null) return [{ key: 'nothing-concentric' }];
  const faults: RouteFault[] = [];
  const { stock } = part;
  if (machines[0] === undefined) faults.push({ key: 'no-lathe' });
  const [milled] = part.milled;
  if (milled !== undefined && machines[1] === undefined) faults.push({ key: 'no-mill', feature: milled.id });
  if (stock.form !== 'round') faults.push({ key: 'stock-form', form: stock.form });
  if (materialIn(stock.material) === null) faults.push({ key: 'material-not-known', material: stock.material });
  for (const feature of part.turned) {
    const { low, high } = limitsOf(feature);
    const needed = feature.kind === 'offset-journal' ? plus(high, times(feature.throw, 2)) : stock.size <= high ? low : high;
    if (needed > stock.size) faults.push({ key: 'stock-too-thin', feature: feature.id, needed, stock: stock.size });
  }
  if (stock.length < blankLength(layout))
    faults.push({ key: 'stock-too-short', needed: blankLength(layout), stock: stock.length });
  const { pivot, first, second } = layout;
  const found = [...sideFaults([pivot, ...first]), ...sideFaults([pivot, ...second])];
  // The pivot stands in both sides; what is wrong with it alone is said once.
  faults.push(
    ...found.filter((fault, index) => found.findIndex((other) => describes(other) === describes(fault)) === index),
    ...holeFaults(part, layout),
  );
  const offBar = stock.length >= barLength(layout, stock.size);
  const held = gripOn([...layout.first, layout.pivot], ALLOWANCES.grip);
  if (held === null) faults.push({ key: 'nothing-to-grip', needed: ALLOWANCES.grip });
  // A blank is held on what becomes the second end; that must be long enough for the jaws.
  if (!offBar && lengthOf(layout.second) < ALLOWANCES.grip) faults.push({ key: 'nothing-to-grip', needed: ALLOWANCES.grip });
  const thinnest = Math.min(...part.turned.map((feature) => limitsOf(feature).low)) as Length;
  if (layout.total > times(thinnest, SLENDER.steady))
    faults.push({ key: 'too-slender', length: layout.total, diameter: thinnest });
  return faults;
}

/** A fault as a sentence: what is in the way, with the numbers, and what would help. */
export function describeRouteFault(fault: RouteFault, part: Part): string {
  const unit: DisplayUnit = part.unit;
  const size = (length: Length): string => formatSize(length, unit);
  const named = (id: string): string =>
    [...part.turned, ...part.ends, ...part.milled].find((feature) => feature.id === id)?.name ?? id;
  switch (fault.key) {
    case 'nothing-concentric':
      return 'Nothing in the part is concentric, so there is nothing to hold it by. Add a concentric collar or spigot.';
    case 'no-lathe':
      return 'No machine is given. The first one in the file is the lathe.';
    case 'no-mill':
      return `${named(fault.feature)}: no mill is given. The second machine in the file is the mill.`;
    case 'stock-form':
      return `The stock is ${fault.form}; routes are made for round bar. Turn it round first, or give round stock.`;
    case 'material-not-known':
      return `"${fault.material}" is no material that speeds are known for. Name it as steel, alloy steel, stainless, iron, brass or aluminium.`;
    case 'stock-too-thin':
      return `${named(fault.feature)}: needs stock of ${size(fault.needed)}; this is ${size(fault.stock)}. Take the next larger bar.`;
    case 'stock-too-short':
      return `The part needs ${size(fault.needed)} of stock with both ends faced; this is ${size(fault.stock)} long. Cut a longer piece.`;
    case 'neck':
      return `${named(fault.feature)}: ${size(fault.diameter)} across behind ${named(fault.outboard)}, which needs ${size(fault.needed)}. A turning tool cannot get behind it: make it in two pieces, or cut it by hand with a grooving tool.`;
    case 'offset-blocked':
      return `${named(fault.feature)}: ${named(fault.outboard)} stands in the way of the tool when the work turns off centre; it may be ${size(fault.most)} at most. Put the offset journal outboard, or make it a separate piece.`;
    case 'too-short-to-turn':
      return `${named(fault.feature)}: ${size(fault.length)} long is shorter than what a rough cut stays off its shoulder. Make it a groove or a longer feature.`;
    case 'nothing-to-grip':
      return `No finished length of ${size(fault.needed)} can be held for the second end. Leave stock to part off, use a collet, or work between centres.`;
    case 'too-slender':
      return `${size(fault.length)} long and ${size(fault.diameter)} thin: it bends away from the tool even with a tailstock. A steady or a follow rest is needed.`;
    case 'hole-breaks-out':
      return `${named(fault.feature)}: a hole of ${size(fault.hole)} leaves too thin a wall; ${size(fault.most)} is the most. Choose a smaller thread.`;
    case 'hole-too-deep':
      return `${named(fault.feature)}: ${size(fault.depth)} deep goes through the part, which is ${size(fault.most)} long. Make it shallower.`;
  }
}
