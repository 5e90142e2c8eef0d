import { midway, minus, type Length } from '../../measure/index.ts';
import { givenLengths, spanOf, type Datum, type Limits, type Part, type TurnedFeature } from '../../part/index.ts';
import type { Operation } from '../operation.ts';
import { ALLOWANCES, BOUNDS } from './allowances.ts';
import { bare, inSentence, target, type Holding, type Step } from './draft.ts';
import { gripOn, otherEnd, type Bar, type Layout, type Side } from './layout.ts';

/** What a length is counted from, as it is said after "from the". */
const DATUM_WORDS: Readonly<Record<Datum, string>> = {
  'left-face': 'left face',
  'right-face': 'right face',
  'left-shoulder': 'left shoulder',
  'right-shoulder': 'right shoulder',
};

/** The words of a feature's datum; null where its length names none. */
export const datumOf = ({ datum }: TurnedFeature): string | null => (datum === null ? null : DATUM_WORDS[datum.from]);

/** A length as its drawing gives it, to be held and read: the feature that gives it, its limits, and what it is counted from. */
export type NamedLength = { readonly feature: TurnedFeature; readonly limits: Limits; readonly datum: string | null };

/** Planes count from the left face, 0, to the right face; plane i is the right end of the i-th feature from the left. */
type Planes = ReadonlySet<number>;

/** The length of the whole part, by the chain of its lengths. */
export const overallOf = ({ turned, unit }: Part): Limits =>
  // Every plane of a part is reached: its schema has held the chain against that.
  spanOf(givenLengths(turned), 0, turned.length) ?? { low: ALLOWANCES[unit].clean, high: ALLOWANCES[unit].clean };

/** The length that names a face and is that of the whole part; null where there is none. */
export function wholeLength({ turned }: Part): NamedLength | null {
  const given = givenLengths(turned).find(({ left, right }) => left === 0 && right === turned.length);
  const feature = given === undefined ? undefined : turned[given.feature];
  if (given === undefined || feature === undefined || feature.datum === null) return null;
  return { feature, limits: given.limits, datum: datumOf(feature) };
}

/** The plane of a bar's inboard shoulder on a side whose end is `end`. */
function shoulderPlane({ turned }: Part, { feature }: Bar, end: 'left' | 'right'): number {
  const at = turned.indexOf(feature);
  return end === 'right' ? at : at + 1;
}

const facePlane = ({ turned }: Part, end: 'left' | 'right'): number => (end === 'left' ? 0 : turned.length);

const shouldersOn = (part: Part, side: Side, end: 'left' | 'right'): number[] =>
  side.filter(({ offset }) => offset === 0).map((bar) => shoulderPlane(part, bar, end));

/** Where a bar's stop stands from the finished face of its own end, where its length is counted from that face; else null. */
export function fromFace(
  feature: TurnedFeature,
  end: 'left' | 'right',
): { readonly from: string; readonly distance: Length } | null {
  const { datum } = feature;
  if (datum?.from !== `${end}-face`) return null;
  return { from: DATUM_WORDS[datum.from], distance: midway(datum.length.low, datum.length.high, 'half-even') };
}

/**
 * The length that facing an end brings in: of all that end at this face and whose other end stands already, the one with the
 * least room, and the outermost feature's own of two alike. `standing` are the planes that are cut before.
 */
export function closedBy(part: Part, end: 'left' | 'right', outermost: TurnedFeature, standing: Planes): NamedLength {
  const face = facePlane(part, end);
  const own: NamedLength = { feature: outermost, limits: outermost.length, datum: datumOf(outermost) };
  if (part.turned.every(({ datum }) => datum === null)) return own;
  const ends = givenLengths(part.turned).filter(
    ({ left, right }) => (left === face && standing.has(right)) || (right === face && standing.has(left)),
  );
  const room = ({ low, high }: Limits): Length => minus(high, low);
  const tightest = ends.reduce<(typeof ends)[number] | null>((best, each) => {
    if (best === null || room(each.limits) < room(best.limits)) return each;
    return room(each.limits) === room(best.limits) && part.turned[each.feature] === outermost ? each : best;
  }, null);
  const feature = tightest === null ? undefined : part.turned[tightest.feature];
  return tightest === null || feature === undefined ? own : { feature, limits: tightest.limits, datum: datumOf(feature) };
}

