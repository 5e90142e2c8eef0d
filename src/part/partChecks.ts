import { formatSize, plus, times, zero, type Length } from '../measure/index.ts';
import { ownLengths } from './chain.ts';
import type { EndFeature } from './endFeature.ts';
import { goesIn } from './fitted.ts';
import type { Mate } from './mate.ts';
import type { MilledFeature } from './milled.ts';
import type { EdgeFeature, TurnedFeature } from './turned.ts';
import { describeChainFault, followsFrom } from './writtenLengths.ts';

/** As much of a part as the checks of its features against each other need. */
type Features = {
  readonly unit: 'inch' | 'millimetre';
  readonly mates: readonly Mate[];
  readonly turned: readonly TurnedFeature[];
  readonly edges: readonly EdgeFeature[];
  readonly ends: readonly EndFeature[];
  readonly milled: readonly MilledFeature[];
};

/** Takes what is wrong, with the way to it. */
type Wrong = (path: readonly (string | number)[], message: string) => void;

/** Mates that a diameter or a length names are there; what a taper and a fit say holds together. */
export function checkTurned({ turned, mates, unit }: Features, wrong: Wrong): void {
  const known = new Set(mates.map((mate) => mate.id));
  const widths = new Set(mates.filter((mate) => mate.kind === 'width').map((mate) => mate.id));
  turned.forEach((feature, index) => {
    if (!('between' in feature)) return;
    if (feature.between !== null && !widths.has(feature.between))
      wrong(['turned', index, 'between'], `no width is called "${feature.between}"`);
    if (feature.kind === 'taper' && feature.small >= feature.diameter.low)
      wrong(['turned', index, 'small'], `the small end, ${formatSize(feature.small, unit)}, is not smaller than the large end`);
    if ((feature.kind === 'taper' || feature.kind === 'groove') && feature.finish !== 'turned')
      wrong(['turned', index, 'finish'], `a ${feature.kind} is turned; it is not ${feature.finish} to a size`);
    if (!('mate' in feature)) return;
    if (feature.mate !== null && !known.has(feature.mate))
      wrong(['turned', index, 'mate'], `no mate is called "${feature.mate}"`);
    if (feature.fit !== null && feature.mate === null) wrong(['turned', index, 'fit'], 'a fit needs a mate to fit');
  });
}

/** The chain of lengths holds, each `length` is what it makes it, and a length that holds a width is the feature's own. */
export function checkLengths({ turned, unit }: Features, wrong: Wrong): void {
  if (turned.every(({ datum }) => datum === null)) return;
  turned.forEach((feature, index) => {
    const from = feature.datum?.from;
    if ('between' in feature && feature.between !== null && (from === 'left-face' || from === 'right-face'))
      wrong(['turned', index, 'datum'], 'a length that holds a width is counted from a shoulder of its own, not from a face');
  });
  const lengths = ownLengths(turned);
  if (!lengths.ok) {
    const { feature } = lengths.error;
    wrong(
      ['turned', feature, 'datum'],
      describeChainFault(lengths.error, (at) => turned[at]?.name ?? '', unit),
    );
    return;
  }
  turned.forEach(({ datum, length }, index) => {
    const own = lengths.value[index];
    if (datum !== null && own !== undefined && !followsFrom(length, own))
      wrong(
        ['turned', index, 'length'],
        `it follows from its datum, ${formatSize(own.low, unit)} to ${formatSize(own.high, unit)}: leave it out`,
      );
  });
}

/** How much of a feature's length an edge takes. */
function lengthOfEdge(edge: EdgeFeature): Length {
  switch (edge.kind) {
    case 'chamfer':
      return edge.size;
    case 'fillet':
      return edge.radius;
    case 'undercut':
      return edge.width;
  }
}

