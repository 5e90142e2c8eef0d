import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { nanometres } from '../../src/measure/index.ts';
import {
  describeFileProblem,
  lengthField,
  machineSchema,
  partSchema,
  placeName,
  readBy,
  sizeField,
} from '../../src/part/index.ts';

const read = (name: string): unknown => JSON.parse(readFileSync(new URL(name, import.meta.url), 'utf8'));

type Case = {
  readonly name: string;
  readonly set: (string | number)[];
  readonly to: unknown;
  readonly place: string | null;
  readonly path: string;
  readonly says: string;
};

/** The JSON with one value put in place of another. */
function changed(json: unknown, [step, ...rest]: readonly (string | number)[], to: unknown): unknown {
  if (step === undefined) return to;
  if (Array.isArray(json)) return json.map((member: unknown, index) => (index === step ? changed(member, rest, to) : member));
  const group = json as Record<string, unknown>;
  return { ...group, [step]: changed(group[step], rest, to) };
}

const written = (path: readonly (string | number)[]): string =>
  path.map((step, index) => (typeof step === 'number' ? `[${step}]` : index === 0 ? step : `.${step}`)).join('');

describe('opening a part', () => {
  test('a sound one opens', () => {
    const part = readBy(partSchema, read('part.json'));
    expect(part.ok && part.value.turned[2]).toMatchObject({ kind: 'offset-journal', throw: 3_175_000 });
  });

  test.each(read('broken.json') as Case[])('says what is wrong and where: $name', ({ set, to, place, path, says }) => {
    const part = readBy(partSchema, changed(read('part.json'), set, to));
    if (part.ok) throw new Error('the broken part was opened');
    expect(part.error.place).toBe(place);
    expect(written(part.error.path)).toBe(path);
    expect(part.error.says).toContain(says);
    const line = describeFileProblem(part.error);
    expect(line).toContain(says);
    expect(line).not.toContain('\n');
    if (place !== null) expect(line.startsWith(place)).toBe(true);
  });

  test('what is not an object at all is named too', () => {
    for (const json of [null, 3, 'part', []]) {
      const part = readBy(partSchema, json);
      expect(part.ok).toBe(false);
      if (!part.ok) expect(describeFileProblem(part.error)).toContain('expected object');
    }
  });
});

describe('naming a place', () => {
  const json = { route: { operations: [{ id: 'face', title: 'Face the end', target: { low: 1 } }, { target: {} }, 7] } };
  test.each([
    [['route', 'operations', 0, 'target', 'low'], 'operation "Face the end"'],
    [['route', 'operations', 1, 'target'], 'operation 2'],
    [['route', 'operations', 2], 'operation 3'],
    [['route', 'operations', 9], 'operation 10'],
    [['route', 'operations'], null],
    [['route', 'toString', 0], null],
    [[], null],
  ] as const)('%j is %s', (path, place) => {
    expect(placeName(json, path)).toBe(place);
  });
});

describe('lengths in files', () => {
  test('every length that is written is read back to the nanometre (seed 4101)', () => {
    fc.assert(
      fc.property(fc.integer({ min: -90_000_000_000, max: 90_000_000_000 }), (count) => {
        expect(lengthField.decode(lengthField.encode(nanometres(count)))).toBe(count + 0);
      }),
      { seed: 4101 },
    );
  });

  test.each(['', '12', '.627', 'mm', '1.2.3mm', '5 cm', '1/0in', 'in 3', '12 mm mm'])('"%s" is refused', (text) => {
    expect(lengthField.safeParse(text).success).toBe(false);
  });

  test.each(['0in', '0mm', '-1mm'])('"%s" is no size', (text) => {
    expect(sizeField.safeParse(text).success).toBe(false);
    expect(lengthField.safeParse(text).success).toBe(true);
  });
});

describe('machines', () => {
  const lathe = {
    id: 'lathe',
    name: 'Lathe',
    crossSlide: { division: '0.001in', perTurn: '0.1in', reads: 'radius' },
    carriage: null,
    spindleSpeeds: [70],
  };
  test('a sound one opens', () => {
    expect(machineSchema.parse(lathe).crossSlide.division).toBe(25_400);
  });
  test.each([
    [
      'a dial that does not say what it reads',
      { crossSlide: { division: '0.001in', perTurn: '0.1in' } },
      ['crossSlide', 'reads'],
    ],
    ['a dial of no divisions', { crossSlide: { ...lathe.crossSlide, division: '0in' } }, ['crossSlide', 'division']],
    ['no spindle speed', { spindleSpeeds: [] }, ['spindleSpeeds']],
    ['a speed of nothing', { spindleSpeeds: [70, 0] }, ['spindleSpeeds', 1]],
  ])('%s is refused', (_, change, path) => {
    const machine = readBy(machineSchema, { ...lathe, ...change });
    expect(machine.ok ? null : machine.error.path).toEqual(path);
  });
});
