import { magnitude, type DisplayUnit, type Length } from '../../measure/index.ts';
import { amountText, bareSize } from '../show.ts';
import { drawingWords } from './drawingWords.ts';
import { historyLayout, type HistoryRow } from './historyLayout.ts';

const w = drawingWords.history;
const WIDE = 460;
const ROW = 26;
const BAR = { x: 84, wide: 170, tall: 14 };

/** A row of the history: the size that it ended at, and how much filing was said, where it was filed. */
export type HistoryLine = HistoryRow & { readonly size: Length; readonly filed: string };

/** What a row tells in words: "24 thou of 25", "0.4 thou, 2 rounds". */
function inWords({ off, dialled, filed }: HistoryLine, unit: DisplayUnit): string {
  const amount = off < 0 ? w.larger(amountText(magnitude(off), unit)) : amountText(off, unit);
  const of = dialled === null ? amount : w.ofDialled(amount, amountText(dialled, unit));
  return filed === '' ? of : `${of}, ${filed}`;
}

/**
 * How a size came about, row by row in the order in which it was read: the size, a bar for what came off before it, an upright
 * line where the dial said that it should end. Cuts are full bars, filing is hatched.
 */
export function HistoryDrawing({
  title,
  kind,
  lines,
  unit,
}: {
  readonly title: string;
  readonly kind: 'cuts' | 'filing';
  readonly lines: readonly HistoryLine[];
  readonly unit: DisplayUnit;
}) {
  const bars = historyLayout(lines);
  const tall = ROW * lines.length + 4;
  const said = lines.map((line) => `${bareSize(line.size, unit)}: ${inWords(line, unit)}`).join('. ');
  return (
    <figure className="history-drawing">
      <svg viewBox={`0 0 ${WIDE} ${tall}`} role="img" aria-label={`${title}. ${said}`}>
        <defs>
          <pattern id="filing-hatch" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
            <line className="history-hatch" x1="0" y1="0" x2="0" y2="6" />
          </pattern>
        </defs>
        {bars.map((bar, at) => {
          const line = lines[at];
          if (line === undefined) return null;
          const y = ROW * at + ROW / 2 + 2;
          const end = BAR.x + BAR.wide * Math.max(bar.off, bar.dialled ?? 0);
          return (
            <g key={bar.id}>
              <text className="drawing-text" x={BAR.x - 10} y={y + 5} textAnchor="end">
                {bareSize(line.size, unit)}
              </text>
              <rect
                className={`history-bar is-${kind}`}
                x={BAR.x}
                y={y - BAR.tall / 2}
                width={Math.max(2, BAR.wide * bar.off)}
                height={BAR.tall}
              />
              {bar.dialled !== null && (
                <line
                  className="history-dialled"
                  x1={BAR.x + BAR.wide * bar.dialled}
                  x2={BAR.x + BAR.wide * bar.dialled}
                  y1={y - BAR.tall / 2 - 4}
                  y2={y + BAR.tall / 2 + 4}
                />
              )}
              <text className="drawing-text" x={end + 10} y={y + 5}>
                {inWords(line, unit)}
              </text>
            </g>
          );
        })}
      </svg>
    </figure>
  );
}
