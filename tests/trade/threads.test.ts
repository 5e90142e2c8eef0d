import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  asDiameter,
  degrees,
  inches,
  millimetres,
  nanometres,
  scaled,
  toInches,
  toMillimetres,
  type Length,
} from '../../src/measure/index.ts';
import {
  blindHoleDepth,
  drillCalled,
  DRILLS,
  externalDepth,
  fullThreadRoot,
  infeeds,
  internalMinor,
  nearestDrill,
  parseThread,
  pitchDiameter,
  pointLength,
  sharpHeight,
  tapHole,
  threadPercent,
  turnsFor,
  type Thread,
} from '../../src/trade/index.ts';
import { cases, printed, size, value } from './fixture.ts';

const thread = (text: string): Thread => value(parseThread(text));

describe('threads', () => {
  type Row = {
    thread: string;
    unit: 'inch' | 'millimetre';
    pitchDiameter: number;
    minor: number;
    drill: string;
    drillSize: number;
    percent: number;
  };
  test.each(cases<Row>('threads'))('$thread: pitch diameter $pitchDiameter, minor $minor, drill $drill', (row) => {
    const read = thread(row.thread);
    const [as, places] = row.unit === 'inch' ? [toInches, 4] : [toMillimetres, 3];
    expect(printed(as(pitchDiameter(read)), places)).toBe(row.pitchDiameter);
    expect(printed(as(internalMinor(read)), places)).toBe(row.minor);
    const drill = drillCalled(row.drill);
    if (drill === null) throw new Error(`no drill is called ${row.drill}`);
    // Charts print four places: 27/64 = .421875 stands as .4219, and 17/32 = .53125 as .5312 (half to even).
    expect(Math.abs(as(drill.diameter) - row.drillSize)).toBeLessThanOrEqual(0.00005 + 1e-12);
    expect(printed(threadPercent(read, drill.diameter), 1)).toBe(row.percent);
    expect(drill.diameter).toBeGreaterThan(internalMinor(read) - millimetres(0.01));
  });

  type Percent = {
    thread: string;
    drill?: number;
    percent?: number;
    within?: number;
    root?: number;
    depthInDiameters?: number;
    turns?: number;
  };
  test.each(cases<Percent>('thread-percents'))(
    '$thread: $percent % $root $turns',
    ({ thread: text, drill, percent, within, root, depthInDiameters, turns }) => {
      const read = thread(text);
      if (drill !== undefined)
        expect(Math.abs(threadPercent(read, inches(drill)) - (percent ?? 0))).toBeLessThanOrEqual(within ?? 0);
      if (root !== undefined) expect(Math.abs(toInches(fullThreadRoot(read)) - root)).toBeLessThanOrEqual(0.0001);
      if (depthInDiameters !== undefined) {
        const found = turnsFor(read, scaled(read.major, depthInDiameters, 'half-even'));
        expect(printed(found, String(turns).split('.')[1]?.length ?? 0)).toBe(turns);
      }
    },
  );

  test.each([
    ['1/4-20', inches(0.25), 20],
    ['1/4-20 UNC', inches(0.25), 20],
    ['10-32', inches(0.19), 32],
    ['#10-32', inches(0.19), 32],
    ['0-80', inches(0.06), 80],
    ['1-8', inches(1), 8],
    ['1 1/4-7', inches(1.25), 7],
    ['1-1/4-7', inches(1.25), 7],
    ['1-72', inches(0.073), 72],
    ['2-4.5', null, 0],
    ['5/0-18', null, 0],
    ['1/4-0', null, 0],
    ['', null, 0],
    ['M', null, 0],
    ['quarter twenty', null, 0],
    ['13-32', null, 0],
  ])('"%s" is read', (text, major, perInch) => {
    const read = parseThread(text);
    expect(read.ok ? read.value.major : null).toBe(major);
    if (read.ok) expect(Math.round(inches(1) / read.value.pitch)).toBe(perInch);
  });

  test.each([
    ['M8', millimetres(8), millimetres(1.25)],
    ['m8x1', millimetres(8), millimetres(1)],
    ['M20 x 1.5', millimetres(20), millimetres(1.5)],
    ['M2.5', millimetres(2.5), millimetres(0.45)],
  ])('"%s" is read', (text, major, pitch) => {
    expect(thread(text)).toMatchObject({ major, pitch, form: 'metric' });
  });

  test('a metric size of no known coarse pitch is refused by name', () => {
    expect(parseThread('M7.3')).toEqual({ ok: false, error: { key: 'pitch-not-known', text: 'M7.3' } });
  });

  test('infeeds take equal areas and end at full depth (seed 4211)', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 100_000, max: 3_000_000 }).map(nanometres),
        fc.integer({ min: 1, max: 20 }),
        fc.integer({ min: 0, max: 3 }),
        (depth, passes, spring) => {
          const depths = infeeds(depth, passes, spring);
          expect(depths.length).toBe(passes + spring);
          expect(depths[passes - 1]).toBe(depth);
          for (const [index, at] of depths.slice(0, passes).entries())
            expect(Math.abs(at ** 2 - (depth ** 2 * (index + 1)) / passes) / depth ** 2).toBeLessThan(1e-4);
        },
      ),
      { seed: 4211 },
    );
  });

  test('the hole for a percentage leaves that percentage; more thread is a smaller hole (seed 4212)', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('1/4-20', 'M8', 'M20x1.5', '1-8', '10-32'),
        fc.double({ min: 30, max: 100, noNaN: true }),
        (text, percent) => {
          const read = thread(text);
          expect(threadPercent(read, tapHole(read, percent))).toBeCloseTo(percent, 3);
          expect(tapHole(read, percent)).toBeGreaterThan(tapHole(read, percent + 1));
        },
      ),
      { seed: 4212 },
    );
  });

  test('depths: external thread .6134 P, sharp height .8660 P, a blind hole leaves room for the lead', () => {
    const m20 = thread('M20x1.5');
    expect(printed(toMillimetres(externalDepth(m20)), 2)).toBe(0.92);
    expect(printed(toMillimetres(sharpHeight(m20)), 3)).toBe(1.299);
    expect(blindHoleDepth(thread('M8'), millimetres(16), 'plug')).toBe(millimetres(22.25));
  });
});

