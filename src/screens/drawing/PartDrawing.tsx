import { useId, useMemo } from 'react';
import { midway, type DisplayUnit } from '../../measure/index.ts';
import type { FieldReading, SketchFeature } from '../../part/index.ts';
import { bareSize, bothLimits } from '../show.ts';
import { drawingWords as w } from './drawingWords.ts';
import { filletPath, undercutPath, type End } from './corners.ts';
import { dimensionRow, leastRoom, LETTER, type Dimension, type DimensionLabel } from './dimensions.ts';
import { outlineOf, type Outline, type OutlineSegment } from './outline.ts';
import { useWidth } from './useWidth.ts';

/** The part itself is never higher than this, in drawing units, nor wider than the room. */
const TALLEST = 210;
const EDGE = 14;
/** From the part to the line of its lengths, and from that to the texts under it. */
const CHAIN = 20;

type Props = {
  readonly sketch: readonly SketchFeature[];
  readonly unit: DisplayUnit;
  /** The feature that is being typed, or null. */
  readonly chosen?: string | null;
  readonly onChoose?: (id: string) => void;
  /** Drawn this wide where there is no room to measure: on paper. */
  readonly wide?: number;
};

/** A size as it stands at a drawing: its middle, and both limits where they are closer than a person would guess. */
function sizeText({ low, high, fit }: FieldReading, unit: DisplayUnit): string {
  const close = high - low <= (fit === null ? 60_000 : 1_000_000);
  return close && low !== high ? w.limits(...bothLimits(low, high, unit)) : bareSize(midway(low, high, 'half-even'), unit);
}

type Scale = {
  readonly x: (along: number) => number;
  readonly span: (length: number) => number;
  readonly room: number;
  readonly axis: number;
};

function scaleOf(outline: Outline, wide: number, top: number): Scale {
  const room = wide - 2 * EDGE;
  const perNm = Math.min(room / Math.max(outline.length, 1), TALLEST / Math.max(2 * outline.reach, 1));
  const start = EDGE + (room - outline.length * perNm) / 2;
  return { x: (along) => start + along * perNm, span: (length) => length * perNm, room, axis: top + outline.reach * perNm };
}

/** The outline of one feature, its corners taken off where they are chamfered. */
function shapeOf(segment: OutlineSegment, outline: Outline, { x, span, axis }: Scale): string {
  const cut = (at: 'left' | 'right'): number =>
    span(outline.edges.find((edge) => edge.on === segment.id && edge.at === at && edge.kind === 'chamfer')?.size ?? 0);
  const [from, to, up] = [x(segment.left), x(segment.left + segment.wide), axis - span(segment.off)];
  const [l, r, cl, cr] = [span(segment.leftRadius), span(segment.rightRadius), cut('left'), cut('right')];
  return `M${from},${up - l + cl} L${from + cl},${up - l} L${to - cr},${up - r} L${to},${up - r + cr} V${up + r - cr} L${to - cr},${up + r} L${from + cl},${up + l} L${from},${up + l - cl} Z`;
}

function Label({
  label,
  x,
  y,
  above,
}: {
  readonly label: DimensionLabel;
  readonly x: number;
  readonly y: number;
  readonly above: boolean;
}) {
  const middle = x + label.x + label.wide / 2;
  const near = above ? y - label.y : y + label.y;
  return (
    <g>
      {label.leader && <line className="drawing-leader" x1={x + label.tip} y1={y} x2={middle} y2={above ? near + 2 : near - 2} />}
      {label.turned ? (
        <text
          className="drawing-text"
          textAnchor={above ? 'start' : 'end'}
          transform={`translate(${middle + LETTER.tall * 0.32},${near}) rotate(-90)`}
        >
          {label.text}
        </text>
      ) : (
        <text className="drawing-text" x={middle} y={above ? near - 3 : near + LETTER.tall * 0.85} textAnchor="middle">
          {label.text}
        </text>
      )}
    </g>
  );
}

