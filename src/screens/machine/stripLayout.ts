import type { Length } from '../../measure/index.ts';

/** A reading to be drawn: its size and how far the truth may lie to either side of it. */
export type StripReading = { readonly id: string; readonly value: Length; readonly within: Length };

/** A reading with its place on the strip: 0 is the left edge, 1 the right. `off` says that it lies beyond an edge. */
export type StripMark = {
  readonly id: string;
  readonly at: number;
  readonly from: number;
  readonly to: number;
  readonly off: 'left' | 'right' | null;
};

export type StripLayout = {
  readonly low: number;
  readonly high: number;
  readonly aim: number;
  readonly marks: readonly StripMark[];
  /** Where the next reading is expected, once the next cut is made; null where nothing is. */
  readonly next: StripMark | null;
};

/** The window never fills less than this share of the strip, so that its width can always be seen. */
const LEAST_WINDOW_SHARE = 0.08;
/** With no reading near it, the window fills this share. */
const RESTING_WINDOW_SHARE = 0.34;
const EDGE = 0.03;

const clamped = (x: number): number => Math.min(1 - EDGE, Math.max(EDGE, x));

/**
 * Places of the window and the readings on one scale, the target in the middle. The scale follows the newest reading, so the
 * last thousandths fill the strip when they come; what lies beyond an edge stands at that edge.
 */
export function stripLayout(
  window: { readonly low: Length; readonly high: Length; readonly aim: Length },
  readings: readonly StripReading[],
  expected: StripReading | null = null,
): StripLayout {
  const width = Math.max(window.high - window.low, 1);
  const newest = readings.at(-1);
  const reach = newest === undefined ? 0 : Math.abs(newest.value - window.aim) + newest.within;
  const half = Math.min(Math.max(width / RESTING_WINDOW_SHARE / 2, reach * 1.15), width / LEAST_WINDOW_SHARE / 2);
  const raw = (size: number): number => 0.5 + (size - window.aim) / (2 * half);
  const mark = (reading: StripReading): StripMark => {
    const at = raw(reading.value);
    return {
      id: reading.id,
      at: clamped(at),
      from: clamped(raw(reading.value - reading.within)),
      to: clamped(raw(reading.value + reading.within)),
      off: at < EDGE ? 'left' : at > 1 - EDGE ? 'right' : null,
    };
  };
  return {
    low: clamped(raw(window.low)),
    high: clamped(raw(window.high)),
    aim: raw(window.aim),
    marks: readings.map(mark),
    next: expected === null ? null : mark(expected),
  };
}
