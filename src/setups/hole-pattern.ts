import { asDiameter, degrees, nanometres, roundReal, times, toRadians, zero, type Length } from '../measure/index.ts';
import { boltChord, boltCircle, type Point } from '../trade/index.ts';

/**
 * Holes on a circle or in a line, from a centre or a first hole at nought. `first` is the angle of the first hole (of the line)
 * from X, counter-clockwise, in degrees; `size` is the bolt circle's diameter, or the spacing of the line.
 */
export type HolePattern = {
  readonly shape: 'circle' | 'line';
  readonly size: Length;
  readonly holes: number;
  readonly first: number;
};

/** Where every hole is, to the nanometre, the first one first. */
export function holesOf({ shape, size, holes, first }: HolePattern): readonly Point[] {
  const angle = degrees(first, 'half-even');
  if (shape === 'circle') return boltCircle(asDiameter(size), holes, angle, { x: zero, y: zero });
  return Array.from({ length: holes }, (_, index) => {
    const out = times(size, index);
    return {
      x: nanometres(roundReal(out * Math.cos(toRadians(angle)), 'half-even')),
      y: nanometres(roundReal(out * Math.sin(toRadians(angle)), 'half-even')),
    };
  });
}

/** From one hole to the next, straight, for calipers across them; null for a single hole. */
export function pitchOf({ shape, size, holes }: HolePattern): Length | null {
  if (holes < 2) return null;
  return shape === 'circle' ? boltChord(asDiameter(size), holes) : size;
}