function Segment({
  segment,
  outline,
  scale,
  chosen,
}: {
  readonly segment: OutlineSegment;
  readonly outline: Outline;
  readonly scale: Scale;
  readonly chosen: boolean;
}) {
  const { x, span, axis } = scale;
  const [from, to] = [x(segment.left), x(segment.left + segment.wide)];
  const root = [segment.leftRadius, segment.rightRadius].map((radius) => span(radius) * 0.86);
  return (
    <>
      <path
        className={`drawing-part ${segment.known ? '' : 'is-unknown'} ${chosen ? 'is-chosen' : ''}`}
        d={shapeOf(segment, outline, scale)}
      />
      {segment.kind === 'thread' &&
        [-1, 1].map((side) => (
          <line
            key={side}
            className="drawing-thread"
            x1={from}
            x2={to}
            y1={axis + side * (root[0] ?? 0)}
            y2={axis + side * (root[1] ?? 0)}
          />
        ))}
      {segment.off > 0 && (
        <line className="drawing-axis" x1={from - 8} x2={to + 8} y1={axis - span(segment.off)} y2={axis - span(segment.off)} />
      )}
    </>
  );
}

/** Fillets into a larger neighbour, and undercuts, at the ends of one feature. */
function Corners({
  segment,
  outline,
  scale,
}: {
  readonly segment: OutlineSegment;
  readonly outline: Outline;
  readonly scale: Scale;
}) {
  const { x, span, axis } = scale;
  return outline.edges
    .filter((edge) => edge.on === segment.id)
    .map((edge) => {
      const left = edge.at === 'left';
      const end: End = {
        x: x(left ? segment.left : segment.left + segment.wide),
        at: edge.at,
        axis: axis - span(segment.off),
        radius: span(left ? segment.leftRadius : segment.rightRadius),
      };
      if (edge.kind === 'undercut')
        return <path key={edge.id} className="drawing-undercut" d={undercutPath(end, span(edge.wide), span(edge.size))} />;
      if (edge.kind !== 'fillet' || !outline.inCorner(edge)) return null;
      return <path key={edge.id} className="drawing-part is-fillet" d={filletPath(end, span(edge.size))} />;
    });
}

/** What a screen reader says of the drawing: the features from the left with their sizes. */
const inWords = (outline: Outline, unit: DisplayUnit): string =>
  outline.segments
    .map(({ name, across, length }) =>
      w.feature(name, across === null ? null : sizeText(across, unit), length === null ? null : sizeText(length, unit)),
    )
    .join('; ');

/**
 * The part from the side, to scale, with its sizes: diameters above, lengths in a chain below with the whole under them. A size
 * that does not read yet is drawn dashed at the mean of the others. Dashes, chain lines and thin lines as ISO 128 and ISO 6410.
 */