describe('drills', () => {
  test.each(cases<{ name: string; inch: number }>('drills'))('$name is $inch in', ({ name, inch }) => {
    expect(drillCalled(name)?.diameter).toBe(inches(inch));
  });

  test.each(cases<{ size: string; angle: number; inch: number; places: number }>('drill-points'))(
    'a point of $angle° on $size is $inch in long',
    (row) => {
      const length = toInches(pointLength(asDiameter(size(row.size)), degrees(row.angle, 'half-even')));
      expect(printed(length, row.places)).toBe(row.inch);
    },
  );

  test('each series gets larger or smaller all along, and no name stands twice', () => {
    for (const series of ['number', 'letter', 'fraction', 'metric'] as const) {
      const sizes = DRILLS.filter((drill) => drill.series === series).map((drill) => drill.diameter);
      const sign = Math.sign((sizes[1] ?? 0) - (sizes[0] ?? 0));
      for (let index = 1; index < sizes.length; index += 1)
        expect(Math.sign((sizes[index] ?? 0) - (sizes[index - 1] ?? 0))).toBe(sign);
    }
    expect(new Set(DRILLS.map((drill) => drill.name)).size).toBe(DRILLS.length);
  });

  test('the nearest drill is the nearest of all (seed 4213)', () => {
    fc.assert(
      fc.property(fc.integer({ min: 500_000, max: 30_000_000 }).map(nanometres), (hole) => {
        const found = nearestDrill(hole, ['number', 'letter', 'fraction']);
        const off = (at: Length): number => Math.abs(at - hole);
        for (const drill of DRILLS)
          if (drill.series !== 'metric') expect(off(drill.diameter)).toBeGreaterThanOrEqual(off(found?.diameter ?? hole));
        expect(nearestDrill(hole, [])).toBeNull();
      }),
      { seed: 4213 },
    );
  });
});
