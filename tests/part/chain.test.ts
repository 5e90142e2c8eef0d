import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { micrometres, millimetres, type Length } from '../../src/measure/index.ts';
import {
  describeFileProblem,
  givenLengths,
  ownLengths,
  partFileSchema,
  readPartFile,
  spanOf,
  type Datum,
  type Linked,
} from '../../src/part/index.ts';

/** `10~0.1` between the ends of a feature, `LF 30~0.1` from the left face; LS and RS are its shoulders, RF the right face. */
const DATUMS: Readonly<Record<string, Datum>> = {
  LF: 'left-face',
  RF: 'right-face',
  LS: 'left-shoulder',
  RS: 'right-shoulder',
};
function linked(text: string): readonly Linked[] {
  return text.split(';').map((each): Linked => {
    const words = each.trim().split(' ');
    const [middle = 0, half = 0] = (words.at(-1) ?? '').split('~').map(Number);
    const limits = { low: millimetres(middle - half), high: millimetres(middle + half) };
    const from = words.length > 1 ? DATUMS[words[0] ?? ''] : undefined;
    return from === undefined ? { length: limits, datum: null } : { length: null, datum: { from, length: limits } };
  });
}
const written = ({ low, high }: { readonly low: Length; readonly high: Length }): string =>
  `${(low + high) / 2_000_000}~${(high - low) / 2_000_000}`;

describe('the chain of lengths', () => {
  test.each([
    ['plain lengths are what they are', '10~0.1; 20~0.2', '10~0.1; 20~0.2'],
    // (13.5 ± .005) less (8.5 ± .005): the tolerances add up, the lengths do not. Worked by hand.
    ['from the left face: the one less the other, both tolerances', 'LF 8.5~0.005; LF 13.5~0.005', '8.5~0.005; 5~0.01'],
    ['from the right face', 'RF 30~0.1; RF 20~0.1; RF 5~0.1', '10~0.2; 15~0.2; 5~0.1'],
    ['from a shoulder of its own', 'LS 8~0.1; RS 9~0.2', '8~0.1; 9~0.2'],
    ['the last one closes a whole length', '10~0.1; 20~0.1; LF 50~0.1', '10~0.1; 20~0.1; 20~0.3'],
    ['the first one closes a whole length', 'RF 50~0.1; 20~0.1; 10~0.1', '20~0.3; 20~0.1; 10~0.1'],
    ['over a plain one between', 'LF 10~0.1; 20~0.2; LF 45~0.1', '10~0.1; 20~0.2; 15~0.4'],
    ['left of the left, right of the right', 'LF 10~0.1; 20~0.2; RF 15~0.1', '10~0.1; 20~0.2; 15~0.1'],
  ])('%s', (_, given, own) => {
    const lengths = ownLengths(linked(given));
    expect(lengths.ok ? lengths.value.map(written).join('; ') : lengths.error).toBe(own);
  });

  test.each([
    ['the whole twice', 'RF 50~0.1; 20~0.1; LF 50~0.1', { key: 'given-twice', feature: 2, by: [0] }],
    [
      'one from each face, past each other: what is between is given twice and the rest not at all',
      '10~0.1; RF 40~0.1; 20~0.1; LF 50~0.1; 10~0.1',
      { key: 'given-twice', feature: 3, by: [0, 1, 4] },
    ],
    ['nothing left', 'LF 10~0.1; LF 10.15~0.1', { key: 'nothing-left', feature: 1, least: micrometres(-50) }],
  ])('%s is refused', (_, given, fault) => {
    const lengths = ownLengths(linked(given));
    expect(lengths.ok ? null : lengths.error).toEqual(fault);
  });

  /** Parts as they may be made: every given length somewhere within its limits. */
  const cut = fc.record({
    middle: fc.integer({ min: 5_000, max: 40_000 }),
    half: fc.integer({ min: 0, max: 50 }),
    from: fc.constantFrom(null, 'left-face', 'left-shoulder', 'right-shoulder'),
    lies: fc.integer({ min: -100, max: 100 }),
  });
  test('a part within the lengths of its drawing has every own length within its stack, and the stack is reached (seed 5501)', () => {
    fc.assert(
      fc.property(fc.array(cut, { minLength: 1, maxLength: 12 }), (cuts) => {
        // Positions of the planes in the middle, in µm.
        const at = cuts.reduce<number[]>((planes, { middle }) => [...planes, (planes.at(-1) ?? 0) + middle], [0]);
        const um = (value: number): Length => micrometres(value);
        const features = cuts.map(({ middle, half, from }, index): Linked => {
          const long = from === 'left-face' ? (at[index + 1] ?? 0) : middle;
          const limits = { low: um(long - half), high: um(long + half) };
          return from === null
            ? { length: limits, datum: null }
            : { length: null, datum: { from: from as Datum, length: limits } };
        });
        const own = ownLengths(features);
        if (!own.ok) throw new Error(JSON.stringify(own.error));
        // Each plane really lies where its own length puts it: from the plane before, or from the face.
        const real = cuts.reduce<number[]>(
          (planes, { middle, half, from, lies }, index) => [
            ...planes,
            (from === 'left-face' ? (at[index + 1] ?? 0) : (planes.at(-1) ?? 0) + middle) + (half * lies) / 100,
          ],
          [0],
        );
        own.value.forEach(({ low, high }, index) => {
          const long = ((real[index + 1] ?? 0) - (real[index] ?? 0)) * 1000;
          expect(long).toBeGreaterThanOrEqual(low - 1);
          expect(long).toBeLessThanOrEqual(high + 1);
        });
        const whole = spanOf(givenLengths(features), 0, cuts.length);
        expect(((whole?.low ?? 0) + (whole?.high ?? 0)) / 2).toBe((at.at(-1) ?? 0) * 1000);
      }),
      { seed: 5501, numRuns: 300 },
    );
  });
});

