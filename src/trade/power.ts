import { toMillimetres, type Length } from '../measure/index.ts';
import type { Material } from './cuttingData.ts';
import type { SurfaceSpeed } from './speeds.ts';

/**
 * Specific cutting force at a chip 1 mm thick in N/mm², and how it grows as the chip gets thinner (Kienzle: kc = kc1.1·h^−mc).
 * From a tool maker's catalogue of 2017, p. 558, by the groups of VDI 3323: non-alloy steel under .25 % carbon, low alloy steel
 * annealed, austenitic stainless, grey iron, brass, wrought aluminium cured. Sources differ by a quarter and more.
 */
export const SPECIFIC_FORCES: Readonly<Record<Material, { readonly kc11: number; readonly exponent: number }>> = {
  'low-carbon-steel': { kc11: 1350, exponent: 0.21 },
  'alloy-steel': { kc11: 1775, exponent: 0.24 },
  'stainless-steel': { kc11: 2150, exponent: 0.2 },
  'grey-iron': { kc11: 1150, exponent: 0.2 },
  brass: { kc11: 700, exponent: 0.27 },
  aluminium: { kc11: 800, exponent: 0.25 },
};

/** The main cutting force in N at a square tool: kc·depth·feed, the chip as thick as the feed. */
export function cuttingForceN(material: Material, depthOnRadius: Length, feedPerTurn: Length): number {
  const { kc11, exponent } = SPECIFIC_FORCES[material];
  const feed = toMillimetres(feedPerTurn);
  return kc11 * feed ** -exponent * toMillimetres(depthOnRadius) * feed;
}

/** The part of it that pushes the work away, for deflection: about 40 %. Common practice, no source. */
export const radialForceN = (cuttingForce: number): number => 0.4 * cuttingForce;

/** Power at the spindle in kW: F·v/60 000; the motor needs that over its efficiency, about .75. */
export const spindlePowerKw = (cuttingForce: number, { metresPerMinute }: SurfaceSpeed): number =>
  (cuttingForce * metresPerMinute) / 60_000;