export function PartDrawing({ sketch, unit, chosen = null, onChoose, wide: fixed }: Props) {
  const [box, measured] = useWidth<HTMLDivElement>(fixed ?? 640);
  const outline = useMemo(() => outlineOf(sketch), [sketch]);
  // Where even turned sizes have no room side by side, the whole is drawn smaller instead.
  const least = 2 * EDGE + leastRoom(outline.segments.length);
  const wide = Math.max(least, fixed ?? Math.max(280, Math.min(1000, measured)));
  // Of its own: a marker in a drawing that is not displayed is not drawn in another either.
  const arrow = useId();
  const ends = { markerStart: `url(#${arrow})`, markerEnd: `url(#${arrow})` };
  if (outline.segments.length === 0)
    return (
      <div className="drawing is-empty" ref={box}>
        <p>{w.empty}</p>
      </div>
    );
  const inside = wide - 2 * EDGE;
  const flat = scaleOf(outline, wide, 0);
  const stretch = (segment: OutlineSegment): { from: number; to: number } => ({
    from: flat.x(segment.left) - EDGE,
    to: flat.x(segment.left + segment.wide) - EDGE,
  });
  const across = outline.segments.flatMap((segment): Dimension[] =>
    segment.across === null ? [] : [{ id: segment.id, text: `Ø${sizeText(segment.across, unit)}`, ...stretch(segment) }],
  );
  const along = outline.segments.flatMap((segment): Dimension[] =>
    segment.length === null ? [] : [{ id: segment.id, text: sizeText(segment.length, unit), ...stretch(segment) }],
  );
  const over = dimensionRow(across, inside, true);
  const under = dimensionRow(along, inside, true);
  const top = over.tall + 10;
  const scale = scaleOf(outline, wide, top);
  const foot = scale.axis + scale.span(outline.reach);
  const chain = foot + CHAIN;
  const whole = chain + under.tall + 26;
  const allKnown = outline.segments.every((segment) => segment.length !== null);
  return (
    <div className="drawing" ref={box}>
      <svg viewBox={`0 0 ${wide} ${whole + (allKnown ? 22 : 0)}`} role="img" aria-label={`${w.title}. ${inWords(outline, unit)}`}>
        <defs>
          <marker id={arrow} viewBox="0 0 8 8" refX="8" refY="4" markerWidth="8" markerHeight="8" orient="auto-start-reverse">
            <path className="drawing-arrow" d="M0,1.2 L8,4 L0,6.8 Z" />
          </marker>
        </defs>
        {outline.segments.map((segment) => (
          <g key={segment.id} onClick={() => onChoose?.(segment.id)}>
            <Segment segment={segment} outline={outline} scale={scale} chosen={segment.id === chosen} />
          </g>
        ))}
        {outline.segments.map((segment) => (
          <Corners key={segment.id} segment={segment} outline={outline} scale={scale} />
        ))}
        {outline.marks.map((mark) => (
          <rect
            key={mark.id}
            className={`drawing-mark is-${mark.kind}`}
            x={scale.x(mark.left)}
            width={scale.span(mark.wide)}
            y={scale.axis - scale.span(mark.top)}
            height={scale.span(mark.tall)}
          />
        ))}
        <line className="drawing-axis" x1={scale.x(0) - 12} x2={scale.x(outline.length) + 12} y1={scale.axis} y2={scale.axis} />
        {over.labels.map((label) => (
          <Label key={label.id} label={label} x={EDGE} y={topOf(outline, label.id, scale) - 4} above />
        ))}
        {[...outline.segments.map((segment) => segment.left), outline.length].map((along_) => (
          <line
            key={along_}
            className="drawing-extension"
            x1={scale.x(along_)}
            x2={scale.x(along_)}
            y1={foot + 3}
            y2={chain + 4}
          />
        ))}
        {along.map(({ id, from, to }) => (
          <line key={id} className="drawing-dimension" {...ends} x1={EDGE + from + 1} x2={EDGE + to - 1} y1={chain} y2={chain} />
        ))}
        {under.labels.map((label) => (
          <Label key={label.id} label={label} x={EDGE} y={chain + 4} above={false} />
        ))}
        {allKnown && (
          <>
            <line className="drawing-extension" x1={scale.x(0)} x2={scale.x(0)} y1={chain} y2={whole + 4} />
            <line
              className="drawing-extension"
              x1={scale.x(outline.length)}
              x2={scale.x(outline.length)}
              y1={chain}
              y2={whole + 4}
            />
            <line
              className="drawing-dimension"
              {...ends}
              x1={scale.x(0) + 1}
              x2={scale.x(outline.length) - 1}
              y1={whole}
              y2={whole}
            />
            <text className="drawing-text" x={(scale.x(0) + scale.x(outline.length)) / 2} y={whole + 17} textAnchor="middle">
              {bareSize(Math.round(outline.length) as Parameters<typeof bareSize>[0], unit)}
            </text>
          </>
        )}
      </svg>
    </div>
  );
}

/** Leaders of the row above all start from one height, above the largest diameter, so that none crosses the part. */
function topOf(outline: Outline, _id: string, scale: Scale): number {
  return scale.axis - scale.span(outline.reach);
}
