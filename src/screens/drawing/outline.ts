import { midway } from '../../measure/index.ts';
import type { FieldReading, SketchFeature } from '../../part/index.ts';

/** A turned feature as drawn, in nanometres from the left end and from the axis. `known` is false where a size only stands in. */
export type OutlineSegment = {
  readonly id: string;
  readonly name: string;
  readonly kind: string;
  readonly left: number;
  readonly wide: number;
  /** The radius at its left and at its right end. */
  readonly leftRadius: number;
  readonly rightRadius: number;
  /** How far its own axis lies off the part's, and which way it points in degrees. */
  readonly off: number;
  readonly direction: number;
  readonly known: boolean;
  readonly across: FieldReading | null;
  readonly length: FieldReading | null;
};

/** A hole in an end, dashed as ISO 128 draws what is hidden; or what is cut into the side. */
export type OutlineMark = {
  readonly id: string;
  readonly name: string;
  readonly kind: 'hole' | 'notch';
  readonly left: number;
  readonly wide: number;
  readonly top: number;
  readonly tall: number;
};

/** A corner that is taken off or hollowed, at an end of a segment. */
export type OutlineEdge = {
  readonly id: string;
  readonly on: string;
  readonly at: 'left' | 'right';
  readonly kind: string;
  /** A chamfer's size, a fillet's radius, an undercut's depth. */
  readonly size: number;
  /** Along the part; of an undercut its width. */
  readonly wide: number;
};

export type Outline = {
  readonly length: number;
  readonly reach: number;
  readonly segments: readonly OutlineSegment[];
  readonly marks: readonly OutlineMark[];
  readonly edges: readonly OutlineEdge[];
  /** Whether an edge lies in the corner to a larger neighbour, where a fillet leaves metal rather than taking it. */
  readonly inCorner: (edge: OutlineEdge) => boolean;
};

const mid = (reading: FieldReading | undefined): number | null =>
  reading === undefined ? null : midway(reading.low, reading.high, 'half-even');

const mean = (values: readonly number[], otherwise: number): number =>
  values.length === 0 ? otherwise : values.reduce((sum, value) => sum + value, 0) / values.length;

/** Ten millimetres, for a part of which nothing is known yet. */
const NOTHING_KNOWN = 10_000_000;

function segmentsOf(turned: readonly SketchFeature[]): OutlineSegment[] {
  const acrossOf = ({ sizes }: SketchFeature): FieldReading | undefined => sizes['diameter'] ?? sizes['major'];
  const knownAcross = turned.flatMap((each) => mid(acrossOf(each)) ?? []);
  const knownLength = turned.flatMap((each) => mid(each.sizes['length']) ?? []);
  const across = mean(knownAcross, NOTHING_KNOWN * 2);
  const length = mean(knownLength, NOTHING_KNOWN);
  let left = 0;
  return turned.map((feature) => {
    const { id, kind, name, sizes, values } = feature;
    const diameter = acrossOf(feature);
    const radius = (mid(diameter) ?? across) / 2;
    const small = kind === 'taper' ? (mid(sizes['small']) ?? radius * 1.4) / 2 : radius;
    const wide = Math.max(mid(sizes['length']) ?? length, 1);
    const smallLeft = values['smallEnd'] === 'left';
    const segment: OutlineSegment = {
      id,
      name,
      kind,
      left,
      wide,
      leftRadius: smallLeft ? small : radius,
      rightRadius: smallLeft ? radius : small,
      off: kind === 'offset-journal' ? (mid(sizes['throw']) ?? 0) : 0,
      direction: Number(values['direction'] ?? 0) || 0,
      known: diameter !== undefined && sizes['length'] !== undefined,
      across: diameter ?? null,
      length: sizes['length'] ?? null,
    };
    left += wide;
    return segment;
  });
}

function holeMark(feature: SketchFeature, length: number): OutlineMark[] {
  const { id, name, sizes, values } = feature;
  const across = mid(sizes['diameter'] ?? sizes['drill']);
  const deep = mid(sizes['depth'] ?? sizes['drillDepth']);
  if (across === null || deep === null) return [];
  return [
    { id, name, kind: 'hole', left: values['end'] === 'right' ? length - deep : 0, wide: deep, top: across / 2, tall: across },
  ];
}

function sideMark(feature: SketchFeature, segments: readonly OutlineSegment[], length: number): OutlineMark[] {
  const { id, name, kind, sizes, values } = feature;
  const on = segments.find((segment) => segment.id === values['on']);
  const wide = mid(sizes['length'] ?? sizes['diameter']);
  if (on === undefined || wide === null) return [];
  const radius = Math.max(on.leftRadius, on.rightRadius);
  const through = kind === 'cross-hole' && sizes['depth'] === undefined;
  const deep = through ? 2 * radius : (mid(sizes['depth']) ?? 0);
  const along = mid(sizes['along']);
  const atEnd = kind === 'flat' || kind === 'keyway';
  const resting = !atEnd ? on.left + (on.wide - wide) / 2 : on.left === 0 && length > on.wide ? 0 : on.left + on.wide - wide;
  return [
    {
      id,
      name,
      kind: 'notch',
      left: along === null ? resting : on.left + along - wide / 2,
      wide,
      top: radius + on.off,
      tall: deep,
    },
  ];
}

/** The part from the side, to scale, at the middle of its limits; what does not read yet stands in at the mean of the others. */
export function outlineOf(sketch: readonly SketchFeature[]): Outline {
  const group = (name: SketchFeature['group']): readonly SketchFeature[] => sketch.filter((feature) => feature.group === name);
  const segments = segmentsOf(group('turned'));
  const last = segments.at(-1);
  const length = last === undefined ? 0 : last.left + last.wide;
  const reach = Math.max(0, ...segments.map(({ leftRadius, rightRadius, off }) => Math.max(leftRadius, rightRadius) + off));
  const edges = group('edges').flatMap(({ id, kind, sizes, values }): OutlineEdge[] => {
    const size = mid(sizes['size'] ?? sizes['radius'] ?? sizes['depth']);
    const at = values['at'] === 'right' ? 'right' : 'left';
    return size === null || values['on'] === undefined
      ? []
      : [{ id, on: values['on'], at, kind, size, wide: mid(sizes['width']) ?? size }];
  });
  const marks = [
    ...group('ends').flatMap((end) => holeMark(end, length)),
    ...group('milled').flatMap((milled) => sideMark(milled, segments, length)),
  ];
  const inCorner = ({ on, at }: OutlineEdge): boolean => {
    const index = segments.findIndex((segment) => segment.id === on);
    const own = segments[index];
    const beside = segments[at === 'left' ? index - 1 : index + 1];
    if (own === undefined || beside === undefined) return false;
    return at === 'left' ? beside.rightRadius > own.leftRadius : beside.leftRadius > own.rightRadius;
  };
  return { length, reach, segments, marks, edges, inCorner };
}
