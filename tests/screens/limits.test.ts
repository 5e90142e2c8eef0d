import { describe, expect, test } from 'vitest';
import { inches, millimetres } from '../../src/measure/index.ts';
import { bothLimits } from '../../src/screens/show.ts';

/* ISO 129-1 and ASME Y14.5: the two limits of a size have the same number of places (from memory). */
describe('two limits', () => {
  test.each([
    [29.959, 29.98, '29.959', '29.980'],
    [19.979, 20, '19.979', '20.000'],
    [24.98, 24.993, '24.980', '24.993'],
    [30.8, 31.2, '30.80', '31.20'],
  ])('%d and %d mm have the same places', (low, high, from, to) => {
    expect(bothLimits(millimetres(low), millimetres(high), 'millimetre')).toEqual([from, to]);
  });

  test.each([
    [0.998, 0.9985, '.9980', '.9985'],
    [0.7869, 0.7874, '.7869', '.7874'],
    [1.248, 1.252, '1.248', '1.252'],
  ])('%d and %d in have the same places', (low, high, from, to) => {
    expect(bothLimits(inches(low), inches(high), 'inch')).toEqual([from, to]);
  });
});
