import { assert, nanometres, toMillimetres, type Diameter, type Length } from '../measure/index.ts';

/**
 * A ring in a chuck: its outside and its bore, how much of its length stands between the jaws, how stiff its material is. The
 * jaws are taken as points, which is what hard jaws are to a thin ring.
 */
export type RingInJaws = {
  readonly outer: Diameter;
  readonly bore: Diameter;
  readonly held: Length;
  readonly modulusGPa: number;
  readonly jaws: 3 | 4 | 6;
};

/**
 * How far a thin ring gives under equal jaws, for a force of 1 and the stiffness E·I/R³ of 1: inward under each jaw, outward
 * half way between two. With θ half the angle from jaw to jaw: (1/2)·((θ + sinθ·cosθ)/(2·sin²θ) − 1/θ) and
 * (1/4)·(2/θ − 1/sinθ − θ·cosθ/sin²θ): Roark, Formulas for Stress and Strain, rings under equal radial forces equally spaced,
 * from memory; met in tests by beam elements, and with two forces by the known .149 and .137 of a ring across.
 */
export function ringGives(jaws: number): { readonly inward: number; readonly outward: number } {
  const half = Math.PI / jaws;
  const [sin, cos] = [Math.sin(half), Math.cos(half)];
  return {
    inward: ((half + sin * cos) / (2 * sin ** 2) - 1 / half) / 2,
    outward: (2 / half - 1 / sin - (half * cos) / sin ** 2) / 4,
  };
}

/**
 * How far out of round, on the radius, a bore that is cut round in the jaws springs when they let go, at a force of each jaw in
 * N: what the ring gave under a jaw and between two of them. Thin rings only; bending alone, as of a straight beam. Rounded up.
 */
export function squeezedOutOfRound({ outer, bore, held, modulusGPa, jaws }: RingInJaws, forceN: number): Length {
  assert(outer > bore && bore > 0, 'a ring is larger outside than inside');
  const wall = (toMillimetres(outer) - toMillimetres(bore)) / 2;
  const radius = (toMillimetres(outer) + toMillimetres(bore)) / 4;
  const secondMoment = (toMillimetres(held) * wall ** 3) / 12;
  const { inward, outward } = ringGives(jaws);
  const mm = ((inward + outward) * forceN * radius ** 3) / (modulusGPa * 1000 * secondMoment);
  return nanometres(Math.ceil(mm * 1_000_000));
}

/** Friction of hard jaws on turned work, and how much more than the cut wants is taken. Common practice, no source. */
const JAW_FRICTION = 0.2;
const GRIP_SAFETY = 2;

/** What each jaw must press, in N, so that a cut of a force at a radius does not turn the work in them: F·r/(n·μ·R), twice. */
export const jawForceN = (cuttingForceN: number, cutAcross: Diameter, heldAcross: Diameter, jaws: number): number =>
  (GRIP_SAFETY * cuttingForceN * cutAcross) / (jaws * JAW_FRICTION * heldAcross);
