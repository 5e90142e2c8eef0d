import { larger, ok, fail, minus, zero, type Instruments, type Length, type Result } from '../measure/index.ts';
import {
  boreShape,
  boreWindow,
  fitWindow,
  HAND_FITS,
  handClearances,
  isoLimits,
  seatLimits,
  type BearingRing,
  type HandFit,
  type MeasuredRing,
  type SizeLimits,
} from '../trade/index.ts';
import type { Mate } from './mate.ts';

const isHandFit = (fit: string): fit is HandFit => (HAND_FITS as readonly string[]).includes(fit);

/** The ring of a bearing that a mate is; null where it is none. */
export function ringOf({ kind }: Mate): BearingRing | null {
  return kind === 'bearing' ? 'inner' : kind === 'outer-ring' ? 'outer' : null;
}

/** True of what goes into a bored hole; everything else goes over a journal or into a length. */
export const goesIn = ({ kind }: Mate): boolean => kind === 'shaft' || kind === 'outer-ring';

/** How far the readings of a mate may be off: the worst of their instruments at its size. Nothing where there are none. */
export const uncertaintyOf = ({ readings }: Mate, instruments: Instruments): Length =>
  readings.reduce((worst, { value, instrument }) => larger(worst, instruments[instrument].permissibleError(value)), zero);

/** The size that counts: the smallest reading of a bore, the largest of what goes in and of a width, else the nominal size. */
export function mateSize(mate: Mate): Length {
  const shape = boreShape(mate.readings);
  if (shape === null) return mate.nominal;
  return mate.kind === 'width' || goesIn(mate) ? shape.largest : shape.smallest;
}

/** The ring of a bearing as it was measured; null where it was not. */
export const measuredRing = (mate: Mate, instruments: Instruments): MeasuredRing | null =>
  mate.readings.length === 0 ? null : { size: mateSize(mate), uncertainty: uncertaintyOf(mate, instruments) };

/** Why a diameter cannot follow from its mate. */
export type FitFault =
  | { readonly key: 'no-such-fit'; readonly fit: string }
  | { readonly key: 'mate-too-uncertain'; readonly mate: string; readonly room: Length; readonly uncertainty: Length };

/**
 * The limits of a diameter from its fit: by hand from the bore or the shaft as it was measured, less what its instrument may be
 * off on either side; by its class from the nominal size, at a bearing moved with its ring as far as a reading tells it
 * (`seatLimits`). A journal is its bore less the clearance, a bore its shaft and the clearance. Where the mate was not measured
 * its nominal size stands for it.
 */
export function fitLimits(fit: string, mate: Mate, instruments: Instruments): Result<SizeLimits, FitFault> {
  if (!isHandFit(fit)) {
    const ring = ringOf(mate);
    const limits =
      ring === null ? isoLimits(mate.nominal, fit) : seatLimits(ring, mate.nominal, fit, measuredRing(mate, instruments));
    return limits.ok ? limits : fail({ key: 'no-such-fit', fit });
  }
  const size = mateSize(mate);
  const clearances = handClearances(fit, size);
  const uncertainty = uncertaintyOf(mate, instruments);
  const window = (goesIn(mate) ? boreWindow : fitWindow)(size, uncertainty, clearances);
  if (window.ok) return ok({ low: window.value.low, high: window.value.high });
  return fail({ key: 'mate-too-uncertain', mate: mate.id, room: minus(clearances.most, clearances.least), uncertainty });
}