/** The planes that stand once the first end is done: its face, and the shoulders that are not off centre. */
export function standingAfterFirst(part: Part, { first, firstEnd }: Layout): Planes {
  return new Set([facePlane(part, firstEnd), ...shouldersOn(part, first, firstEnd)]);
}

/** Those that stand once the second end is turned but for its face. */
export function standingAfterSecond(part: Part, layout: Layout): Planes {
  return new Set([...standingAfterFirst(part, layout), ...shouldersOn(part, layout.second, otherEnd(layout.firstEnd))]);
}

/** The planes that a set-up adds: by its id, as the generator names them; `facing` is the step that faces the second end. */
function cutIn(part: Part, layout: Layout, { setup, steps }: Holding, facing: string): number[] {
  const { first, second, firstEnd } = layout;
  const last = otherEnd(firstEnd);
  const face = steps.some(({ id }) => id === facing) ? [facePlane(part, last)] : [];
  if (setup.id === 'ends') return [0, part.turned.length];
  if (setup.id === 'first-end') return [facePlane(part, firstEnd), ...shouldersOn(part, first, firstEnd)];
  if (setup.id === 'second-end') return [...face, ...shouldersOn(part, second, last)];
  const thrown = [...first, ...second].find(({ feature, offset }) => offset > 0 && setup.id === `offset-${feature.id}`);
  if (thrown === undefined) return face;
  return [...face, shoulderPlane(part, thrown, first.includes(thrown) ? firstEnd : last)];
}

/** The end of the part that is turned in a set-up; the other one is held. */
function freeEnd({ first, firstEnd }: Layout, { setup }: Holding): 'left' | 'right' {
  const onFirst = setup.id === 'first-end' || first.some(({ feature }) => setup.id === `offset-${feature.id}`);
  return onFirst ? firstEnd : otherEnd(firstEnd);
}

/** The finished feature that is held while an end is free; the pivot where nothing holds better. */
const heldWith = ({ first, second, pivot, firstEnd }: Layout, free: 'left' | 'right'): TurnedFeature =>
  (gripOn(free === firstEnd ? second : first, pivot, BOUNDS.grip) ?? pivot).feature;

/** True where both ends of a length stand clear of the jaws that hold a finished feature; the end `free` points out of them. */
export function clearOfJaws({ turned }: Part, feature: TurnedFeature, grip: TurnedFeature, free: 'left' | 'right'): boolean {
  const given = givenLengths(turned).find((one) => turned[one.feature] === feature);
  const at = turned.indexOf(grip);
  return given === undefined || (free === 'left' ? given.right <= at : given.left > at);
}

/** What a reading of a length comes after, in its set-up. */
const CUTS: ReadonlySet<Operation['kind']> = new Set(['finish', 'file', 'try-fit', 'length', 'groove', 'taper']);

/** A close length is read with a depth micrometer where its shoulder looks the way of its datum, else over its two ends. */
export function lengthInstrument(part: Part, { feature, limits, datum }: NamedLength): Operation['instrument'] {
  if (minus(limits.high, limits.low) > BOUNDS.closeLength) return 'caliper';
  if (datum === null || feature.datum === null) return 'depth-micrometer';
  const at = part.turned.indexOf(feature);
  const beyond = part.turned[feature.datum.from.startsWith('left') ? at + 1 : at - 1];
  return beyond !== undefined && acrossOf(beyond) > acrossOf(feature) ? 'depth-micrometer' : 'micrometer';
}

const acrossOf = (one: TurnedFeature): Length => (one.kind === 'thread' ? one.major.high : one.diameter.high);

/** Which end of the part a plane looks to: a face outward, a shoulder away from the larger of its two neighbours. */
function looks({ turned }: Part, plane: number): 'left' | 'right' {
  const [before, after] = [turned[plane - 1], turned[plane]];
  if (before === undefined) return 'left';
  if (after === undefined) return 'right';
  return acrossOf(before) > acrossOf(after) ? 'right' : 'left';
}

/**
 * What helps where a length does not come out: its far end is faced back into the metal and no other way, which makes the length
 * longer or shorter by the way that end looks; one that looks to the end that is held waits for the next holding.
 */