/** Edges stand on a feature, one at each end, and there is room for them along and across. */
export function checkEdges({ turned, edges, unit }: Features, wrong: Wrong): void {
  const taken = new Set<string>();
  edges.forEach((edge, index) => {
    if (!turned.some((feature) => feature.id === edge.on))
      wrong(['edges', index, 'on'], `no turned feature is called "${edge.on}"`);
    const place = `${edge.on} ${edge.at} ${edge.kind === 'undercut' ? 'undercut' : 'edge'}`;
    if (taken.has(place)) wrong(['edges', index, 'at'], `the ${edge.at} end of "${edge.on}" has two of a kind`);
    taken.add(place);
  });
  turned.forEach((feature, index) => {
    const on = edges.filter((edge) => edge.on === feature.id);
    const [first] = on;
    if (first === undefined) return;
    const needed = on.reduce<Length>((sum, edge) => plus(sum, lengthOfEdge(edge)), zero);
    const kinds = [...new Set(on.map(({ kind }) => kind))].join(' and ');
    if (needed > feature.length.low)
      wrong(
        ['turned', index, 'length'],
        `shorter than its ${kinds}: ${formatSize(feature.length.low, unit)} long, ${formatSize(needed, unit)} needed`,
      );
    const across =
      feature.kind === 'thread' ? feature.major.low : feature.kind === 'taper' ? feature.small : feature.diameter.low;
    const deep = on.find(
      (edge) => edge.kind !== 'fillet' && times(edge.kind === 'undercut' ? edge.depth : edge.size, 2) >= across,
    );
    if (deep !== undefined)
      wrong(
        ['turned', index, feature.kind === 'thread' ? 'major' : 'diameter'],
        `thinner than its ${deep.kind} is deep: nothing would be left of ${formatSize(across, unit)}`,
      );
  });
}

/** Holes in the ends are deep enough for what is in them; what is milled stands on something and has room there. */
export function checkSides({ mates, turned, ends, milled, unit }: Features, wrong: Wrong): void {
  const shafts = new Set(mates.filter(goesIn).map((mate) => mate.id));
  const size = (length: Length): string => formatSize(length, unit);
  ends.forEach((feature, index) => {
    if (feature.kind === 'tapped-hole' && feature.threadDepth > feature.drillDepth)
      wrong(['ends', index, 'threadDepth'], 'the thread is deeper than its drilled hole');
    if (feature.kind === 'bored-hole' && feature.mate !== null && !shafts.has(feature.mate))
      wrong(['ends', index, 'mate'], `no shaft and no outer ring is called "${feature.mate}"`);
    if (feature.kind === 'bored-hole' && feature.fit !== null && feature.mate === null)
      wrong(['ends', index, 'fit'], 'a fit needs a shaft to fit');
    if (feature.kind === 'bored-hole' && feature.drill >= feature.diameter.low)
      wrong(
        ['ends', index, 'drill'],
        `drilled ${size(feature.drill)}, which leaves nothing to bore to ${size(feature.diameter.low)}`,
      );
    if (feature.kind === 'bored-hole' && feature.drillDepth < feature.depth.high)
      wrong(
        ['ends', index, 'depth'],
        `bored deeper than it is drilled: ${size(feature.depth.high)} and ${size(feature.drillDepth)}`,
      );
  });
  const before = new Set<string>();
  milled.forEach((feature, index) => {
    const on = turned.find((candidate) => candidate.id === feature.on);
    if (on === undefined) wrong(['milled', index, 'on'], `no turned feature is called "${feature.on}"`);
    const timed = feature.timedTo;
    if (timed !== null && !before.has(timed) && !turned.some((candidate) => candidate.id === timed))
      wrong(['milled', index, 'timedTo'], `no turned feature is called "${timed}", and nothing milled before it`);
    before.add(feature.id);
    if (on === undefined) return;
    const room = on.length.high;
    const long = 'length' in feature ? feature.length : feature.diameter;
    if (long > room)
      wrong(
        ['milled', index, 'length' in feature ? 'length' : 'diameter'],
        `${size(long)} long on ${on.name}, which is ${size(room)}`,
      );
    const { along } = feature;
    if (along !== null && (along < 0 || along > room))
      wrong(['milled', index, 'along'], `${size(along)} along ${on.name}, which is ${size(room)} long`);
    const across = on.kind === 'thread' ? on.major.high : on.diameter.high;
    if (feature.kind !== 'cross-hole' && feature.depth >= across)
      wrong(['milled', index, 'depth'], `${size(feature.depth)} deep in ${on.name}, which is ${size(across)} across`);
    if ((feature.kind === 'keyway' || feature.kind === 'pocket') && feature.width >= across)
      wrong(['milled', index, 'width'], `${size(feature.width)} wide in ${on.name}, which is ${size(across)} across`);
  });
}
