import { type InstrumentKind, type Instruments, type Length } from '../measure/index.ts';
import { combined, fromLimits, fromResolution } from '../trade/index.ts';

/** Where along a journal a reading was taken, and which way across. `anywhere` where nobody said. */
export type Place = 'chuck-end' | 'middle' | 'free-end' | 'anywhere';
export type Across = 'one-way' | 'quarter-turn';

/** How warm a body is above 20 °C, in kelvin, with a spread. */
export type Warmth = { readonly kelvin: number; readonly spread: number };

/** A reading of a size, with all that its worth depends on. */
export type SizeReading = {
  readonly value: Length;
  readonly instrument: InstrumentKind | null;
  readonly place: Place;
  readonly warmth: Warmth;
};

/** Standard deviation of one reading by feel, in nm, beside the step and the permissible error. Common practice, no source. */
const FEEL_NM: Readonly<Record<InstrumentKind, number>> = {
  caliper: 6_000,
  micrometer: 1_400,
  'telescoping-gauge': 5_000,
  'depth-micrometer': 5_000,
  rule: 100_000,
  indicator: 4_000,
  readout: 4_000,
};

/** The parts of the standard uncertainty of a reading, in nm: what stays from reading to reading, and what does not. */
export type Budget = { readonly lasting: number; readonly passing: number };

/**
 * The budget of one reading at a size: the permissible error as a limit ±a within which every value is as likely (a/√3, lasting:
 * the same instrument errs the same way twice), the step (step/√12) and the feel (both passing). An unnamed instrument is
 * taken for a caliper.
 */
export function budgetOf(instrument: InstrumentKind | null, size: Length, instruments: Instruments): Budget {
  const kind = instrument ?? 'caliper';
  const { permissibleError, resolution } = instruments[kind];
  return { lasting: fromLimits(permissibleError(size)), passing: combined([fromResolution(resolution), FEEL_NM[kind]]) };
}

/** The expanded uncertainty U = 2·u of the mean of so many readings with one instrument, in nm. */
export function expandedUncertainty(
  instrument: InstrumentKind | null,
  size: Length,
  readings: number,
  instruments: Instruments,
): number {
  const { lasting, passing } = budgetOf(instrument, size, instruments);
  return 2 * combined([lasting, passing / Math.sqrt(readings)]);
}
