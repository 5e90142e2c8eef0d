import { INSTRUMENTS, type DisplayUnit } from '../../measure/index.ts';
import { downward, type Glance, type Reading } from '../../job/index.ts';
import { bareSize } from '../show.ts';
import { words } from '../words.ts';
import { stripLayout } from './stripLayout.ts';

/** Drawing units of the strip; the picture is scaled to the room there is. */
const WIDE = 440;
const TOP = 14;
const ROW = 30;
const ROWS = 4;
const FOOT = TOP + ROW * ROWS + 8;
const TALL = FOOT + 36;
/** The share of the width that a label and its gap take. */
const LABEL_SHARE = 0.24;

/** The newest readings of the awaited quantity, oldest first. */
function shownReadings(glance: Glance): readonly Reading[] {
  const wanted = glance.operation.target?.quantity;
  const newestFirst: Reading[] = [];
  for (const reading of downward(glance.progress.readings)) {
    if (reading.quantity === wanted) newestFirst.push(reading);
    if (newestFirst.length === ROWS) break;
  }
  return newestFirst.reverse();
}

/**
 * The window and the last readings on one scale: limits as lines, the window hatched between them, the target as a tick, the
 * readings from top to bottom in the order they were taken, each with its instrument's reach to both sides.
 */
export function Strip({ glance, unit }: { readonly glance: Glance; readonly unit: DisplayUnit }) {
  if (glance.window === null) return null;
  const readings = shownReadings(glance);
  const layout = stripLayout(
    glance.window,
    readings.map((reading) => ({
      id: reading.event,
      value: reading.value,
      within: INSTRUMENTS[reading.instrument ?? glance.operation.instrument ?? 'caliper'].permissibleError(reading.value),
    })),
  );
  const low = bareSize(glance.window.low, unit);
  const high = bareSize(glance.window.high, unit);
  const said = readings.length === 0 ? words.strip.none : readings.map((reading) => bareSize(reading.value, unit)).join(', ');
  const x = (share: number): number => share * WIDE;
  return (
    <svg className="strip" viewBox={`0 0 ${WIDE} ${TALL}`} role="img" aria-label={words.strip.summary(low, high, said)}>
      <title>{words.strip.title}</title>
      <defs>
        <pattern id="window-hatch" width="9" height="9" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <rect className="strip-window" width="9" height="9" />
          <line className="strip-hatch" x1="0" y1="0" x2="0" y2="9" />
        </pattern>
      </defs>
      <rect x={x(layout.low)} y={4} width={x(layout.high - layout.low)} height={FOOT - 4} fill="url(#window-hatch)" />
      <line className="strip-limit" x1={x(layout.low)} y1={2} x2={x(layout.low)} y2={FOOT + 6} />
      <line className="strip-limit" x1={x(layout.high)} y1={2} x2={x(layout.high)} y2={FOOT + 6} />
      <line className="strip-aim" x1={x(layout.aim)} y1={2} x2={x(layout.aim)} y2={FOOT} />
      <line className="strip-base" x1={0} y1={FOOT} x2={WIDE} y2={FOOT} />
      <text className="strip-text" x={x(layout.low) - 6} y={FOOT + 30} textAnchor="end">
        {low}
      </text>
      <text className="strip-text" x={x(layout.high) + 6} y={FOOT + 30} textAnchor="start">
        {high}
      </text>
      {layout.marks.map((mark, index) => {
        const newest = index === layout.marks.length - 1;
        const y = TOP + ROW * index + ROW / 2;
        const reading = readings[index];
        const label = reading === undefined ? '' : bareSize(reading.value, unit);
        // Away from the window where there is room, so that no limit line runs through the figures.
        const before = mark.at > 0.5 ? 1 - mark.to < LABEL_SHARE : mark.from >= LABEL_SHARE;
        return (
          <g key={mark.id} className={newest ? 'strip-reading newest' : 'strip-reading'}>
            {mark.off === null ? (
              <>
                <line className="strip-reach" x1={x(mark.from)} y1={y} x2={x(mark.to)} y2={y} />
                <circle className="strip-dot" cx={x(mark.at)} cy={y} r={newest ? 9 : 6} />
              </>
            ) : (
              <path
                className="strip-dot"
                d={mark.off === 'right' ? `M${WIDE - 18},${y - 9} l16,9 l-16,9 z` : `M18,${y - 9} l-16,9 l16,9 z`}
              />
            )}
            <text
              className="strip-text"
              x={before ? x(mark.from) - 14 : x(mark.to) + 14}
              y={y + 8}
              textAnchor={before ? 'end' : 'start'}
            >
              {label}
            </text>
          </g>
        );
      })}
    </svg>
  );
}
