import { asDiameter, millimetres, minus, NM_PER_MM, scaled, type Diameter, type Length } from '../measure/index.ts';

/** A centre hole of type A: the pilot drill and the mouth of its 60 degree cone. */
export type CentreHole = { readonly pilot: Diameter; readonly mouth: Diameter };

/** By the diameter of the finished work up to so many mm (Techniques for machining of material, trainees' handbook, table 1). */
const TABLE: readonly (readonly [toMm: number, pilotMm: number, mouthMm: number])[] = [
  [4, 0.5, 1.5],
  [6, 0.75, 2],
  [10, 1, 2.5],
  [25, 2, 5],
  [63, 3, 8],
  [Number.POSITIVE_INFINITY, 5, 12],
];

/** The centre hole for work of a diameter; over 63 mm that of the largest range of the table, which ends at 100. */
export function centreHoleFor(work: Length): CentreHole {
  const row = TABLE.find(([toMm]) => work <= toMm * NM_PER_MM);
  const [, pilot, mouth] = row ?? [0, 5, 12];
  return { pilot: asDiameter(millimetres(pilot)), mouth: asDiameter(millimetres(mouth)) };
}

/**
 * How far in from the face a centre bears in such a hole, at half the depth of its cone: half of (mouth - pilot)/2/tan 30°.
 * Rounded to the nearest nanometre, half to even.
 */
export const bearsAt = ({ pilot, mouth }: CentreHole): Length =>
  scaled(minus(mouth, pilot), 1 / (4 * Math.tan(Math.PI / 6)), 'half-even');
