import { larger, minus, plus, smaller, type Length } from '../../measure/index.ts';

/** A hole as measured: its smallest and largest place, and how far those may be off. */
export type FitHole = { readonly low: Length; readonly high: Length; readonly uncertainty: Length };
export type FitShaft = { readonly low: Length; readonly high: Length };
export type FitReading = { readonly id: string; readonly value: Length; readonly within: Length };

/** A stretch of the picture: 0 is its foot, 1 its top, larger sizes higher. */
export type FitBand = { readonly from: number; readonly to: number };

export type FitLayout = {
  readonly hole: FitBand;
  /** The hole with what its instrument may be off on either side. */
  readonly holeReach: FitBand;
  readonly shaft: FitBand;
  readonly readings: readonly {
    readonly id: string;
    readonly at: number;
    readonly from: number;
    readonly to: number;
    readonly off: 'over' | 'under' | null;
  }[];
};

const MARGIN = 0.12;

/**
 * Places of hole, shaft and readings on one scale of sizes. The scale holds hole and shaft whole; a reading that lies further off
 * stands at the edge and says so, so that the last thousandths stay large.
 */
export function fitLayout(hole: FitHole, shaft: FitShaft, readings: readonly FitReading[]): FitLayout {
  const bottom = smaller(shaft.low, minus(hole.low, hole.uncertainty));
  const top = larger(shaft.high, plus(hole.high, hole.uncertainty));
  const span = Math.max(top - bottom, 1) / (1 - 2 * MARGIN);
  const place = (size: number): number => Math.min(1, Math.max(0, (size - bottom) / span + MARGIN));
  const band = (from: number, to: number): FitBand => ({ from: place(from), to: place(to) });
  return {
    hole: band(hole.low, hole.high),
    holeReach: band(hole.low - hole.uncertainty, hole.high + hole.uncertainty),
    shaft: band(shaft.low, shaft.high),
    readings: readings.map(({ id, value, within }) => {
      const raw = (value - bottom) / span + MARGIN;
      return {
        id,
        at: place(value),
        from: place(value - within),
        to: place(value + within),
        off: raw > 1 ? 'over' : raw < 0 ? 'under' : null,
      };
    }),
  };
}
