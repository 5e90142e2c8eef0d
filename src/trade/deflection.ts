import { millimetres, toMillimetres, zero, type Diameter, type Length } from '../measure/index.ts';

/** How the work is held while a tool presses on it. */
export type Holding = 'chuck' | 'chuck-and-tailstock' | 'between-centres';

/** Second moment of area of a round section in mm⁴, with a hole through its middle or none: π·(d⁴ − b⁴)/64. */
export const secondMomentMm4 = (diameter: Diameter, bore: Length = zero): number =>
  (Math.PI * (toMillimetres(diameter) ** 4 - toMillimetres(bore) ** 4)) / 64;

/**
 * Built in at the chuck and propped at the tailstock, the load at `a` from the prop bends the work under it by
 * F·a²·b³·(3L + a)/(12·E·I·L³), with b = L − a (the usual beam tables); that is largest at a = (√2 − 1)·L.
 */
const WORST = Math.SQRT2 - 1;
const PROPPED_FACTOR = (WORST ** 2 * (1 - WORST) ** 3 * (3 + WORST)) / 12;

/**
 * How far round work bends away at the worst place, on the radius: chuck F·L³/(3·E·I) at the free end, between centres
 * F·L³/(48·E·I) in the middle, chuck and tailstock about F·L³/(102·E·I). The radial force is in N, the modulus in GPa. Elastic,
 * of one diameter and bore, chuck and centres rigid.
 */
export function deflection(
  holding: Holding,
  diameter: Diameter,
  length: Length,
  forceN: number,
  modulusGPa: number,
  bore: Length = zero,
): Length {
  const flexed = (forceN * toMillimetres(length) ** 3) / (modulusGPa * 1000 * secondMomentMm4(diameter, bore));
  switch (holding) {
    case 'chuck':
      return millimetres(flexed / 3);
    case 'between-centres':
      return millimetres(flexed / 48);
    case 'chuck-and-tailstock':
      return millimetres(flexed * PROPPED_FACTOR);
  }
}

/**
 * How far work may stand out of a chuck without a tailstock: three diameters (the safety pages of lathe manuals say: support what
 * stands out more than that), and four at the most, for light cuts. The latter: common practice, no source.
 */
export const STICK_OUT = { safe: 3, most: 4 } as const;
export type StickOut = 'safe' | 'light-cuts' | 'needs-support';
export function stickOut(diameter: Diameter, length: Length): StickOut {
  if (length <= diameter * STICK_OUT.safe) return 'safe';
  return length <= diameter * STICK_OUT.most ? 'light-cuts' : 'needs-support';
}
