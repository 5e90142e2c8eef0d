import { spread } from './spread.ts';

/** A size to be written at a drawing: its text, and the stretch of the drawing that it belongs to. */
export type Dimension = { readonly id: string; readonly text: string; readonly from: number; readonly to: number };

/** A text with its box. `turned` is read from the right. The leader runs from `tip`, on the drawing, to the box. */
export type DimensionLabel = {
  readonly id: string;
  readonly text: string;
  readonly turned: boolean;
  readonly x: number;
  readonly y: number;
  readonly wide: number;
  readonly tall: number;
  readonly tip: number;
  readonly leader: boolean;
};

export type DimensionRow = { readonly labels: readonly DimensionLabel[]; readonly tall: number };

/** What a text takes: figures are about this share of their height wide, in the page's font. */
export const LETTER = { tall: 16, wide: 8.6, gap: 11 } as const;
/** From the drawing to a row of texts that does not stand right at it: the leaders slant in it. */
export const LEADER = 18;

/** Between texts that are turned. */
const TURNED_GAP = 2;

/** The room that so many sizes need at the least, each turned. */
export const leastRoom = (count: number): number => count * (LETTER.tall + TURNED_GAP) + TURNED_GAP;

const wideOf = (text: string): number => text.length * LETTER.wide;

/**
 * One row of sizes beside a drawing that is `room` wide. A text stands within its own stretch where every one fits so, and
 * `inStretch` allows it; else all stand in one row in order, pushed apart; else they are turned. So no two texts overlap and no
 * leader crosses another, in any room of `leastRoom` and more. `y` counts away from the drawing.
 */
export function dimensionRow(dimensions: readonly Dimension[], room: number, inStretch: boolean): DimensionRow {
  const middle = ({ from, to }: Dimension): number => (from + to) / 2;
  const fits = inStretch && dimensions.every(({ text, from, to }) => wideOf(text) + LETTER.gap <= to - from);
  const level = dimensions.reduce((sum, { text }) => sum + wideOf(text) + LETTER.gap, -LETTER.gap) <= room;
  const turned = !fits && !level;
  const along = ({ text }: Dimension): number => (turned ? LETTER.tall : wideOf(text));
  const places = fits
    ? dimensions.map(middle)
    : spread(
        dimensions.map((each) => ({ at: middle(each), wide: along(each) })),
        room,
        turned ? TURNED_GAP : LETTER.gap,
      );
  const tall = turned ? Math.max(0, ...dimensions.map(({ text }) => wideOf(text))) : LETTER.tall;
  const away = fits ? 0 : LEADER;
  const labels = dimensions.map((each, index): DimensionLabel => {
    const { id, text } = each;
    const [wide, high] = turned ? [LETTER.tall, wideOf(text)] : [wideOf(text), LETTER.tall];
    return { id, text, turned, x: (places[index] ?? 0) - wide / 2, y: away, wide, tall: high, tip: middle(each), leader: !fits };
  });
  return { labels, tall: dimensions.length === 0 ? 0 : away + tall };
}
