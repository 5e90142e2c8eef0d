import {
  dividedBy,
  formatAmount,
  larger,
  micrometres,
  midway,
  millimetres,
  minus,
  nanometres,
  plus,
  smaller,
  thou,
  times,
  zero,
  type Length,
} from '../../measure/index.ts';
import type { MilledFeature, TurnedFeature } from '../../part/index.ts';
import type { Coordinate } from '../operation.ts';
import { ALLOWANCES } from './allowances.ts';
import { MILLED_RA_UM, milledFeed, millingCut, rpmAt, speedWhy } from './cuts.ts';
import { bare, inSentence, target, type Step, type Work } from './draft.ts';
import { depthTarget } from './endSteps.ts';
import { limitsOf } from './layout.ts';

/** End mills that a shop has, from the largest: a pocket is cleared with the largest that leaves a little for its walls. Ours. */
const INCH_CUTTERS = [500, 375, 250, 187.5, 125].map((size) => thou(size));
const METRIC_CUTTERS = [12, 10, 8, 6, 5, 4, 3].map((size) => millimetres(size));

/**
 * The cutters beside a mill: metric where its dials are. What unit the part is written in does not matter: the cutters are those
 * of the machine.
 */
const cuttersOf = ({ machine }: NonNullable<Work['mill']>): readonly Length[] =>
  machine.crossSlide.division % micrometres(5) === 0 ? METRIC_CUTTERS : INCH_CUTTERS;

/** The cutter of a milled feature. */
function cutterOf(feature: MilledFeature, cutters: readonly Length[]): Length {
  switch (feature.kind) {
    case 'pin-pocket':
    case 'cross-hole':
      return feature.diameter;
    case 'keyway':
      return feature.width;
    case 'flat':
      return cutters[0] ?? feature.depth;
    case 'pocket': {
      const narrow = smaller(feature.width, feature.length);
      return cutters.find((cutter) => cutter < narrow) ?? narrow;
    }
  }
}

const across = (feature: TurnedFeature): Length => {
  const { low, high } = limitsOf(feature);
  return midway(low, high, 'half-even');
};

/** Where a turned feature begins, from the left end of the part, and how long it is, in the middle of its limits. */
function placeOf({ part }: Work, id: string): { readonly left: Length; readonly length: Length } {
  let left = zero;
  for (const feature of part.turned) {
    const length = midway(feature.length.low, feature.length.high, 'half-even');
    if (feature.id === id) return { left, length };
    left = plus(left, length);
  }
  return { left: zero, length: zero };
}

const size = ({ part }: Work, length: Length): string => bare(length, part.unit);

/**
 * Where a feature lies on the readout: x from the left end of the part, y from its axis, z down from the top of what it is cut
 * in.
 * At each place stands the centre of the cutter.
 */
export function coordinatesOf(work: Work, mill: NonNullable<Work['mill']>, feature: MilledFeature): readonly Coordinate[] {
  const on = work.part.turned.find((candidate) => candidate.id === feature.on);
  if (on === undefined) return [];
  const { left, length } = placeOf(work, feature.on);
  const cutter = cutterOf(feature, cuttersOf(mill));
  const half = (whole: Length): Length => dividedBy(whole, 2, 'half-even');
  const endOn = left === 0 ? left : plus(left, length);
  /** Without a place of its own, what is open at an end lies at that end, and everything else in the middle. */
  const middle = (long: Length, atEnd: boolean): Length => {
    if (feature.along !== null) return plus(left, feature.along);
    const last = plus(left, length);
    const outer = work.part.turned[0]?.id === feature.on || work.part.turned.at(-1)?.id === feature.on;
    if (!atEnd || !outer) return plus(left, half(length));
    return endOn === left ? plus(left, half(long)) : minus(last, half(long));
  };
  switch (feature.kind) {
    case 'pin-pocket':
      return [{ at: 'centre', x: middle(zero, false), y: zero, z: feature.depth }];
    case 'cross-hole':
      return [{ at: 'centre', x: middle(zero, false), y: zero, z: feature.depth ?? across(on) }];
    case 'keyway': {
      const reach = half(larger(minus(feature.length, cutter), zero));
      const centre = middle(feature.length, false);
      return [
        { at: 'left end', x: minus(centre, reach), y: zero, z: feature.depth },
        { at: 'right end', x: plus(centre, reach), y: zero, z: feature.depth },
      ];
    }
    case 'pocket': {
      const [along, wide] = [half(larger(minus(feature.length, cutter), zero)), half(larger(minus(feature.width, cutter), zero))];
      const centre = middle(feature.length, false);
      const corner = (at: string, x: Length, y: Length): Coordinate => ({ at, x, y, z: feature.depth });
      return [
        corner('left, front', minus(centre, along), nanometres(-wide)),
        corner('right, front', plus(centre, along), nanometres(-wide)),
        corner('right, back', plus(centre, along), wide),
        corner('left, back', minus(centre, along), wide),
      ];
    }
    case 'flat': {
      const centre = middle(feature.length, true);
      const [from, to] = [minus(centre, half(feature.length)), plus(centre, half(feature.length))];
      // Along the axis, no further than the ends of the flat, and side by side where the flat is wider than the cutter.
      const lane = half(cutter);
      const first = smaller(plus(from, lane), centre);
      const last = larger(minus(to, lane), centre);
      const wide = lanes(flatWidth(across(on), feature.depth), cutter);
      return wide.flatMap((y, index): Coordinate[] => {
        const lane = wide.length === 1 ? '' : `, lane ${index + 1}`;
        if (first >= last) return [{ at: `middle${lane}`, x: centre, y, z: feature.depth }];
        return [
          { at: `left end${lane}`, x: first, y, z: feature.depth },
          { at: `right end${lane}`, x: last, y, z: feature.depth },
        ];
      });
    }
  }
}

