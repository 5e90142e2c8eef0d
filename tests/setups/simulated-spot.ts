import { asRadius, inches, roundedTo, type Length } from '../../src/measure/index.ts';
import { highSpotOf, turnFrom, type SpotConditions, type SpotReading } from '../../src/setups/index.ts';
import { between } from './simulated-chuck.ts';

/** How an invented high spot is read, in inches and degrees; our own figures (no source). */
export type SpotHabits = { readonly reading: number; readonly division: number; readonly angle: number; readonly form: number };

/**
 * Half a division either way and taken to half a division; the angle set by a square or a protractor; three lobes of two
 * tenths.
 */
export const SQUARE_AND_DIAL: SpotHabits = { reading: 0.0003, division: 0.0005, angle: 0.5, form: 0.0001 };

/** What is told to the arithmetic of those habits: the reading off by all of them at once, either way. */
export const toldOf = (habits: SpotHabits, radius: number): SpotConditions => ({
  radius: asRadius(inches(radius)),
  readingError: inches(habits.reading + habits.division / 2 + habits.form),
  angleError: habits.angle,
});

export type Spotted = {
  readonly offBy: number;
  readonly uncertainty: number;
  readonly inside: boolean;
  readonly throwInside: boolean;
};

/** Reads an invented cam at these angles and asks where its high spot is. Null where it does not say. */
export function spotted(draw: () => number, angles: readonly number[], habits: SpotHabits): Spotted | null {
  const radius = between(draw, 0.3, 1);
  const offset = between(draw, 0.02, 0.25);
  const high = between(draw, 0, 360);
  const level = between(draw, -0.05, 0.05);
  const lobes = between(draw, 0, 360);
  const readings: SpotReading[] = angles.map((at) => {
    const psi = ((at + between(draw, -habits.angle, habits.angle) - high) * Math.PI) / 180;
    const lobed = habits.form * Math.cos(3 * psi + (lobes * Math.PI) / 180);
    const shown = level + offset * Math.cos(psi) + Math.sqrt(radius ** 2 - (offset * Math.sin(psi)) ** 2) + lobed;
    const read: Length = roundedTo(
      inches(shown + between(draw, -habits.reading, habits.reading)),
      inches(habits.division),
      'half-even',
    );
    return { degrees: at, indicator: read };
  });
  const spot = highSpotOf(readings, toldOf(habits, radius));
  if (spot === null) return null;
  const offBy = Math.abs(turnFrom(high, spot.degrees));
  return {
    offBy,
    uncertainty: spot.uncertaintyDegrees,
    inside: offBy <= spot.uncertaintyDegrees,
    throwInside: Math.abs(spot.offset - inches(offset)) <= spot.offsetUncertainty,
  };
}

/** Angles of so many readings equally round. */
export const equally = (count: number): readonly number[] => Array.from({ length: count }, (_, index) => (360 * index) / count);