function helpFor(part: Part, { from, far, free }: { from: number; far: number; free: 'left' | 'right' | 'both' }): string {
  const way = looks(part, far);
  const grooved = part.turned.slice(Math.max(0, far - 1), far + 1).some(({ kind }) => kind === 'groove');
  const end = far === 0 || far === part.turned.length ? 'end' : 'shoulder';
  const grows = far > from ? way === 'left' : way === 'right';
  const [off, other] = grows ? ['Short of it', 'past it'] : ['Over it', 'under it'];
  if (grooved) return `${off}, the wall of the groove goes back by what is left; ${other}, it stays.`;
  return free === 'both' || free === way
    ? `${off}, face the ${end} back by what is left; ${other}, it stays.`
    : `${off}, the ${end} wants facing back, with the part turned end for end and dialled in again; ${other}, it stays.`;
}

function readingStep(part: Part, named: NamedLength, reached: boolean, help: string): Step {
  const { feature, limits, datum } = named;
  const name = inSentence(feature);
  const aim = midway(limits.low, limits.high, 'half-even');
  return {
    id: `read-length-${feature.id}`,
    kind: 'length',
    title: `Measure the ${name} from the ${datum ?? 'shoulder'}: ${bare(aim, part.unit)}`,
    say: `Measure the ${name} from the ${datum ?? 'shoulder'}`,
    feature: feature.id,
    target: { ...target('length', { ...limits, aim }, null, null), datum },
    instrument: lengthInstrument(part, named),
    note: help,
    before: reached ? [] : ['One end of it is in the chuck: over the jaws, or once the part is out.'],
    minutes: 3,
  };
}

/**
 * The set-ups with a reading of every length that names its datum, as soon as both its ends stand; not of one that a facing
 * brings in, which is read there.
 */
export function withReadings(part: Part, layout: Layout, holdings: readonly Holding[], facing: string): Holding[] {
  if (part.turned.every(({ datum }) => datum === null)) return [...holdings];
  const faced = new Set(
    holdings.flatMap(({ steps }) => steps.flatMap(({ kind, feature }) => (kind === 'length' ? [feature] : []))),
  );
  let waiting = givenLengths(part.turned).filter(({ feature }) => {
    const gives = part.turned[feature];
    return gives !== undefined && gives.datum !== null && !faced.has(gives.id);
  });
  const standing = new Set<number>();
  const pivot = part.turned.indexOf(layout.pivot.feature);
  const betweenCentres = holdings.some(({ setup }) => setup.id === 'ends');
  return holdings.map((holding): Holding => {
    const cut = new Set(cutIn(part, layout, holding, facing));
    for (const plane of cut) standing.add(plane);
    const due = waiting.filter(({ left, right }) => standing.has(left) && standing.has(right));
    waiting = waiting.filter((each) => !due.includes(each));
    const face = holding.steps.findIndex(({ id }) => id === facing);
    const last = facePlane(part, otherEnd(layout.firstEnd));
    // A shoulder that is faced back moves what the last facing brings in: what does not need that face is read before it.
    const early = (each: (typeof due)[number]): boolean => face >= 0 && each.left !== last && each.right !== last;
    const reading = ({ feature, left, right, limits }: (typeof due)[number]): Step[] => {
      const gives = part.turned[feature];
      if (gives === undefined) return [];
      const onLeft = gives.datum?.from === 'left-face' || gives.datum?.from === 'left-shoulder';
      const free = freeEnd(layout, holding);
      // While the first end is turned the bar is held behind the pivot.
      const reached =
        betweenCentres ||
        (holding.setup.id === 'first-end'
          ? free === 'left'
            ? right <= pivot + 1
            : left >= pivot
          : clearOfJaws(part, gives, heldWith(layout, free), free));
      const ends = { from: onLeft ? left : right, far: onLeft ? right : left, free: betweenCentres ? ('both' as const) : free };
      return [readingStep(part, { feature: gives, limits, datum: datumOf(gives) }, reached, helpFor(part, ends))];
    };
    if (due.length === 0) return holding;
    const before = due.filter(early).flatMap(reading);
    const after = due.filter((each) => !early(each)).flatMap(reading);
    const { steps } = holding;
    const at = steps.findLastIndex(({ kind }) => CUTS.has(kind)) + 1;
    const facedAt = face >= 0 ? face : at;
    return {
      ...holding,
      steps: [...steps.slice(0, facedAt), ...before, ...steps.slice(facedAt, at), ...after, ...steps.slice(at)],
    };
  });
}
