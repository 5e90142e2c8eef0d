import { minus, zero, type DisplayUnit, type Length } from '../../measure/index.ts';
import { HAND_FIT_FEELS, HAND_FITS, INCH_FITS, ringSize, SEAT_LOADS, seatClass, type SeatLoad } from '../../trade/index.ts';
import { readWrittenLimits, type KnownMate } from './writtenLimits.ts';

/**
 * A fit that can be chosen for a mate as it was measured: the word to type, the shaft that it wants, and what is left between the
 * two (an interference is negative). `feels` says how it goes together, of the fits by hand.
 */
export type FitChoice = {
  readonly word: string;
  readonly family: 'by-hand' | 'iso' | 'inch' | 'seat';
  /** The load that makers advise the class of a bearing's seat for. */
  readonly load: SeatLoad | null;
  readonly low: Length;
  readonly high: Length;
  readonly least: Length;
  readonly most: Length;
  readonly feels: string | null;
  readonly unproven: boolean;
};

/** Classes of shaft that are in common use with a hole H7, loose to tight. */
const ISO_SHAFTS = ['f7', 'g6', 'h6', 'k6', 'n6', 'p6', 's6'] as const;
/** Classes of hole that are in common use with a shaft h6, loose to tight. */
const ISO_HOLES = ['F7', 'G7', 'H7', 'K7', 'N7', 'P7', 'S7'] as const;

/**
 * Every fit that there is at the size of a mate, family by family, loose to tight as their standards list them. A bearing has the
 * classes of its seat instead, by how its ring is loaded.
 */
export function fitChoices(mate: KnownMate, unit: DisplayUnit): readonly FitChoice[] {
  const inHole = mate.holds === 'hole';
  const held = mate.ring === null ? null : ringSize(mate.ring, mate.nominal, mate.measured);
  const size = held?.ok === true ? held.value : mate.size;
  const choice = (word: string, family: FitChoice['family'], feels: string | null, load: SeatLoad | null = null): FitChoice[] => {
    const read = readWrittenLimits(word, unit, zero, mate);
    if (!read.ok) return [];
    const { low, high, unproven } = read.value;
    const [least, most] = inHole ? [minus(low, size), minus(high, size)] : [minus(size, high), minus(size, low)];
    return [{ word, family, load, low, high, least, most, feels, unproven }];
  };
  const { ring } = mate;
  if (ring !== null)
    return SEAT_LOADS.flatMap((load) => {
      const named = seatClass(ring, load, mate.nominal);
      return named.ok ? choice(named.value, 'seat', null, load) : [];
    });
  return [
    ...HAND_FITS.flatMap((fit) => choice(fit, 'by-hand', HAND_FIT_FEELS[fit])),
    ...(inHole ? ISO_HOLES : ISO_SHAFTS).flatMap((designation) => choice(designation, 'iso', null)),
    ...(inHole ? [] : INCH_FITS.flatMap((fit) => choice(fit, 'inch', null))),
  ];
}
