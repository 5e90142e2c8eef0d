import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { INSTRUMENTS, millimetres, minus, nanometres, plus } from '../../src/measure/index.ts';
import { describeFileProblem, readPartFile, type PartFile } from '../../src/part/index.ts';
import { boreWindow, HAND_FITS, handClearances } from '../../src/trade/index.ts';

type Json = { [name: string]: unknown };
const everything = JSON.parse(
  readFileSync(new URL('../fixtures/part-files/v2/everything.part.json', import.meta.url), 'utf8'),
) as Json & { readonly part: { readonly mates: Json[]; readonly ends: Json[] } };

const reading = (value: string): Json => ({ value, place: 'middle', across: 'one-way', instrument: 'micrometer' });
const shaft = { id: 'steel-pin', kind: 'shaft', name: 'Pin', say: 'pin', nominal: '20mm' };
const hole = {
  kind: 'bored-hole',
  id: 'pin-bore',
  name: 'Pin bore',
  end: 'right',
  depth: { low: '9mm', high: '9.2mm' },
  drill: '19mm',
  drillDepth: '11mm',
};

/** The example file with a shaft among its mates and a hole bored for it in one end. */
function withHole(bored: Json, mate: Json = shaft): string {
  const { part, ...rest } = everything;
  return JSON.stringify({ ...rest, part: { ...part, mates: [...part.mates, mate], ends: [{ ...hole, ...bored }] } });
}
function diameterOf(text: string): { readonly low: number; readonly high: number } {
  const read = readPartFile(text);
  if (!read.ok) throw new Error(describeFileProblem(read.error));
  const [end] = (read.value satisfies PartFile).part.ends;
  return end?.kind === 'bored-hole' ? end.diameter : { low: 0, high: 0 };
}

describe('a bored hole that is fitted to a shaft', () => {
  test('follows from the largest reading of the shaft, the clearance and what the instrument may be off', () => {
    const { least, most } = handClearances('slide', millimetres(20.004));
    const mate = { ...shaft, readings: ['20.001mm', '20.004mm', '19.998mm'].map(reading) };
    const { low, high } = diameterOf(withHole({ mate: 'steel-pin', fit: 'slide' }, mate));
    const off = INSTRUMENTS.micrometer.permissibleError(millimetres(20.004));
    expect([low, high]).toEqual([plus(plus(millimetres(20.004), least), off), minus(plus(millimetres(20.004), most), off)]);
  });

  // ISO 286-1 at 20 mm: H7 0 to +21 µm (table 1 over 18 to 30; E8 by table 4, +40 to +73).
  test.each([
    ['H7', 20, 20.021],
    ['E8', 20.04, 20.073],
  ])('by its class %s from the nominal size', (fit, low, high) =>
    expect(diameterOf(withHole({ mate: 'steel-pin', fit }))).toEqual({ low: millimetres(low), high: millimetres(high) }),
  );

  test.each([
    [
      'a bore for a shaft',
      { mate: 'hub', fit: 'slide' },
      /"Pin bore".*ends\[0\]\.mate: no shaft and no outer ring is called "hub"/,
    ],
    ['no mate', { fit: 'slide', diameter: { low: '20mm', high: '20.02mm' } }, /"Pin bore".*ends\[0\]\.fit: a fit needs a shaft/],
    ['the class of a shaft', { mate: 'steel-pin', fit: 'g6', diameter: { low: '20mm', high: '20.02mm' } }, /"Pin bore".*fit/],
    ['a class that there is not', { mate: 'steel-pin', fit: 'Q7' }, /"Pin bore".*no fit is called "Q7"/],
  ])('%s is refused by the name of the hole', (_, bored, says) => {
    const read = readPartFile(withHole(bored));
    expect(read.ok ? '' : describeFileProblem(read.error)).toMatch(says);
  });

  test('clears the shaft by the fit wherever the shaft and the bore lie in what is known of them (seed 4431)', () => {
    const sizes = fc.integer({ min: 5_000_000, max: 100_000_000 }).map(nanometres);
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(
        sizes,
        fc.integer({ min: 0, max: 3_000 }).map(nanometres),
        fc.constantFrom(...HAND_FITS),
        share,
        share,
        (size, off, fit, a, b) => {
          const clearances = handClearances(fit, size);
          const window = boreWindow(size, off, clearances);
          if (!window.ok) return expect(off * 2).toBeGreaterThan(minus(clearances.most, clearances.least));
          const really = size - off + 2 * off * a;
          const bore = window.value.low + (window.value.high - window.value.low) * b;
          expect(bore - really).toBeGreaterThanOrEqual(clearances.least - 1);
          expect(bore - really).toBeLessThanOrEqual(clearances.most + 1);
        },
      ),
      { seed: 4431 },
    );
  });
});
