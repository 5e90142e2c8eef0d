import { assert, celsius, scaled, toMillimetres, type Diameter, type Length, type Temperature } from '../measure/index.ts';
import type { Material } from './cuttingData.ts';

/** What a press or shrink fit is made of. A hub's `outer` is its outside diameter; `bore` of a solid shaft is zero. */
export type PressedPair = {
  readonly diameter: Diameter;
  readonly hubOuter: Diameter;
  readonly shaftBore: Length;
  readonly length: Length;
  readonly interference: Length;
  readonly hub: ElasticMaterial;
  readonly shaft: ElasticMaterial;
};

/** Young's modulus in GPa, Poisson's ratio, and expansion in 1e-6/K: round values inside the ranges of published tables. */
export type ElasticMaterial = { readonly modulusGPa: number; readonly poisson: number; readonly expansionPerK: number };

export const STEEL: ElasticMaterial = { modulusGPa: 200, poisson: 0.3, expansionPerK: 11.5 };
export const CAST_IRON: ElasticMaterial = { modulusGPa: 110, poisson: 0.25, expansionPerK: 10.5 };
export const ALUMINIUM: ElasticMaterial = { modulusGPa: 70, poisson: 0.33, expansionPerK: 23.1 };
export const BRASS: ElasticMaterial = { modulusGPa: 100, poisson: 0.34, expansionPerK: 18.4 };
export const STAINLESS: ElasticMaterial = { modulusGPa: 193, poisson: 0.29, expansionPerK: 16.2 };

/** The elastic constants of the materials that speeds are known for; expansion as `thermal.ts`, the low end of its ranges. */
export const ELASTIC: Readonly<Record<Material, ElasticMaterial>> = {
  'low-carbon-steel': STEEL,
  'alloy-steel': STEEL,
  'stainless-steel': STAINLESS,
  'grey-iron': CAST_IRON,
  brass: BRASS,
  aluminium: ALUMINIUM,
};

/**
 * Pressure between hub and shaft in MPa (N/mm²), by Lamé's equations for thick cylinders within the elastic range:
 * p = δ / (d·[ (1/Eh)·((Do² + d²)/(Do² − d²) + νh) + (1/Es)·((d² + di²)/(d² − di²) − νs) ]).
 */
export function contactPressureMPa({ diameter, hubOuter, shaftBore, interference, hub, shaft }: PressedPair): number {
  assert(
    hubOuter > diameter && diameter > shaftBore && shaftBore >= 0,
    'the hub is larger than the shaft, and the shaft than its bore',
  );
  const d = toMillimetres(diameter);
  const outer = toMillimetres(hubOuter);
  const inner = toMillimetres(shaftBore);
  const hubGives = ((outer ** 2 + d ** 2) / (outer ** 2 - d ** 2) + hub.poisson) / (hub.modulusGPa * 1000);
  const shaftGives = ((d ** 2 + inner ** 2) / (d ** 2 - inner ** 2) - shaft.poisson) / (shaft.modulusGPa * 1000);
  return toMillimetres(interference) / (d * (hubGives + shaftGives));
}

/** The axial force to press the pair fully home in N: μ·p·π·d·L. The coefficient of friction is the caller's. */
export function pressForceN(pair: PressedPair, friction: number): number {
  return friction * contactPressureMPa(pair) * Math.PI * toMillimetres(pair.diameter) * toMillimetres(pair.length);
}

/** The hoop stress at the bore of the hub in MPa, to be held against its yield stress: p·(Do² + d²)/(Do² − d²). */
export function hubStressMPa(pair: PressedPair): number {
  const d = toMillimetres(pair.diameter);
  const outer = toMillimetres(pair.hubOuter);
  return (contactPressureMPa(pair) * (outer ** 2 + d ** 2)) / (outer ** 2 - d ** 2);
}

/** Shown with every force and temperature of this file. Trade teaching; the other cautions are those of a route. */
export const PRESSING_CAUTION =
  'A part under a press can fly: guard up, square, nobody in line. Hot metal: tongs or dry gloves, nothing near it that burns or smokes, and never over the temper of the steel.';

/** Friction of steel on steel: lubricated .05 to .1, dry .1 to .15 (A. van Beek, Advanced Engineering Design). */
const FRICTION = { least: 0.05, most: 0.15 } as const;

/** What it takes to put a pressed pair together, by force or by heat, and what it does to the hub. */
export type Assembly = {
  readonly forceN: { readonly least: number; readonly most: number };
  readonly hubAt: Temperature;
  readonly hubStressMPa: number;
  readonly caution: string;
};

/** Both ways to put a pair together: the force by the range of friction, the heat with room over a shaft at `shaftAt`. */
export function assemblyOf(pair: PressedPair, room: Length, shaftAt: Temperature): Assembly {
  return {
    forceN: { least: pressForceN(pair, FRICTION.least), most: pressForceN(pair, FRICTION.most) },
    hubAt: hubTemperature(pair, room, shaftAt),
    hubStressMPa: hubStressMPa(pair),
    caution: PRESSING_CAUTION,
  };
}

/**
 * How hot the hub must be to go over a shaft at `shaftAt` with room to spare: T = T0 + (δ + room)/(α·d). Rounded up to .001 °C.
 * Hot metal: tongs or dry gloves, and nothing that smokes or burns near it.
 */
export function hubTemperature(pair: PressedPair, room: Length, shaftAt: Temperature): Temperature {
  const rise =
    (toMillimetres(pair.interference) + toMillimetres(room)) / (pair.hub.expansionPerK * 1e-6 * toMillimetres(pair.diameter));
  return celsius(shaftAt / 1000 + rise, 'ceiling');
}

/**
 * How cold the shaft must be to go into a hub at `hubAt` with room to spare, the same for shrinking as for heating:
 * T = T0 − (δ + room)/(α·d). Rounded down to .001 °C.
 */
export function shaftTemperature(pair: PressedPair, room: Length, hubAt: Temperature): Temperature {
  const fall =
    (toMillimetres(pair.interference) + toMillimetres(room)) / (pair.shaft.expansionPerK * 1e-6 * toMillimetres(pair.diameter));
  return celsius(hubAt / 1000 - fall, 'floor');
}

/** Room to drop a heated hub over a shaft without a rush: a thousandth of the diameter. Common practice, no source. */
export const dropRoom = (diameter: Diameter): Length => scaled(diameter, 1 / 1000, 'half-even');
