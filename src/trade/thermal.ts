import { referenceTemperature, scaled, toCelsius, type Length, type Rounding, type Temperature } from '../measure/index.ts';

/** Linear expansion in 1e-6/K, with where the figure comes from. */
export type Expansion = { readonly perK: number; readonly source: string };

export const EXPANSIONS = {
  steel: { perK: 11.5, source: 'Swyt, J. Res. NIST 99 (1994)' },
  aluminium: { perK: 23.1, source: 'Swyt, J. Res. NIST 99 (1994)' },
  'cast-iron': { perK: 10.5, source: 'handbook value' },
  brass: { perK: 19, source: 'handbook range 18.4 to 19' },
  'stainless-steel': { perK: 17.3, source: 'handbook range 16.2 to 18.4 for austenitic grades, its middle' },
} as const satisfies Readonly<Record<string, Expansion>>;
export type ThermalMaterial = keyof typeof EXPANSIONS;

/** How much longer a length gets over a difference of temperature (K): α·L·ΔT. */
export const expansionOf = (length: Length, { perK }: Expansion, kelvin: number, rounding: Rounding): Length =>
  scaled(length, perK * 1e-6 * kelvin, rounding);

/** The size at 20 °C (ISO 1) of a body that measures `length` true at temperature `at`: L/(1 + α·(T − 20)). */
export function sizeAtReference(length: Length, expansion: Expansion, at: Temperature, rounding: Rounding): Length {
  return scaled(length, 1 / (1 + expansion.perK * 1e-6 * (toCelsius(at) - toCelsius(referenceTemperature))), rounding);
}

/**
 * The size at 20 °C of a body at `at` that reads `reading` on an instrument that is itself at `instrumentAt`: the scale of a
 * warm instrument is long, so it reads short.
 */
export function sizeFromWarmReading(
  reading: Length,
  body: Expansion,
  at: Temperature,
  instrument: Expansion,
  instrumentAt: Temperature,
  rounding: Rounding,
): Length {
  const reference = toCelsius(referenceTemperature);
  const scale = 1 + instrument.perK * 1e-6 * (toCelsius(instrumentAt) - reference);
  return scaled(reading, scale / (1 + body.perK * 1e-6 * (toCelsius(at) - reference)), rounding);
}
