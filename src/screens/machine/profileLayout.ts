import { midway, type Length } from '../../measure/index.ts';
import { progressOf, type JobState } from '../../job/index.ts';
import type { Part, TurnedFeature } from '../../part/index.ts';

/** How far a feature has come: nothing done at it, some, all; `now` is the one that the open step works on. */
export type FeatureState = 'to-come' | 'begun' | 'done' | 'now';

/** A turned feature as drawn. Lengths in nanometres, from the left end and from the axis of the part. */
export type ProfileSegment = {
  readonly id: string;
  readonly name: string;
  readonly kind: TurnedFeature['kind'];
  readonly state: FeatureState;
  readonly left: number;
  readonly width: number;
  readonly radius: number;
  /** How far its own axis lies above the part's. */
  readonly off: number;
};

export type ProfileMark = {
  readonly id: string;
  readonly name: string;
  readonly kind: 'hole' | 'notch';
  readonly state: FeatureState;
  readonly left: number;
  readonly width: number;
  readonly top: number;
  readonly height: number;
};

/** A fillet in a corner or an undercut, at an end of a segment; lengths in nanometres. */
export type ProfileCorner = {
  readonly id: string;
  readonly kind: 'fillet' | 'undercut';
  readonly at: 'left' | 'right';
  readonly state: FeatureState;
  readonly along: number;
  readonly radius: number;
  readonly off: number;
  readonly wide: number;
  readonly deep: number;
};

export type ProfileLayout = {
  readonly length: number;
  readonly stockRadius: number;
  readonly segments: readonly ProfileSegment[];
  /** Where the bar still stands at its full size: runs of features that are not finished. */
  readonly uncut: readonly { readonly left: number; readonly width: number }[];
  readonly marks: readonly ProfileMark[];
  readonly corners: readonly ProfileCorner[];
};

const middle = (limits: { readonly low: Length; readonly high: Length }): Length => midway(limits.low, limits.high, 'half-even');

/**
 * How far a feature has come. The outline shows diameters, so the steps that measure one decide where there are any: parting
 * off beside a collar does not make the collar unfinished.
 */
function featureState(state: JobState, feature: string): FeatureState {
  const steps = state.plan.route.operations.filter((operation) => operation.feature === feature);
  if (steps.some((operation) => operation.id === state.open)) return 'now';
  const across = steps.filter((operation) => operation.target?.quantity === 'diameter');
  const deciding = across.length > 0 ? across : steps;
  const waiting = deciding.filter((operation) => progressOf(state, operation.id).status === 'waiting').length;
  if (deciding.length > 0 && waiting === 0) return 'done';
  return waiting < deciding.length ? 'begun' : 'to-come';
}

function segmentsOf(part: Part, stateOf: (feature: string) => FeatureState): ProfileSegment[] {
  let left = 0;
  return part.turned.map((feature) => {
    const width = middle(feature.length);
    const across = middle(feature.kind === 'thread' ? feature.major : feature.diameter);
    const segment = {
      id: feature.id,
      name: feature.name,
      kind: feature.kind,
      state: stateOf(feature.id),
      left,
      width,
      radius: across / 2,
      off: feature.kind === 'offset-journal' ? feature.throw : 0,
    };
    left += width;
    return segment;
  });
}

function uncutRuns(segments: readonly ProfileSegment[]): { left: number; width: number }[] {
  const runs: { left: number; width: number }[] = [];
  for (const { state, left, width } of segments) {
    if (state === 'done') continue;
    const last = runs.at(-1);
    if (last !== undefined && last.left + last.width === left) last.width += width;
    else runs.push({ left, width });
  }
  return runs;
}

/** Holes in the ends, and what is milled into the side, which is drawn turned to the top. */
function marksOf(
  part: Part,
  segments: readonly ProfileSegment[],
  length: number,
  stateOf: (feature: string) => FeatureState,
): ProfileMark[] {
  const holes = part.ends.flatMap((end): ProfileMark[] =>
    end.kind === 'centre'
      ? []
      : [
          {
            id: end.id,
            name: end.name,
            kind: 'hole',
            state: stateOf(end.id),
            width: end.drillDepth,
            height: end.drill,
            left: end.end === 'left' ? 0 : length - end.drillDepth,
            top: end.drill / 2,
          },
        ],
  );
  const notches = part.milled.flatMap((milled): ProfileMark[] => {
    const on = segments.find((segment) => segment.id === milled.on);
    if (on === undefined) return [];
    const round = milled.kind === 'pin-pocket' || milled.kind === 'cross-hole';
    const width = round ? milled.diameter : milled.length;
    const atLeftEnd = on.left === 0;
    const unplaced = round ? on.left + (on.width - width) / 2 : atLeftEnd ? 0 : on.left + on.width - width;
    const left = milled.along === null ? unplaced : on.left + milled.along - width / 2;
    return [
      {
        id: milled.id,
        name: milled.name,
        kind: 'notch',
        state: stateOf(milled.id),
        left,
        width,
        top: on.radius + on.off,
        height: milled.depth ?? 2 * on.radius,
      },
    ];
  });
  return [...holes, ...notches];
}

/** Fillets into a larger neighbour, and undercuts: as far as the feature that they are on. Chamfers are too small to be seen. */
function cornersOf(part: Part, segments: readonly ProfileSegment[]): ProfileCorner[] {
  return part.edges.flatMap((edge): ProfileCorner[] => {
    const index = segments.findIndex((segment) => segment.id === edge.on);
    const on = segments[index];
    const beside = segments[edge.at === 'left' ? index - 1 : index + 1];
    if (on === undefined || edge.kind === 'chamfer') return [];
    if (edge.kind === 'fillet' && (beside === undefined || beside.radius <= on.radius)) return [];
    const { id, kind, at } = edge;
    const { state, radius, off } = on;
    const size = edge.kind === 'fillet' ? { wide: edge.radius, deep: edge.radius } : { wide: edge.width, deep: edge.depth };
    return [{ id, kind, at, state, radius, off, along: at === 'left' ? on.left : on.left + on.width, ...size }];
  });
}

/** The part from the side, to scale, at the middle of its limits, with how far each feature has come. */
export function profileLayout(state: JobState): ProfileLayout {
  const { part } = state.plan;
  const stateOf = (feature: string): FeatureState => featureState(state, feature);
  const segments = segmentsOf(part, stateOf);
  const last = segments.at(-1);
  const length = last === undefined ? 0 : last.left + last.width;
  return {
    length,
    stockRadius: part.stock.size / 2,
    segments,
    uncut: uncutRuns(segments),
    marks: marksOf(part, segments, length, stateOf),
    corners: cornersOf(part, segments),
  };
}
