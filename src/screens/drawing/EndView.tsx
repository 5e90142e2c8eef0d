import { type DisplayUnit } from '../../measure/index.ts';
import type { SketchFeature } from '../../part/index.ts';
import { bareSize } from '../show.ts';
import { drawingWords as w } from './drawingWords.ts';
import { outlineOf } from './outline.ts';

const SIZE = 200;
const MIDDLE = SIZE / 2;

/**
 * The part from its left end where something in it is off the axis: the largest concentric circle, each offset journal on its
 * own centre, and its high spot marked. Nothing where all of it is concentric.
 */
export function EndView({ sketch, unit }: { readonly sketch: readonly SketchFeature[]; readonly unit: DisplayUnit }) {
  const { segments, reach } = outlineOf(sketch);
  const offset = segments.filter((segment) => segment.off > 0);
  if (offset.length === 0) return null;
  const perNm = (MIDDLE - 26) / Math.max(reach, 1);
  const round = Math.max(
    0,
    ...segments.filter((segment) => segment.off === 0).map((segment) => Math.max(segment.leftRadius, segment.rightRadius)),
  );
  const said = offset
    .map(({ name, off }) => w.endFeature(name, bareSize(off as Parameters<typeof bareSize>[0], unit)))
    .join('; ');
  return (
    <figure className="end-view">
      <svg viewBox={`0 0 ${SIZE} ${SIZE}`} role="img" aria-label={`${w.endView}. ${said}`}>
        <circle className="drawing-part" cx={MIDDLE} cy={MIDDLE} r={round * perNm} />
        {offset.map(({ id, off, leftRadius, direction }) => {
          // Clockwise from the top, as it is seen from the left end.
          const turn = (direction * Math.PI) / 180;
          const point = (far: number): readonly [number, number] => [
            MIDDLE + far * perNm * Math.sin(turn),
            MIDDLE - far * perNm * Math.cos(turn),
          ];
          const [x, y] = point(off);
          const [hx, hy] = point(off + leftRadius);
          // Outside of everything, so that no circle runs through it.
          const far = Math.max(off + leftRadius, round) * perNm + 14;
          const [tx, ty] = [MIDDLE + far * Math.sin(turn), MIDDLE - far * Math.cos(turn)];
          return (
            <g key={id}>
              <circle className="drawing-part is-offset" cx={x} cy={y} r={leftRadius * perNm} />
              <path className="drawing-axis" d={`M${x - 9},${y} h18 M${x},${y - 9} v18`} />
              <circle className="drawing-high" cx={hx} cy={hy} r={5} />
              <text className="drawing-text" x={tx} y={ty + 5} textAnchor="middle">
                {w.highSpot}
              </text>
            </g>
          );
        })}
        <path className="drawing-axis" d={`M${MIDDLE - 12},${MIDDLE} h24 M${MIDDLE},${MIDDLE - 12} v24`} />
      </svg>
      <figcaption>{said}</figcaption>
    </figure>
  );
}
