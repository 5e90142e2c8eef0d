import { expectedReading, sizeOf, type CutModel } from './cutModel.ts';
import type { SizeReading } from './reading.ts';

/** What a reading that contradicts the model is likely to be. */
export type Slip =
  | 'twice-the-cut' // the dial reads the other of diameter and radius, or twice was dialled
  | 'half-the-cut'
  | 'a-turn-out' // a whole turn of the hand-wheel too much, or short
  | 'ten-divisions-out' // the next numbered line
  | 'before-the-cut' // the size before is read again
  | 'thimble-turn' // a turn of the micrometer's thimble, or a tenth of an inch on the caliper
  | 'warm-part'
  | 'wrong-place' // over a burr, in a radius, on the next step
  | 'unexplained';

/** A reading that the model did not expect: by how much, in standard deviations, and the likeliest reason. */
export type Surprise = { readonly by: number; readonly deviations: number; readonly slip: Slip };

/**
 * Beyond this many standard deviations a reading is asked about: about one sound reading in 60 (normal distribution). One that
 * is too large is asked about sooner, since the next cut would go too deep for it. Never for less than anybody lets pass, in nm.
 */
const ASKED_BEYOND = { larger: 2.2, smaller: 2.8 } as const;
const LET_PASS_NM = 8_000;

/** So much of what filing should have taken is still there. */
const NOTHING_FILED = 0.8;
const NOTHING_FILED_NM = 4_000;

/** A turn of a micrometer's thimble is .025 in or 0.5 mm; the eye takes the neighbouring number. */
const THIMBLE_NM: readonly number[] = [635_000, 500_000];
/** On a caliper's dial it is a whole round. */
const CALIPER_ROUND_NM: readonly number[] = [2_540_000, 1_000_000];
/** Work straight from the tool may be this much warmer than the hand thinks. Common practice, no source. */
const WARMER_KELVIN = 30;

/**
 * The likeliest slip behind a difference from what was expected (positive: larger), or `unexplained`. The closest candidate
 * within `within` wins; the order is that of how often it happens.
 */
export function slipBehind(model: CutModel, reading: SizeReading, by: number, within: number): Slip {
  const asked = model.read === 0 ? model.lastAsked : null;
  const { cutter, before } = model;
  const rounds = reading.instrument === 'micrometer' ? THIMBLE_NM : CALIPER_ROUND_NM;
  const candidates: readonly (readonly [Slip, number | null])[] = [
    ['before-the-cut', asked === null || before === null ? null : before - sizeOf(model).mean],
    ['twice-the-cut', asked === null ? null : -asked],
    ['half-the-cut', asked === null ? null : asked / 2],
    ['ten-divisions-out', asked === null ? null : -20 * cutter.step],
    ['ten-divisions-out', asked === null ? null : 20 * cutter.step],
    ['a-turn-out', asked === null ? null : -cutter.turn],
    ...rounds.flatMap((round): (readonly [Slip, number])[] => [
      ['thimble-turn', round],
      ['thimble-turn', -round],
    ]),
  ];
  let best: { slip: Slip; off: number } | null = null;
  for (const [slip, explains] of candidates) {
    if (explains === null) continue;
    const off = Math.abs(by - explains);
    if (off <= within && (best === null || off < best.off)) best = { slip, off };
  }
  if (best !== null) return best.slip;
  const warmest = cutter.perK * 1e-6 * reading.value * WARMER_KELVIN;
  if (by > 0 && by <= warmest) return 'warm-part';
  return by > 0 ? 'wrong-place' : 'unexplained';
}

/**
 * Whether a reading contradicts the model, and the likely slip; null where it is as it should be. A taper or a warm part that
 * the model allows for is no contradiction.
 */
export function surpriseOf(model: CutModel, reading: SizeReading): Surprise | null {
  const { mean, spread, got } = expectedReading(model, reading);
  const by = got - mean;
  // File and cloth always take something: a size that has not changed is no size.
  const nothingFiled = model.read === 0 && model.filing > 0 && by > NOTHING_FILED * model.filing && by > NOTHING_FILED_NM;
  const allowed = (by > 0 ? ASKED_BEYOND.larger : ASKED_BEYOND.smaller) * spread;
  if (!nothingFiled && Math.abs(by) <= Math.max(allowed, LET_PASS_NM)) return null;
  return { by, deviations: Math.abs(by) / spread, slip: slipBehind(model, reading, by, Math.max(2.5 * spread, 20_000)) };
}
