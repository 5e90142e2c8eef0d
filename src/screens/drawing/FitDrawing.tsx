import { useId } from 'react';
import { magnitude, type DisplayUnit, type Length } from '../../measure/index.ts';
import { clearances } from '../../trade/index.ts';
import { amountText, bareSize } from '../show.ts';
import { drawingWords } from './drawingWords.ts';
import { fitLayout, type FitBand, type FitHole, type FitReading, type FitShaft } from './fitLayout.ts';

const w = drawingWords.fit;
const WIDE = 460;
const TALL = 190;
const HOLE = { x: 96, wide: 74 };
const SHAFT = { x: 186, wide: 74 };

/** The fit in plain words: clear, tight, or either. */
export function fitInWords(least: Length, most: Length, unit: DisplayUnit): string {
  const amount = (length: Length): string => amountText(magnitude(length), unit);
  if (least >= 0) return w.clearance(amount(least), amount(most));
  if (most <= 0) return w.interference(amount(most), amount(least));
  return w.either(amount(least), amount(most));
}

type Props = {
  readonly mate: string;
  readonly hole: FitHole;
  readonly shaft: FitShaft & { readonly unproven?: boolean };
  readonly readings: readonly FitReading[];
  /** What the last reading leaves clear at the tightest place. */
  readonly now: Length | null;
  readonly unit: DisplayUnit;
};

/**
 * Hole and shaft side by side on one scale of sizes, larger ones higher: the hole hatched one way with what its instrument may be
 * off as a thin frame, the shaft hatched the other way, the readings of the shaft as dots in the order they were taken.
 */
export function FitDrawing({ mate, hole, shaft, readings, now, unit }: Props) {
  const layout = fitLayout(hole, shaft, readings);
  const hatch = useId();
  const y = (share: number): number => 12 + (1 - share) * (TALL - 24);
  const box = ({ from, to }: FitBand) => ({ y: y(to), height: Math.max(2, y(from) - y(to)) });
  const { least, most } = clearances(hole, shaft);
  const said = fitInWords(least, most, unit);
  const apart = Math.max(16, Math.min(30, 150 / Math.max(1, readings.length)));
  return (
    <figure className="fit-drawing">
      <svg viewBox={`0 0 ${WIDE} ${TALL}`} role="img" aria-label={`${w.title(mate)}: ${said}`}>
        <defs>
          <pattern id={`${hatch}-hole`} width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">
            <rect className="strip-window" width="8" height="8" />
            <line className="strip-hatch" x1="0" y1="0" x2="0" y2="8" />
          </pattern>
          <pattern id={`${hatch}-shaft`} width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
            <rect className="cut-ground" width="8" height="8" />
            <line className="cut-line" x1="0" y1="0" x2="0" y2="8" />
          </pattern>
        </defs>
        <rect className="fit-reach" x={HOLE.x} width={HOLE.wide} {...box(layout.holeReach)} />
        <rect className="fit-zone" fill={`url(#${hatch}-hole)`} x={HOLE.x} width={HOLE.wide} {...box(layout.hole)} />
        <rect className="fit-zone" fill={`url(#${hatch}-shaft)`} x={SHAFT.x} width={SHAFT.wide} {...box(layout.shaft)} />
        <line className="drawing-axis" x1={HOLE.x - 10} x2={WIDE - 10} y1={y(layout.hole.from)} y2={y(layout.hole.from)} />
        <text className="drawing-text" x={HOLE.x - 8} y={y(layout.hole.from) - 6} textAnchor="end">
          {bareSize(hole.low, unit)}
        </text>
        <text className="drawing-text" x={HOLE.x - 8} y={y(layout.hole.from) + 18} textAnchor="end">
          {w.hole}
        </text>
        <text className="drawing-text" x={SHAFT.x + SHAFT.wide + 8} y={y(layout.shaft.to) + (layout.shaft.to > 0.9 ? 14 : -3)}>
          {bareSize(shaft.high, unit)}
        </text>
        <text
          className="drawing-text"
          x={SHAFT.x + SHAFT.wide + 8}
          y={y(layout.shaft.from) + (layout.shaft.from < 0.1 ? -3 : 14)}
        >
          {bareSize(shaft.low, unit)} {w.shaft}
        </text>
        {layout.readings.map((reading, index) => {
          const x = WIDE - 22 - (readings.length - 1 - index) * apart;
          return (
            <g key={reading.id} className={index === readings.length - 1 ? 'strip-reading newest' : 'strip-reading'}>
              <line className="strip-reach" x1={x} x2={x} y1={y(reading.from)} y2={y(reading.to)} />
              {reading.off === null ? (
                <circle className="strip-dot" cx={x} cy={y(reading.at)} r={5} />
              ) : (
                <path
                  className="strip-dot"
                  d={reading.off === 'over' ? `M${x - 6},14 h12 l-6,-10 z` : `M${x - 6},${TALL - 14} h12 l-6,10 z`}
                />
              )}
            </g>
          );
        })}
      </svg>
      <figcaption>
        <b>{said}</b>
        {now !== null && `; ${w.now(amountText(magnitude(now), unit), now < 0)}`}
        {shaft.unproven === true && <span className="cell-says"> {w.unproven}</span>}
      </figcaption>
    </figure>
  );
}