/** How wide a flat of a depth is on a round: 2·√(2rd − d²). */
const flatWidth = (diameter: Length, depth: Length): Length => nanometres(Math.round(2 * Math.sqrt((diameter - depth) * depth)));

/** What a feature's angle is counted from, in words; the high spot of an offset journal, or another milled feature. */
function directionOf(work: Work, feature: MilledFeature): string {
  const { part } = work;
  const timed = [...part.turned, ...part.milled].find((candidate) => candidate.id === feature.timedTo);
  if (timed === undefined) return '';
  const name = inSentence(timed);
  const what = timed.kind === 'offset-journal' ? `the high spot of the ${name}` : `the ${name}`;
  return feature.angle === 0 ? `in line with ${what}` : `${String(feature.angle)} degrees from ${what}`;
}

/** How far off the axis the middle of a cutter goes to clear a width: once, or side by side with a fifth of it over. */
function lanes(width: Length, cutter: Length): readonly Length[] {
  if (width <= cutter) return [zero];
  const side = dividedBy(minus(width, cutter), 2, 'ceiling');
  const count = Math.ceil((width - cutter) / (0.8 * cutter)) + 1;
  return Array.from({ length: count }, (_, index) => nanometres(Math.round(-side + (2 * side * index) / (count - 1))));
}

/** How a roughness is come by at the mill, and that it is not where it is finer than milling leaves. */
function finishNote({ part }: Work, feature: MilledFeature, cutter: Length, roughness: number): string {
  const feed = formatAmount(milledFeed(roughness, cutter, part.unit), part.unit);
  const where = feature.kind === 'flat' ? 'over the flat' : 'round the walls and over the bottom';
  const fine =
    roughness < MILLED_RA_UM.finest
      ? ` Milling seldom leaves less than Ra ${String(MILLED_RA_UM.finest)}: stone, scrape or grind it for that.`
      : '';
  return `Ra ${String(roughness)} is wanted: a sharp cutter, and a last light pass ${where} at ${feed} a turn or less, compared with a specimen.${fine}`;
}

