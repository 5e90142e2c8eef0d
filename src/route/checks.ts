import { plus, times, type Length } from '../measure/index.ts';
import { givenLengths, ringOf, spanOf, type Machine, type Part, type TurnedFeature } from '../part/index.ts';
import type { CautionKey, Operation, Target } from './operation.ts';
import type { Route } from './route.ts';

/**
 * What looks wrong in a route, though it can be read: a warning, not a refusal, since the person may know better. The
 * sentence is made by `describeWarning`.
 */
export type Warning =
  | { readonly key: 'stock-too-thin'; readonly feature: string; readonly needed: Length; readonly stock: Length }
  | { readonly key: 'offset-outside-stock'; readonly feature: string; readonly needed: Length; readonly stock: Length }
  | { readonly key: 'stock-too-short'; readonly needed: Length; readonly stock: Length }
  | { readonly key: 'never-finished'; readonly feature: string }
  | {
      readonly key: 'below-finish';
      readonly operation: string;
      readonly feature: string;
      readonly low: Length;
      readonly finish: Length;
    }
  | { readonly key: 'nothing-to-take'; readonly operation: string; readonly from: Length; readonly aim: Length }
  | { readonly key: 'from-disagrees'; readonly operation: string; readonly before: string; readonly from: Length }
  | { readonly key: 'mate-measured-late'; readonly operation: string; readonly mate: string }
  | { readonly key: 'not-a-feature'; readonly operation: string; readonly feature: string }
  | { readonly key: 'no-instrument'; readonly operation: string }
  | { readonly key: 'speed-not-on-machine'; readonly operation: string; readonly rpm: number; readonly machine: string }
  | {
      readonly key: 'feed-not-on-machine';
      readonly operation: string;
      readonly feed: Length;
      readonly machine: string;
    }
  | { readonly key: 'never-worked'; readonly feature: string }
  | { readonly key: 'caution-missing'; readonly operation: string; readonly caution: CautionKey };

export type WarningKey = Warning['key'];

const diameterOfFeature = (feature: TurnedFeature): { readonly low: Length; readonly high: Length } =>
  feature.kind === 'thread' ? feature.major : feature.diameter;

function stockWarnings(part: Part): Warning[] {
  const warnings: Warning[] = [];
  for (const feature of part.turned) {
    const { low, high } = diameterOfFeature(feature);
    const asStock = part.stock.size >= low && part.stock.size <= high;
    if (high > part.stock.size && !asStock)
      warnings.push({ key: 'stock-too-thin', feature: feature.id, needed: high, stock: part.stock.size });
    if (feature.kind === 'offset-journal') {
      // A circle of diameter d whose centre is e off the axis reaches d/2 + e from it: the bar must be d + 2e across.
      const needed = plus(high, times(feature.throw, 2));
      if (needed > part.stock.size)
        warnings.push({ key: 'offset-outside-stock', feature: feature.id, needed, stock: part.stock.size });
    }
  }
  const long = spanOf(givenLengths(part.turned), 0, part.turned.length);
  if (long !== null && long.low > part.stock.length)
    warnings.push({ key: 'stock-too-short', needed: long.low, stock: part.stock.length });
  return warnings;
}

/** The metal is taken from `from`: a diameter or a length gets less, a depth more. Other quantities take nothing. */
function takesNothing({ quantity, from, aim }: Target): boolean {
  if (from === null) return false;
  switch (quantity) {
    case 'diameter':
    case 'length':
      return from <= aim;
    case 'depth':
    case 'hole':
      return from >= aim;
    case 'indicator':
    case 'bore':
    case 'width':
      return false;
  }
}

/** The cautions of which one at least belongs to an operation; none where it is no more dangerous than another. */
function dueCautions(operation: Operation, feature: TurnedFeature | null): readonly CautionKey[] {
  switch (operation.kind) {
    case 'grip':
    case 'dial-in':
      return ['chuck-key'];
    case 'part-off':
      return ['parting'];
    case 'file':
      return ['lathe-filing', 'abrasive-cloth'];
    case 'drill':
      return ['drilling'];
    case 'tap':
      return ['tapping'];
    case 'mill':
      return ['milling'];
    case 'offset':
      return ['out-of-balance'];
    case 'assemble':
      return ['pressing'];
    case 'rough':
    case 'finish':
      return feature?.kind === 'offset-journal' ? ['out-of-balance'] : [];
    case 'measure-mate':
    case 'face':
    case 'centre':
    case 'thread':
    case 'groove':
    case 'chamfer':
    case 'fillet':
    case 'taper':
    case 'bore':
    case 'length':
    case 'find-edge':
    case 'find-high-spot':
    case 'deburr':
    case 'try-fit':
      return [];
  }
}

/**
 * The cuts that are held against the diameter of a feature. A cone leaves it on purpose, and so does a groove, but in a feature
 * that
 * is one.
 */
