import type { DisplayUnit } from '../../measure/index.ts';
import { downward, mayBeOff, type Glance, type Reading } from '../../job/index.ts';
import { bareSize, bothLimits } from '../show.ts';
import { words } from '../words.ts';
import { stripLayout, type StripMark } from './stripLayout.ts';

/** Drawing units of the strip; the picture is scaled to the room there is. */
const WIDE = 440;
const TOP = 14;
const ROW = 30;
const ROWS = 4;
const FOOT = TOP + ROW * ROWS + 8;
const TALL = FOOT + 36;
/** The sizes stand in a column, so that no line of the picture runs through them; the picture begins after it. */
const COLUMN = 146;
const PLOT = COLUMN + 10;
const x = (share: number): number => PLOT + share * (WIDE - PLOT);

/** The newest readings of the awaited quantity, oldest first. */
function shownReadings(glance: Glance, most: number): readonly Reading[] {
  const wanted = glance.operation.target?.quantity;
  const newestFirst: Reading[] = [];
  for (const reading of downward(glance.progress.readings)) {
    if (reading.quantity === wanted) newestFirst.push(reading);
    if (newestFirst.length === most) break;
  }
  return newestFirst.reverse();
}

type MarkProps = {
  readonly mark: StripMark;
  readonly row: number;
  readonly label: string;
  readonly kind: 'newest' | 'is-next' | '';
};

/** A reading, or the one that is expected next, in its row with its figures. */
function Mark({ mark, row, label, kind }: MarkProps) {
  const y = TOP + ROW * row + ROW / 2;
  return (
    <g className={`strip-reading ${kind}`}>
      {mark.off === null ? (
        <>
          <line className="strip-reach" x1={x(mark.from)} y1={y} x2={x(mark.to)} y2={y} />
          <circle className="strip-dot" cx={x(mark.at)} cy={y} r={kind === 'newest' ? 9 : 6} />
        </>
      ) : (
        <path
          className="strip-dot"
          d={mark.off === 'right' ? `M${WIDE - 18},${y - 9} l16,9 l-16,9 z` : `M${PLOT + 18},${y - 9} l-16,9 l16,9 z`}
        />
      )}
      <text className="strip-text" x={COLUMN} y={y + 8} textAnchor="end">
        {kind === 'is-next' && <tspan className="strip-word">{words.strip.next} </tspan>}
        {label}
      </text>
    </g>
  );
}

/**
 * The window and the last readings on one scale: limits as lines, the window hatched between them, the target as a tick, the
 * readings from top to bottom in the order they were taken, their sizes in a column at the left, each with its instrument's reach
 * to both sides, and under them the one that is expected after the next cut, dashed.
 */
export function Strip({ glance, unit }: { readonly glance: Glance; readonly unit: DisplayUnit }) {
  if (glance.window === null) return null;
  const next = glance.coach?.expected ?? null;
  const readings = shownReadings(glance, next === null ? ROWS : ROWS - 1);
  const layout = stripLayout(
    glance.window,
    readings.map((reading) => ({
      id: reading.event,
      value: reading.value,
      within: mayBeOff(reading, glance.operation, glance.instruments),
    })),
    next === null ? null : { id: 'next', value: next.size, within: next.spread },
  );
  const [low, high] = bothLimits(glance.window.low, glance.window.high, unit);
  const said = readings.length === 0 ? words.strip.none : readings.map((reading) => bareSize(reading.value, unit)).join(', ');
  return (
    <svg
      className="strip"
      viewBox={`0 0 ${WIDE} ${TALL}`}
      role="img"
      aria-label={words.strip.summary(
        low,
        high,
        next === null ? said : `${said}. ${words.strip.next} ${bareSize(next.size, unit)}`,
      )}
    >
      <title>{words.strip.title}</title>
      <defs>
        <pattern id="window-hatch" width="9" height="9" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <rect className="strip-window" width="9" height="9" />
          <line className="strip-hatch" x1="0" y1="0" x2="0" y2="9" />
        </pattern>
      </defs>
      <rect x={x(layout.low)} y={4} width={x(layout.high) - x(layout.low)} height={FOOT - 4} fill="url(#window-hatch)" />
      <line className="strip-limit" x1={x(layout.low)} y1={2} x2={x(layout.low)} y2={FOOT + 6} />
      <line className="strip-limit" x1={x(layout.high)} y1={2} x2={x(layout.high)} y2={FOOT + 6} />
      <line className="strip-aim" x1={x(layout.aim)} y1={2} x2={x(layout.aim)} y2={FOOT} />
      <line className="strip-base" x1={PLOT} y1={FOOT} x2={WIDE} y2={FOOT} />
      <text className="strip-text" x={x(layout.low) - 6} y={FOOT + 30} textAnchor="end">
        {low}
      </text>
      <text className="strip-text" x={x(layout.high) + 6} y={FOOT + 30} textAnchor="start">
        {high}
      </text>
      {layout.marks.map((mark, index) => {
        const reading = readings[index];
        const label = reading === undefined ? '' : bareSize(reading.value, unit);
        return (
          <Mark key={mark.id} mark={mark} row={index} label={label} kind={index === layout.marks.length - 1 ? 'newest' : ''} />
        );
      })}
      {layout.next !== null && next !== null && (
        <Mark mark={layout.next} row={layout.marks.length} label={bareSize(next.size, unit)} kind="is-next" />
      )}
    </svg>
  );
}
