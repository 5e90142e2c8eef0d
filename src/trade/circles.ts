import {
  dividedBy,
  midway,
  minus,
  nanometres,
  plus,
  roundReal,
  toRadians,
  type Angle,
  type Diameter,
  type Length,
  type Rounding,
} from '../measure/index.ts';
import { solve3 } from './runout.ts';

export type Point = { readonly x: Length; readonly y: Length };
export type Circle = { readonly centre: Point; readonly radius: Length };

const whole = (value: number): Length => nanometres(roundReal(value, 'half-even'));

/**
 * The circle that fits points best in the algebraic sense (Kåsa): least squares on x² + y² + Dx + Ey + F = 0. Through three
 * points it is exact. Null for fewer than three or for points on a line. Points are shifted to their middle first, so that the
 * squares keep their precision.
 */
export function circleThrough(points: readonly Point[]): Circle | null {
  if (points.length < 3) return null;
  const middleX = points.reduce((sum, { x }) => sum + x, 0) / points.length;
  const middleY = points.reduce((sum, { y }) => sum + y, 0) / points.length;
  const scale = Math.max(...points.map(({ x, y }) => Math.hypot(x - middleX, y - middleY)));
  if (scale === 0) return null;
  const rows = points.map(({ x, y }) => {
    const u = (x - middleX) / scale;
    const v = (y - middleY) / scale;
    return [u, v, 1, -(u * u + v * v)] as const;
  });
  const sum = (i: 0 | 1 | 2, j: 0 | 1 | 2 | 3): number => rows.reduce((total, row) => total + row[i] * row[j], 0);
  const solution = solve3([
    [sum(0, 0), sum(0, 1), sum(0, 2), sum(0, 3)],
    [sum(1, 0), sum(1, 1), sum(1, 2), sum(1, 3)],
    [sum(2, 0), sum(2, 1), sum(2, 2), sum(2, 3)],
  ]);
  if (solution === null) return null;
  const [d, e, f] = solution;
  const u = -d / 2;
  const v = -e / 2;
  const squared = u * u + v * v - f;
  if (!(squared > 0)) return null;
  return {
    centre: { x: whole(u * scale + middleX), y: whole(v * scale + middleY) },
    radius: whole(Math.sqrt(squared) * scale),
  };
}

/** The radius of an arc from its chord and rise: c²/(8·h) + h/2. */
export const radiusFromChord = (chord: Length, rise: Length): Length => whole((chord * chord) / (8 * rise) + rise / 2);

/** Holes on a bolt circle, the first at an angle from X, counter-clockwise, about a centre. Rounded to the nanometre. */
export function boltCircle(diameter: Diameter, holes: number, first: Angle, centre: Point): readonly Point[] {
  const start = toRadians(first);
  return Array.from({ length: holes }, (_, index) => {
    const angle = start + (2 * Math.PI * index) / holes;
    return { x: whole(centre.x + (diameter / 2) * Math.cos(angle)), y: whole(centre.y + (diameter / 2) * Math.sin(angle)) };
  });
}

/** The straight distance between neighbouring holes of a bolt circle, to check with calipers: D·sin(π/n). */
export const boltChord = (diameter: Diameter, holes: number): Length => whole(diameter * Math.sin(Math.PI / holes));

/** Where an edge is when a finder touches it: half its tip from the spindle, toward the work (`side` +1 on its low side). */
export const edgeAt = (spindle: Length, tip: Diameter, side: 1 | -1, rounding: Rounding): Length =>
  side === 1 ? plus(spindle, dividedBy(tip, 2, rounding)) : minus(spindle, dividedBy(tip, 2, rounding));

/** The middle between two opposite edges, touched with the same finder: its tip cancels. */
export const centreBetween = (one: Length, other: Length, rounding: Rounding): Length => midway(one, other, rounding);