const shapesDiameter = (operation: Operation, feature: TurnedFeature): boolean =>
  operation.target?.quantity === 'diameter' &&
  operation.kind !== 'taper' &&
  (operation.kind !== 'groove' || feature.kind === 'groove');

function diameterWarnings(part: Part, route: Route): Warning[] {
  const warnings: Warning[] = [];
  for (const feature of part.turned) {
    const { low, high } = diameterOfFeature(feature);
    const operations = route.operations.filter(
      (operation) => operation.feature === feature.id && shapesDiameter(operation, feature),
    );
    let before: Operation | null = null;
    for (const operation of operations) {
      const target = operation.target;
      if (target === null) continue;
      if (target.low < low)
        warnings.push({ key: 'below-finish', operation: operation.id, feature: feature.id, low: target.low, finish: low });
      const left = before?.target ?? null;
      if (before !== null && left !== null && target.from !== null && (target.from < left.low || target.from > left.high))
        warnings.push({ key: 'from-disagrees', operation: operation.id, before: before.id, from: target.from });
      before = operation;
    }
    const last = before?.target ?? null;
    const asStock = last === null && part.stock.size >= low && part.stock.size <= high;
    if (!asStock && (last === null || last.high > high)) warnings.push({ key: 'never-finished', feature: feature.id });
  }
  return warnings;
}

/**
 * Threads, and what is done to corners, ends and sides, with no operation about it. A centre may be made with the facing of its
 * end.
 */
function leftOut(part: Part, route: Route): Warning[] {
  const worked = new Set(route.operations.map(({ feature }) => feature));
  const threaded = new Set(route.operations.filter(({ kind }) => kind === 'thread').map(({ feature }) => feature));
  const uncut = part.turned.filter(({ id, kind }) => kind === 'thread' && !threaded.has(id));
  const unworked = [...part.edges, ...part.ends, ...part.milled].filter(({ id, kind }) => kind !== 'centre' && !worked.has(id));
  return [...uncut, ...unworked].map(({ id }) => ({ key: 'never-worked', feature: id }));
}

/** Every warning that a route gives, in the order: stock, diameters and what was left out, then operation by operation. */
export function checkRoute(part: Part, machines: readonly Machine[], route: Route): readonly Warning[] {
  const warnings = [...stockWarnings(part), ...diameterWarnings(part, route), ...leftOut(part, route)];
  const turned = new Map(part.turned.map((feature) => [feature.id, feature]));
  const mates = new Map(part.mates.map((mate) => [mate.id, mate]));
  const known = new Set([
    ...turned.keys(),
    ...mates.keys(),
    ...[...part.edges, ...part.ends, ...part.milled].map((feature) => feature.id),
  ]);
  // What was measured at the desk counts as measured.
  // The rings of a bearing are guaranteed by their maker: they may be measured, and need not be.
  const sure = part.mates.filter((mate) => ringOf(mate) !== null || mate.readings.length > 0);
  const measured = new Set(sure.map(({ id }) => id));
  for (const operation of route.operations) {
    const { id, feature, target, cut } = operation;
    if (feature !== null && !known.has(feature)) warnings.push({ key: 'not-a-feature', operation: id, feature });
    if (operation.kind === 'measure-mate') {
      if (feature === null || !mates.has(feature))
        warnings.push({ key: 'not-a-feature', operation: id, feature: feature ?? 'none' });
      else measured.add(feature);
    }
    if (target !== null) {
      if (operation.instrument === null) warnings.push({ key: 'no-instrument', operation: id });
      if (target.from !== null && takesNothing(target))
        warnings.push({ key: 'nothing-to-take', operation: id, from: target.from, aim: target.aim });
      if (target.fit !== null && !measured.has(target.fit.mate))
        warnings.push({ key: 'mate-measured-late', operation: id, mate: target.fit.mate });
    }
    const setup = route.setups.find((candidate) => candidate.id === operation.setup);
    const machine = machines.find((candidate) => candidate.id === setup?.machine);
    if (cut !== null && machine !== undefined && !machine.spindleSpeeds.includes(cut.speedRpm))
      warnings.push({ key: 'speed-not-on-machine', operation: id, rpm: cut.speedRpm, machine: machine.name });
    // A thread is fed by its pitch, which the gearbox cuts by other gears.
    const feed = operation.kind === 'thread' ? null : (cut?.feedPerTurn ?? null);
    if (feed !== null && machine !== undefined && machine.feeds.length > 0 && !machine.feeds.includes(feed))
      warnings.push({ key: 'feed-not-on-machine', operation: id, feed, machine: machine.name });
    const due = dueCautions(operation, feature === null ? null : (turned.get(feature) ?? null));
    const [first] = due;
    if (first !== undefined && (operation.caution === null || !due.includes(operation.caution)))
      warnings.push({ key: 'caution-missing', operation: id, caution: first });
  }
  return warnings;
}