describe('a part file with a length from a face', () => {
  type File = { part: { turned: Record<string, unknown>[] } };
  const text = readFileSync(new URL('../fixtures/part-files/v3/everything.part.json', import.meta.url), 'utf8');
  const says = (change: (turned: Record<string, unknown>[]) => void): string => {
    const file = JSON.parse(text) as File;
    change(file.part.turned);
    const read = readPartFile(JSON.stringify(file));
    return read.ok ? 'reads' : describeFileProblem(read.error);
  };
  const face = (from: Datum, middle: number, half = 0.1): unknown => ({
    from,
    length: { low: `${(middle - half).toFixed(3)}mm`, high: `${(middle + half).toFixed(3)}mm` },
  });

  test('reads, with what the length leaves between the ends of its feature', () => {
    const read = readPartFile(text);
    if (!read.ok) throw new Error(describeFileProblem(read.error));
    // The collar ends 50 ± .05 from the left face, and the cam before it is 20 ± .1 long.
    expect(read.value.part.turned[1]).toMatchObject({
      length: { low: millimetres(29.85), high: millimetres(30.15) },
      datum: { from: 'left-face', length: { low: millimetres(49.95), high: millimetres(50.05) } },
    });
    expect(readPartFile(JSON.stringify(z.encode(partFileSchema, read.value)))).toEqual(read);
  });

  test('a length that follows already is refused by the name of its feature, with those that it follows from', () => {
    expect(says((turned) => void (turned[0] = { ...turned[0], datum: face('right-face', 172), length: undefined }))).toBe(
      'feature "Bearing seat", part.turned[5].datum: its length from the face follows already from Cam, Collar, Hub seat, ' +
        'Ring groove and Collar seat: give one of them otherwise',
    );
  });

  test('one that its limits may bring to nothing, one that holds a width, and one that contradicts its datum are named', () => {
    expect(says((turned) => void (turned[1] = { ...turned[1], datum: face('left-face', 20.1) }))).toMatch(
      /^feature "Collar", part\.turned\[1\]\.datum: between its own two ends it may come out at -0\.10 mm/,
    );
    expect(says((turned) => void (turned[2] = { ...turned[2], length: undefined, datum: face('left-face', 90) }))).toMatch(
      /^feature "Hub seat", part\.turned\[2\]\.datum: a length that holds a width/,
    );
    expect(says((turned) => void (turned[1] = { ...turned[1], length: { low: '29mm', high: '31mm' } }))).toMatch(
      /^feature "Collar", part\.turned\[1\]\.length: it follows from its datum, 29\.85 mm to 30\.15 mm: leave it out$/,
    );
    expect(says((turned) => void (turned[1] = { ...turned[1], datum: undefined }))).toMatch(
      /^feature "Collar", part\.turned\[1\]\.length/,
    );
  });
});
