/** Conversion facts from outside: what one of a unit is in nanometres, and where that is written. */
export const LENGTH_FACTS: readonly (readonly [text: string, nanometres: number, source: string])[] = [
  ['1 in', 25_400_000, 'NIST SP 811 App. B.8: inch = 2.54 E+01 mm, exact (entry from memory)'],
  ['1 ft', 304_800_000, 'NIST SP 811 App. B.8: foot = 3.048 E-01 m, exact (entry from memory)'],
  ['1 thou', 25_400, 'NIST SP 811 App. B.8: mil (0.001 in) = 2.54 E-02 mm, exact (entry from memory)'],
  ['1 um', 1_000, 'NIST SP 811 App. B.8: micron = 1.0 E+00 µm, exact (entry from memory)'],
  ['10 tenths', 25_400, 'common practice: a tenth is .0001 in'],
  ['1 mm', 1_000_000, 'SI prefixes'],
];

/** Fractions of an inch as decimal charts print them in full; the decimals follow from 1/64 in = .015625 in. */
export const FRACTIONS: readonly (readonly [fraction: string, inches: string])[] = [
  ['1/64', '.015625'],
  ['1/32', '.03125'],
  ['3/64', '.046875'],
  ['1/16', '.0625'],
  ['7/64', '.109375'],
  ['1/8', '.125'],
  ['5/32', '.15625'],
  ['13/64', '.203125'],
  ['1/4', '.25'],
  ['5/16', '.3125'],
  ['3/8', '.375'],
  ['25/64', '.390625'],
  ['27/64', '.421875'],
  ['29/64', '.453125'],
  ['1/2', '.5'],
  ['5/8', '.625'],
  ['3/4', '.75'],
  ['7/8', '.875'],
  ['63/64', '.984375'],
  ['1 1/4', '1.25'],
  ['1 5/16', '1.3125'],
  ['2 1/2', '2.5'],
];

/** Fixed points of the two scales, and the reference temperature. Celsius, Fahrenheit. */
export const TEMPERATURE_FACTS: readonly (readonly [celsius: number, fahrenheit: number, source: string])[] = [
  [0, 32, 'NIST SP 811 App. B.8: t/°C = (t/°F − 32)/1.8'],
  [100, 212, 'NIST SP 811 App. B.8: t/°C = (t/°F − 32)/1.8'],
  [-40, -40, 'the formula, where both scales agree'],
  [20, 68, 'ISO 1: 20 °C is the reference temperature; 68 °F in inch practice'],
];
