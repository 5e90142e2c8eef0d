import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { inches, micrometres, millimetres, type Length } from '../../../src/measure/index.ts';
import {
  draftOfPart,
  editDraft,
  fitChoices,
  readDraft,
  readPartFile,
  type Draft,
  type KnownMate,
  type Part,
} from '../../../src/part/index.ts';

const file = readPartFile(readFileSync(new URL('../../fixtures/part-files/v3/everything.part.json', import.meta.url), 'utf8'));
if (!file.ok) throw new Error('the example does not read');
const { part, machines } = file.value;
const draft = draftOfPart(part, machines, 'd');

/** The draft with a field of a row of the given name typed anew. */
const typed = (from: Draft, group: 'turned' | 'ends', name: string, field: string, text: string): Draft => {
  const row = from[group].find(({ values }) => values['name'] === name)?.id ?? '';
  return editDraft(from, { edit: 'type', group, row, field, text });
};
const turned = (read: { readonly part: Part | null }, name: string) => read.part?.turned.find((one) => one.name === name);

describe('a length from a face, at the desk', () => {
  test('is typed as it stands on the drawing, with what it is counted from', () => {
    const collar = draft.turned.find(({ values }) => values['name'] === 'Collar');
    expect(collar?.values).toMatchObject({ length: '49.95 to 50.05', datum: 'left-face' });
  });

  test('the whole example reads back as it was: lengths with their datum, the seat in the housing, the finishes', () => {
    const read = readDraft(draft);
    expect(read.problems).toEqual([]);
    expect(read.part?.turned.map(({ length, datum }) => [length, datum])).toEqual(
      part.turned.map(({ length, datum }) => [length, datum]),
    );
    expect(read.part?.ends.find(({ name }) => name === 'Socket')).toMatchObject({
      fit: 'N7',
      diameter: { low: millimetres(11.977), high: millimetres(11.995) },
      roughness: 1.6,
    });
    expect(read.part?.milled.flatMap((one) => ('roughness' in one ? [one.roughness] : []))).toEqual([3.2, 1.6, 0.4]);
  });

  test('is drawn as what it leaves between the ends of its feature, and follows the one before it', () => {
    const read = readDraft(typed(draft, 'turned', 'Cam', 'length', '25 ±.1'));
    // 50 ± .05 from the face, less 25 ± .1. Worked by hand.
    const own = { low: millimetres(24.85), high: millimetres(25.15) };
    expect(turned(read, 'Collar')).toMatchObject({ length: own, datum: { from: 'left-face' } });
    expect(read.sketch.find(({ name }) => name === 'Collar')?.sizes['length']).toMatchObject(own);
  });

  test('one that follows already is wanted otherwise, at its own field', () => {
    const whole = typed(typed(draft, 'turned', 'Cam', 'datum', 'right-face'), 'turned', 'Cam', 'length', '172 ±.1');
    const read = readDraft(whole);
    expect(read.part).toBeNull();
    expect(read.problems).toEqual([
      {
        group: 'turned',
        row: draft.turned.find(({ values }) => values['name'] === 'Bearing seat')?.id,
        field: 'datum',
        says: expect.stringMatching(/follows already from Cam, Collar, .* and Collar seat/) as string,
      },
    ]);
  });
});

describe('the seat of a bearing, chosen at the desk', () => {
  const mate = (nominal: Length, ring: 'inner' | 'outer'): KnownMate => ({
    size: nominal,
    nominal,
    uncertainty: micrometres(0),
    holds: ring === 'inner' ? 'shaft' : 'hole',
    ring,
    measured: null,
  });

  // Classes: a maker's table for shafts, ANSI/ABMA 7 for housings (docs/sources.md); limits of 25 and 52 by ISO 286-2, the middle
  // rings 24.995 and 51.9935. Worked by hand.
  test.each([
    [
      'inner',
      25,
      [
        ['still', 'h6', 24.987, 25],
        ['light', 'j6', 24.996, 25.009],
        ['normal', 'k5', 25.002, 25.011],
      ],
    ],
    [
      'outer',
      52,
      [
        ['still', 'H7', 52, 52.03],
        ['light', 'M7', 51.97, 52],
        ['normal', 'N7', 51.961, 51.991],
      ],
    ],
  ] as const)('the seat of the %s ring of %d: its classes by load', (ring, nominal, wanted) => {
    const choices = fitChoices(mate(millimetres(nominal), ring), 'millimetre');
    expect(choices.map(({ load, word, low, high }) => [load, word, low, high])).toEqual(
      wanted.map(([load, word, low, high]) => [load, word, millimetres(low), millimetres(high)]),
    );
  });

  test('what a shaft of each class holds the middle ring by', () => {
    expect(fitChoices(mate(millimetres(25), 'inner'), 'millimetre').map(({ least, most }) => [least, most])).toEqual(
      [
        [-5, 8],
        [-14, -1],
        [-16, -7],
      ].map((pair) => pair.map(micrometres)),
    );
  });

  test('a shaft that goes into a bore has holes to choose from, by hand and by class', () => {
    const shaft: KnownMate = { ...mate(inches(1), 'outer'), ring: null };
    const words = fitChoices(shaft, 'inch').map(({ word }) => word);
    expect(words).toContain('slide');
    expect(words).toContain('H7');
    expect(words).not.toContain('g6');
  });
});
