import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  celsius, degrees, degreesAndMinutes, fahrenheit, inches, INSTRUMENTS, nanometres, referenceTemperature, thou, toCelsius,
  toDegrees, toFahrenheit, toRadians, type InstrumentKind,
} from '../../src/measure/index.ts';
import { TEMPERATURE_FACTS } from './cases/facts.ts';

const SEED = 20;

describe('angle', () => {
  test.each([
    [1, 1.745_329e-2, 'NIST SP 811 App. B.8: degree = 1.745 329 E-02 rad (entry from memory)'],
    [1 / 60, 2.908_882e-4, 'NIST SP 811 App. B.8: minute = 2.908 882 E-04 rad (entry from memory)'],
    [1 / 3600, 4.848_137e-6, 'NIST SP 811 App. B.8: second = 4.848 137 E-06 rad (entry from memory)'],
  ])('%d° is %d rad (%s)', (value, radians) => {
    // The source gives seven figures.
    expect(toRadians(degrees(value, 'half-even')) / radians).toBeCloseTo(1, 6);
  });

  test.each([
    [3, 35, 3 + 35 / 60],
    [-3, 30, -3.5],
    [0, 30, 0.5],
    [60, 0, 60],
  ])('%d° %d′ is %d°', (whole, minutes, value) => {
    expect(toDegrees(degreesAndMinutes(whole, minutes))).toBeCloseTo(value, 9);
  });

  test('a whole minute is exact', () => {
    expect(degreesAndMinutes(0, 1) * 60).toBe(degrees(1, 'floor'));
  });

  test('an angle that is not a number is a bug of the caller', () => {
    expect(() => degrees(Number.NaN, 'floor')).toThrow('Broken invariant');
  });
});

describe('temperature', () => {
  test.each(TEMPERATURE_FACTS)('%d °C is %d °F (%s)', (c, f) => {
    expect(fahrenheit(f, 'half-even')).toBe(celsius(c, 'half-even'));
    expect(toFahrenheit(celsius(c, 'half-even'))).toBe(f);
  });

  test('sizes are true at 20 °C (ISO 1)', () => {
    expect(toCelsius(referenceTemperature)).toBe(20);
  });

  test(`Fahrenheit read out comes back to the same thousandth (seed ${SEED})`, () => {
    fc.assert(
      fc.property(fc.integer({ min: -50_000, max: 400_000 }), (count) => {
        const temperature = celsius(count / 1000, 'half-even');
        expect(fahrenheit(toFahrenheit(temperature), 'half-even')).toBe(temperature);
      }),
      { seed: SEED },
    );
  });
});

describe('instruments', () => {
  // TB 9-5210-208-35: .001 in over the first 6 in and .001 more for each further 6 in begun.
  test.each([
    [0, 1],
    [0.627, 1],
    [6, 1],
    [6.001, 2],
    [12, 2],
    [12.001, 3],
  ])('a caliper at %d in may be off by %d thou', (size, error) => {
    expect(INSTRUMENTS.caliper.permissibleError(inches(size))).toBe(thou(error));
  });

  test.each(Object.entries(INSTRUMENTS))('%s: figures are lengths with a source, and the name fits the kind', (kind, instrument) => {
    expect(instrument.kind).toBe(kind as InstrumentKind);
    expect(instrument.resolution).toBeGreaterThan(0);
    expect(instrument.permissibleError(inches(1))).toBeGreaterThan(0);
    expect(instrument.source).not.toBe('');
  });

  test('a micrometer tells what a caliper cannot', () => {
    const size = inches(0.627);
    expect(INSTRUMENTS.micrometer.permissibleError(size)).toBeLessThan(INSTRUMENTS.caliper.permissibleError(size));
    expect(INSTRUMENTS.micrometer.resolution).toBe(nanometres(2_540));
  });
});
