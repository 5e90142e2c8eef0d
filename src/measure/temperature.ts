import { assert } from './result.ts';
import { roundReal, type Rounding } from './rounding.ts';

declare const temperatureBrand: unique symbol;

/** A temperature on the Celsius scale, as an integer number of thousandths of a degree. */
export type Temperature = number & { readonly [temperatureBrand]: true };

/** A temperature from degrees Celsius, rounded as told to .001 °C. */
export function celsius(value: number, rounding: Rounding): Temperature {
  const count = roundReal(value * 1000, rounding);
  assert(Number.isSafeInteger(count), `a temperature is finite, got ${value} °C`);
  return count as Temperature;
}

/** A temperature from degrees Fahrenheit, rounded as told to .001 °C. */
export const fahrenheit = (value: number, rounding: Rounding): Temperature => celsius(((value - 32) * 5) / 9, rounding);

export const toCelsius = (temperature: Temperature): number => temperature / 1000;
export const toFahrenheit = (temperature: Temperature): number => (temperature / 1000) * 1.8 + 32;

/** The temperature at which sizes are true: 20 °C (ISO 1). */
export const referenceTemperature: Temperature = celsius(20, 'half-even');
