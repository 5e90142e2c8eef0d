import { minus, zero, type DisplayUnit, type Length } from '../../measure/index.ts';
import { HAND_FIT_FEELS, HAND_FITS, INCH_FITS } from '../../trade/index.ts';
import { readWrittenLimits, type KnownMate } from './writtenLimits.ts';

/**
 * A fit that can be chosen for a mate as it was measured: the word to type, the shaft that it wants, and what is left between the
 * two (an interference is negative). `feels` says how it goes together, of the fits by hand.
 */
export type FitChoice = {
  readonly word: string;
  readonly family: 'by-hand' | 'iso' | 'inch';
  readonly low: Length;
  readonly high: Length;
  readonly least: Length;
  readonly most: Length;
  readonly feels: string | null;
  readonly unproven: boolean;
};

/** Classes of shaft that are in common use with a hole H7, loose to tight. */
const ISO_SHAFTS = ['f7', 'g6', 'h6', 'k6', 'n6', 'p6', 's6'] as const;

/** Every fit that there is at the size of a mate, family by family, loose to tight as their standards list them. */
export function fitChoices(mate: KnownMate, unit: DisplayUnit): readonly FitChoice[] {
  const choice = (word: string, family: FitChoice['family'], feels: string | null): FitChoice[] => {
    const read = readWrittenLimits(word, unit, zero, mate);
    if (!read.ok) return [];
    const { low, high, unproven } = read.value;
    return [{ word, family, low, high, least: minus(mate.size, high), most: minus(mate.size, low), feels, unproven }];
  };
  return [
    ...HAND_FITS.flatMap((fit) => choice(fit, 'by-hand', HAND_FIT_FEELS[fit])),
    ...ISO_SHAFTS.flatMap((shaft) => choice(shaft, 'iso', null)),
    ...INCH_FITS.flatMap((fit) => choice(fit, 'inch', null)),
  ];
}
