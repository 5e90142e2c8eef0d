import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { INSTRUMENTS, micrometres, minus, plus } from '../../src/measure/index.ts';
import {
  describeFileProblem,
  fitLimits,
  PART_STEPS,
  PART_VERSION,
  partFileSchema,
  readPartFile,
  uncertaintyOf,
  type PartFile,
} from '../../src/part/index.ts';
import { checkRoute, routeFor } from '../../src/route/index.ts';
import { handClearances, isoLimits } from '../../src/trade/index.ts';

const FOLDER = new URL('../fixtures/part-files/', import.meta.url);
const fixture = (path: string): string => readFileSync(new URL(path, FOLDER), 'utf8');

function opened(text: string): PartFile {
  const read = readPartFile(text);
  if (!read.ok) throw new Error(describeFileProblem(read.error));
  return read.value;
}

/** The text with one value of its JSON put in place of another. */
const changed = (
  path: string,
  change: (file: {
    version: number;
    part: Record<string, never> & { turned: Record<string, unknown>[]; mates: Record<string, unknown>[] };
  }) => void,
): string => {
  const file = JSON.parse(fixture(path)) as Parameters<typeof change>[0];
  change(file);
  return JSON.stringify(file);
};

describe('part files of every version', () => {
  test('there is one of each, and the steps run from 1 to the newest without a gap', () => {
    const versions = readdirSync(FOLDER).sort();
    expect(versions).toEqual(Array.from({ length: PART_VERSION }, (_, index) => `v${index + 1}`));
    expect(PART_STEPS.map(({ from }) => from)).toEqual(Array.from({ length: PART_VERSION - 1 }, (_, index) => index + 1));
  });

  // These files are never edited: a later build must open them as they are.
  test.each(readdirSync(FOLDER).flatMap((version) => readdirSync(new URL(version, FOLDER)).map((name) => `${version}/${name}`)))(
    '%s opens, is written as the newest, opens again alike, and gives a route without a warning',
    (path) => {
      const file = opened(fixture(path));
      expect(file.version).toBe(PART_VERSION);
      expect(opened(JSON.stringify(z.encode(partFileSchema, file)))).toEqual(file);
      const route = routeFor(file.part, file.machines, 'high-speed-steel');
      if (!route.ok) throw new Error(JSON.stringify(route.error));
      expect(checkRoute(file.part, file.machines, route.value)).toEqual([]);
    },
  );

  test('what version 1 did not have is absent, not invented', () => {
    const { part, machines } = opened(fixture('v1/idler-axle.part.json'));
    expect(part.edges).toEqual([]);
    expect(part.mates.flatMap(({ readings }) => readings)).toEqual([]);
    expect(part.stock.condition).toBeNull();
    expect(machines.map(({ chucks, tools, spindleBore, powerKw }) => [chucks, tools, spindleBore, powerKw])).toEqual([
      [[], [], null, null],
      [[], [], null, null],
    ]);
  });

  test.each([
    [
      'a newer one',
      (file: { version: number }) => void (file.version = PART_VERSION + 1),
      `written by a newer version (${PART_VERSION + 1}); this one reads up to ${PART_VERSION}`,
    ],
    ['version zero', (file: { version: number }) => void (file.version = 0), 'version'],
    ['half a version', (file: { version: number }) => void (file.version = 1.5), 'version'],
  ])('%s is refused', (_, change, says) => {
    const read = readPartFile(changed('v2/everything.part.json', change));
    expect(read.ok ? '' : describeFileProblem(read.error)).toContain(says);
  });
});

describe('a diameter that is left out beside its fit', () => {
  const { part } = opened(fixture('v2/everything.part.json'));
  const seat = (id: string): { readonly low: number; readonly high: number } | null => {
    const feature = part.turned.find((candidate) => candidate.id === id);
    return feature !== undefined && 'diameter' in feature ? feature.diameter : null;
  };

  test('by hand it follows from the smallest reading, less the clearance and what the instrument may be off', () => {
    const hub = part.mates.find(({ id }) => id === 'hub');
    if (hub === undefined) throw new Error('the hub is gone');
    const smallest = micrometres(30_012);
    const { least, most } = handClearances('slide', smallest);
    const off = uncertaintyOf(hub, INSTRUMENTS);
    expect(off).toBe(2540);
    expect(seat('hub-seat')).toEqual({ low: plus(minus(smallest, most), off), high: minus(minus(smallest, least), off) });
  });

  test('by its class it follows from the nominal size: 25 k6 is 25.002 to 25.015 (docs/sources.md, ISO 286-1)', () => {
    expect(seat('bearing-seat')).toEqual({ low: micrometres(25_002), high: micrometres(25_015) });
    expect(seat('bearing-seat')).toEqual((isoLimits(micrometres(25_000), 'k6') as { readonly value: unknown }).value);
  });

  test('a bore that is known too badly is named with what would help', () => {
    const read = readPartFile(
      changed('v2/everything.part.json', ({ part: { mates } }) => {
        const [hub] = mates;
        if (hub !== undefined) hub['readings'] = [{ value: '30.01mm', instrument: 'rule' }];
      }),
    );
    expect(read.ok ? '' : describeFileProblem(read.error)).toMatch(
      /^feature "Hub seat", part\.turned\[2\]\.fit: the hub is known to .* measure it with a better instrument$/,
    );
  });

  test('a class that is none, and a mate that is not there, are named', () => {
    const complaint = (change: Parameters<typeof changed>[1]): string => {
      const read = readPartFile(changed('v2/everything.part.json', change));
      return read.ok ? '' : describeFileProblem(read.error);
    };
    expect(complaint(({ part: { turned } }) => void ((turned[2] ?? {})['fit'] = 'q6'))).toContain(
      'feature "Hub seat", part.turned[2].fit: no fit is called "q6" at 30.00 mm',
    );
    expect(complaint(({ part: { turned } }) => void ((turned[2] ?? {})['mate'] = 'nobody'))).toContain('feature "Hub seat"');
    expect(fitLimits('q6', part.mates[0] as never, INSTRUMENTS).ok).toBe(false);
  });
});

describe('what is missing because something else is wrong', () => {
  test.each([
    // Every length that follows from the chain is missing then, the first of them on another feature.
    [
      'length',
      { low: 40, high: 41 },
      'feature "Hub seat", part.turned[2].length.low: Invalid input: expected string, received number',
    ],
    ['mate', 'nobody', 'feature "Hub seat", part.turned[2].mate: no mate is called "nobody"'],
    ['name', undefined, 'feature "hub-seat", part.turned[2].name: is missing'],
  ])('a wrong %s is named itself', (field, value, says) => {
    const read = readPartFile(
      changed('v3/everything.part.json', ({ part }) => {
        part.turned[2] = { ...part.turned[2], [field]: value };
      }),
    );
    expect(read.ok ? '' : describeFileProblem(read.error)).toBe(says);
  });
});
