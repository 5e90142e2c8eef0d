import { useMemo } from 'react';
import type { Glance } from '../../job/index.ts';
import { filletPath, undercutPath } from '../drawing/corners.ts';
import { useAssistant } from '../store.tsx';
import { words } from '../words.ts';
import { profileLayout, type ProfileCorner, type ProfileLayout, type ProfileSegment } from './profileLayout.ts';

/** Drawing units: the part is drawn this wide, whatever its length, and never higher than the room that is left. */
const WIDE = 440;
const TALL = 190;
const MARGIN = 16;
const POINTER = 22;

/** Where lengths of the part stand in the drawing: one scale for both directions. */
function scaleOf(layout: ProfileLayout) {
  const reach = Math.max(layout.stockRadius, ...layout.segments.map((segment) => segment.radius + segment.off));
  const perNm = Math.min((WIDE - 2 * MARGIN) / Math.max(layout.length, 1), (TALL - POINTER - 10) / (2 * reach));
  const start = (WIDE - layout.length * perNm) / 2;
  const axis = POINTER + 4 + reach * perNm;
  return {
    x: (along: number): number => start + along * perNm,
    y: (up: number): number => axis - up * perNm,
    span: (length: number): number => length * perNm,
    tall: axis + reach * perNm + 6,
  };
}

const names = (segments: readonly { readonly name: string; readonly state: string }[], state: string): string =>
  segments
    .filter((segment) => segment.state === state)
    .map((segment) => segment.name)
    .join(', ') || words.profile.nothing;

function Segment({ segment, scale }: { readonly segment: ProfileSegment; readonly scale: ReturnType<typeof scaleOf> }) {
  const { x, y, span } = scale;
  const box = { x: x(segment.left), width: span(segment.width) };
  return (
    <g>
      <rect
        className={`profile-finished is-${segment.state}`}
        {...box}
        y={y(segment.radius + segment.off)}
        height={span(2 * segment.radius)}
      />
      {segment.kind === 'thread' && (
        <>
          <line
            className="profile-thread"
            x1={box.x}
            x2={box.x + box.width}
            y1={y(segment.radius * 0.86)}
            y2={y(segment.radius * 0.86)}
          />
          <line
            className="profile-thread"
            x1={box.x}
            x2={box.x + box.width}
            y1={y(-segment.radius * 0.86)}
            y2={y(-segment.radius * 0.86)}
          />
        </>
      )}
      {segment.off > 0 && (
        <line className="profile-axis" x1={box.x - 8} x2={box.x + box.width + 8} y1={y(segment.off)} y2={y(segment.off)} />
      )}
    </g>
  );
}

function Corner({ corner, scale }: { readonly corner: ProfileCorner; readonly scale: ReturnType<typeof scaleOf> }) {
  const { x, y, span } = scale;
  const end = { x: x(corner.along), at: corner.at, axis: y(corner.off), radius: span(corner.radius) };
  return corner.kind === 'fillet' ? (
    <path className={`profile-finished is-${corner.state} is-fillet`} d={filletPath(end, span(corner.deep))} />
  ) : (
    <path className="profile-undercut" d={undercutPath(end, span(corner.wide), span(corner.deep))} />
  );
}

/**
 * The part from the side, to scale: finished metal filled, stock that is still to be cut as a dashed outline, the feature of
 * the open step hatched with a pointer over it. Threads and hidden holes are drawn as ISO 6410 and ISO 128 draw them.
 */
export function Profile({ glance }: { readonly glance: Glance | null }) {
  const state = useAssistant((assistant) => assistant.job?.state ?? null);
  const layout = useMemo(() => (state === null ? null : profileLayout(state)), [state]);
  if (layout === null || layout.segments.length === 0) return null;
  const scale = scaleOf(layout);
  const { x, y, span } = scale;
  const every = [...layout.segments, ...layout.marks];
  const now = every.find((feature) => feature.state === 'now');
  const pointerAt = now === undefined ? null : x(now.left + now.width / 2);
  return (
    <svg
      className="profile"
      viewBox={`0 0 ${WIDE} ${scale.tall}`}
      role="img"
      aria-label={words.profile.summary(names(every, 'done'), names(every, 'now'))}
    >
      <title>
        {glance === null
          ? words.profile.title
          : `${words.profile.title}: ${words.profile.summary(names(every, 'done'), names(every, 'now'))}`}
      </title>
      <defs>
        <pattern id="cut-hatch" width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <rect className="cut-ground" width="8" height="8" />
          <line className="cut-line" x1="0" y1="0" x2="0" y2="8" />
        </pattern>
      </defs>
      {layout.segments.map((segment) => (
        <Segment key={segment.id} segment={segment} scale={scale} />
      ))}
      {layout.corners.map((corner) => (
        <Corner key={corner.id} corner={corner} scale={scale} />
      ))}
      {layout.uncut.map((run) => (
        <rect
          key={run.left}
          className="profile-stock"
          x={x(run.left)}
          width={span(run.width)}
          y={y(layout.stockRadius)}
          height={span(2 * layout.stockRadius)}
        />
      ))}
      {layout.marks.map((mark) => (
        <rect
          key={mark.id}
          className={`profile-mark is-${mark.kind} is-${mark.state}`}
          x={x(mark.left)}
          width={span(mark.width)}
          y={y(mark.top)}
          height={span(mark.height)}
        />
      ))}
      <line className="profile-axis" x1={x(0) - 12} x2={x(layout.length) + 12} y1={y(0)} y2={y(0)} />
      {pointerAt !== null && <path className="profile-pointer" d={`M${pointerAt - 12},2 h24 l-12,${POINTER - 4} z`} />}
    </svg>
  );
}