function millStep(work: Work, mill: NonNullable<Work['mill']>, feature: MilledFeature, turned: boolean): Step {
  const { part } = work;
  const on = part.turned.find((candidate) => candidate.id === feature.on);
  const cutter = cutterOf(feature, cuttersOf(mill));
  const drilled = feature.kind === 'cross-hole';
  const cut = millingCut(mill, cutter, drilled ? 'drill' : 'end mill');
  const name = inSentence(feature);
  const where = directionOf(work, feature);
  const through = drilled && feature.depth === null;
  const depth = feature.depth ?? (on === undefined ? cutter : across(on));
  const width =
    feature.kind === 'flat' && on !== undefined
      ? [`It will be ${size(work, flatWidth(across(on), depth))} wide: 2√(2rd − d²).`]
      : [];
  // What a micrometer reads from the bottom to the far side tells the depth better than the readout does.
  const check =
    on !== undefined && (feature.kind === 'flat' || feature.kind === 'keyway')
      ? `From its bottom to the far side of the ${inSentence(on)}: ${size(work, minus(across(on), depth))}.`
      : null;
  const steel = { ...mill, tool: 'high-speed-steel' as const };
  const roughness = 'roughness' in feature ? feature.roughness : null;
  return {
    id: `mill-${feature.id}`,
    kind: drilled ? 'drill' : 'mill',
    title: `${drilled ? 'Drill' : 'Mill'} the ${name}, ${through ? 'through' : `${size(work, depth)} deep`}${where === '' ? '' : `, ${where}`}`,
    say: `${drilled ? 'Drill' : 'Mill'} the ${name}`,
    feature: feature.id,
    target: through
      ? target('depth', { low: depth, aim: plus(depth, cutter), high: plus(depth, times(cutter, 2)) }, zero, null)
      : depthTarget(work, depth, ALLOWANCES[part.unit].milledOff),
    instrument: 'readout',
    cut,
    caution: drilled ? 'drilling' : 'milling',
    note:
      [
        feature.kind === 'pocket'
          ? 'Plunge at one end, then along; the walls last, all round.'
          : feature.kind === 'keyway'
            ? 'Plunge at one end, then along. A cutter a little under size, then both walls, gives a closer key.'
            : null,
        check,
        roughness === null ? null : finishNote(work, feature, cutter, roughness),
      ]
        .filter((line) => line !== null)
        .join(' ') || null,
    before: [
      ...(turned
        ? [
            `Work turned to ${where === '' ? `${String(feature.angle)} degrees` : where}${feature.angle === 0 ? '' : ', clockwise seen from the left end'}, and clamped; X touched again at the left end.`,
          ]
        : []),
      `Top of the ${on === undefined ? 'work' : inSentence(on)} touched with the cutter, z at zero.`,
    ],
    why: [
      speedWhy(steel, cutter, drilled ? ['drill'] : [], rpmAt(steel, cutter, drilled ? ['drill'] : [])),
      ...width,
      ...(feature.kind === 'pocket'
        ? [
            `A cutter of ${formatAmount(cutter, part.unit)} leaves corners of ${formatAmount(dividedBy(cutter, 2, 'half-even'), part.unit)} radius.`,
          ]
        : []),
    ],
    angle: feature.angle === 0 ? null : feature.angle,
    coordinates: [...coordinatesOf(work, mill, feature)],
    minutes: 10,
  };
}

/**
 * What is milled: the edges are found once, the high spot before the first thing that is timed to it, then each feature at its
 * place on the readout.
 */
export function millSteps(work: Work): Step[] {
  const { part, mill } = work;
  const [first] = part.milled;
  if (mill === null || first === undefined) return [];
  const steps: Step[] = [];
  const found = new Set<string>();
  let facing = ' 0';
  const on = part.turned.find((candidate) => candidate.id === first.on);
  const edge: Step = {
    id: `edges-${first.id}`,
    kind: 'find-edge',
    title: 'Find the left end and both sides: zero of the readout',
    say: 'Find the edges',
    feature: on?.id ?? null,
    instrument: 'readout',
    note: `X is zero at the left end, Y on the axis, half way between the sides of the ${on === undefined ? 'work' : inSentence(on)}. Half the tip of the finder is taken off at each.`,
    before: ['Work level and along X by the indicator, clamped; burrs off.'],
    minutes: 6,
  };
  for (const feature of part.milled) {
    const timed = part.turned.find((candidate) => candidate.id === feature.timedTo);
    const fresh = timed !== undefined && !found.has(timed.id);
    if (fresh) {
      found.add(timed.id);
      steps.push({
        id: `high-spot-${feature.id}`,
        kind: 'find-high-spot',
        title: `Find the high spot of the ${inSentence(timed)} and turn it up`,
        say: `Find the high spot of the ${inSentence(timed)}`,
        feature: timed.id,
        instrument: 'indicator',
        note: timed.kind === 'offset-journal' ? `Low to high is ${bare(plus(timed.throw, timed.throw), part.unit)}.` : null,
        before: ['Clamp just loose enough to turn the work by hand.'],
        why: ['Everything that is timed is counted from here; clamp and read again, since clamping turns it.'],
        minutes: 8,
      });
    }
    if (steps.every(({ id }) => id !== edge.id)) steps.push(edge);
    // Anything at another angle than the one before wants the work turned.
    const at = `${feature.timedTo ?? ''} ${feature.angle}`;
    const upAlready = fresh && feature.angle === 0;
    steps.push(millStep(work, mill, feature, at !== facing && !upAlready));
    facing = at;
  }
  return steps;
}
