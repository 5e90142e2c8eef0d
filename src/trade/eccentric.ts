import { asDiameter, asRadius, assert, plus, radiusOf, scaled, times, toMillimetres, millimetres, type Diameter, type Length, type Radius } from '../measure/index.ts';

/** What the indicator shows between low and high on a diameter that is off centre: twice the throw. Exact. */
export const indicatorRange = (offset: Length): Length => times(offset, 2);

/** How far a jaw moves to bring an indicator range to nothing: half of it, rounded half to even. */
export const jawMove = (range: Length): Length => scaled(range, 0.5, 'half-even');

/** The bar that an offset diameter needs: d + 2e. Exact. */
export const stockFor = (diameter: Diameter, offset: Length): Diameter => asDiameter(plus(diameter, times(offset, 2)));

/** The diameter that a body of this size sweeps when it turns off centre: d + 2e. Exact. */
export const sweptDiameter = stockFor;

/**
 * The packing piece under one jaw of a three-jaw chuck for a throw e in a bar of diameter D, jaws touching at a point, exact:
 * t = 1.5e + √(r² − 0.75e²) − r. Rounded to the nearest nanometre. The throw is under D/√3.
 */
export function packingPiece(bar: Diameter, offset: Length): Length {
  const r = toMillimetres(bar) / 2;
  const e = toMillimetres(offset);
  assert(r ** 2 >= 0.75 * e ** 2, `a throw of ${e} mm cannot be packed in a bar of ${2 * r} mm`);
  return millimetres(1.5 * e + Math.sqrt(r ** 2 - 0.75 * e ** 2) - r);
}

/** The packing piece where the jaws are flat and wide: t = 1.5e. */
export const packingPieceFlatJaws = (offset: Length): Length => scaled(offset, 1.5, 'half-even');

/** The throw that a packing piece really gives, point contact: the inverse of `packingPiece`, in closed form. */
export function throwOfPacking(bar: Diameter, packing: Length): Length {
  // (1.5e - (t + r))² = ... squared out: 3e² - 3e(t + r) + t² + 2tr = 0, the smaller root.
  const r = toMillimetres(bar) / 2;
  const t = toMillimetres(packing);
  const discriminant = 9 * (t + r) ** 2 - 12 * (t ** 2 + 2 * t * r);
  assert(discriminant >= 0, `a packing piece of ${t} mm is too thick for a bar of ${2 * r} mm`);
  return millimetres((3 * (t + r) - Math.sqrt(discriminant)) / 6);
}

/** The radius that clears everything when the bar turns about the offset axis. */
export const clearingRadius = (bar: Diameter, offset: Length): Radius => asRadius(plus(radiusOf(bar, 'ceiling'), offset));

/** The force of an out-of-balance mass in newtons: m·r·ω². */
export function unbalanceForceN(massKg: number, radius: Length, rpm: number): number {
  return massKg * (toMillimetres(radius) / 1000) * ((2 * Math.PI * rpm) / 60) ** 2;
}

/** The mass of a round bar in kg; density in kg/m³ (steel 7850). */
export function barMassKg(diameter: Diameter, length: Length, density: number): number {
  return ((Math.PI * toMillimetres(diameter) ** 2) / 4) * toMillimetres(length) * 1e-9 * density;
}
