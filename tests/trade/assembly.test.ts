import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  asDiameter,
  celsius,
  degrees,
  inches,
  micrometres,
  millimetres,
  nanometres,
  thou,
  toDegrees,
  toInches,
  toMillimetres,
  zero,
  type Length,
} from '../../src/measure/index.ts';
import {
  assemblyOf,
  boltChord,
  boltCircle,
  centreBetween,
  circleThrough,
  contactPressureMPa,
  eccentricityOf,
  edgeAt,
  FILING_ALLOWANCE,
  hubStressMPa,
  hubTemperature,
  lengthForPlay,
  leverTrue,
  perRound,
  pressForceN,
  radiusFromChord,
  roundsLeft,
  STEEL,
  worstCase,
  type Link,
  type PressedPair,
} from '../../src/trade/index.ts';
import { cases, printed, size, value } from './fixture.ts';

describe('geometry', () => {
  type Row = {
    angles: number[];
    y: number[];
    c: number;
    e: number;
    phi: number;
    residual?: number;
    places: number;
    phiPlaces: number;
  };
  test.each(cases<Row>('runout'))('offset $e at $phi°', ({ angles, y, c, e, phi, residual, places, phiPlaces }) => {
    // The source's numbers have no unit; read as metres of the test they keep nine places.
    const unit = 1e9;
    const found = eccentricityOf(
      angles.map((angle, index) => ({
        at: degrees(angle, 'half-even'),
        value: nanometres(Math.round((y[index] ?? 0) * unit)),
      })),
    );
    if (found === null) throw new Error('the readings determine an offset');
    expect(printed(found.offset / unit, places)).toBe(e);
    expect(printed(toDegrees(found.highSpot), phiPlaces)).toBe(phi);
    expect(printed(found.mean / unit, 5)).toBe(c);
    if (residual !== undefined) expect(printed(found.residual / unit, 4)).toBe(residual);
  });

  test('an offset that was put in is found again, wherever the readings lie (seed 4233)', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.integer({ min: 0, max: 71 }), { minLength: 3, maxLength: 24 }),
        fc.integer({ min: 10_000, max: 5_000_000 }),
        fc.integer({ min: 0, max: 359 }),
        fc.integer({ min: -9_000_000, max: 9_000_000 }),
        (fives, offset, phi, mean) => {
          const sorted = [...fives].sort((a, b) => a - b);
          const gap = Math.max(
            ...sorted.map((at, index) => (index === 0 ? at + 72 - (sorted.at(-1) ?? 0) : at - (sorted[index - 1] ?? 0))),
          );
          fc.pre(gap <= 48);
          const found = eccentricityOf(
            sorted.map((five) => ({
              at: degrees(five * 5, 'half-even'),
              value: nanometres(Math.round(mean + offset * Math.cos(((five * 5 - phi) * Math.PI) / 180))),
            })),
          );
          expect(Math.abs((found?.offset ?? 0) - offset)).toBeLessThanOrEqual(20);
          const off = Math.abs(toDegrees(found?.highSpot ?? degrees(0, 'half-even')) - phi);
          expect(Math.min(off, 360 - off)).toBeLessThan(0.2);
        },
      ),
      { seed: 4233 },
    );
  });

  test('two readings, or three at one angle, tell no offset', () => {
    const at = (angle: number): { at: ReturnType<typeof degrees>; value: Length } => ({
      at: degrees(angle, 'half-even'),
      value: thou(angle),
    });
    expect(eccentricityOf([at(0), at(90)])).toBeNull();
    expect(eccentricityOf([at(10), at(10), at(10)])).toBeNull();
  });

  type Circles = {
    points?: [number, number][];
    centre?: [number, number];
    radius?: number;
    chord?: number;
    rise?: number;
    bolt?: number;
    holes?: number;
    first?: number;
    at?: [number, number][];
    chordOut?: number;
  };
  test.each(cases<Circles>('circles'))('$points $chord $bolt $holes', (row) => {
    if (row.points !== undefined) {
      const found = circleThrough(row.points.map(([x, y]) => ({ x: millimetres(x), y: millimetres(y) })));
      expect(found).toEqual({
        centre: { x: millimetres(row.centre?.[0] ?? 0), y: millimetres(row.centre?.[1] ?? 0) },
        radius: millimetres(row.radius ?? 0),
      });
    } else if (row.chord !== undefined)
      expect(radiusFromChord(millimetres(row.chord), millimetres(row.rise ?? 0))).toBe(millimetres(row.radius ?? 0));
    else {
      const diameter = asDiameter(millimetres(row.bolt ?? 0));
      const holes = boltCircle(diameter, row.holes ?? 0, degrees(row.first ?? 0, 'half-even'), { x: zero, y: zero });
      for (const [index, [x, y]] of (row.at ?? []).entries()) {
        const hole = holes[index];
        // The place is rounded to the nanometre before it is compared, so half of one is allowed beside half of the last digit.
        expect(Math.abs(toMillimetres(hole?.x ?? zero) - x)).toBeLessThanOrEqual(0.5e-5 + 0.5e-6);
        expect(Math.abs(toMillimetres(hole?.y ?? zero) - y)).toBeLessThanOrEqual(0.5e-5 + 0.5e-6);
      }
      if (row.chordOut !== undefined) expect(printed(toMillimetres(boltChord(diameter, row.holes ?? 0)), 5)).toBe(row.chordOut);
    }
  });

  test('points on a line or in one place have no circle', () => {
    const point = (x: number, y: number): { x: Length; y: Length } => ({ x: millimetres(x), y: millimetres(y) });
    expect(circleThrough([point(0, 0), point(1, 1), point(2, 2)])).toBeNull();
    expect(circleThrough([point(1, 1), point(1, 1), point(1, 1)])).toBeNull();
    expect(circleThrough([point(0, 0), point(1, 1)])).toBeNull();
  });

  type Edge = {
    reading?: string;
    angle?: number;
    true?: number;
    places?: number;
    tip?: string;
    spindle?: string;
    edge?: string;
  };
  test.each(cases<Edge>('edges-and-levers'))('$reading at $angle°, $tip', (row) => {
    if (row.reading === undefined)
      expect(edgeAt(size(row.spindle ?? ''), asDiameter(size(row.tip ?? '')), 1, 'half-even')).toBe(size(row.edge ?? ''));
    else {
      // .2·cos 10°, 20°, 30° are .19696, .18794, .17321; the catalogue uses .98, .94, .87 for the cosines.
      const found = toInches(leverTrue(size(row.reading), degrees(row.angle ?? 0, 'half-even')));
      expect(Math.abs(found - (row.true ?? 0))).toBeLessThanOrEqual(0.2 * 0.005);
    }
  });

  test('the tip of an edge finder cancels between two edges (seed 4234)', () => {
    const place = fc.integer({ min: -200_000_000, max: 200_000_000 }).map((half) => nanometres(half * 2));
    fc.assert(
      fc.property(
        place,
        place,
        fc.integer({ min: 1, max: 10_000_000 }).map((half) => asDiameter(nanometres(half * 2))),
        (one, other, tip) => {
          expect(centreBetween(edgeAt(one, tip, 1, 'half-even'), edgeAt(other, tip, -1, 'half-even'), 'half-even')).toBe(
            centreBetween(one, other, 'half-even'),
          );
        },
      ),
      { seed: 4234 },
    );
  });
});

describe('stack-up', () => {
  const link = (low: number, high: number, direction: Link['direction']): Link => ({
    limits: { low: thou(low), high: thou(high) },
    direction,
  });

  test('a journal for a hub of 1.600 to 1.602 and a washer of .062 to .063 with 4 to 8 thou of play', () => {
    const others = [link(1600, 1602, 'fills-room'), link(62, 63, 'fills-room')];
    expect(value(lengthForPlay(others, { least: thou(4), most: thou(8) }))).toEqual({ low: thou(1669), high: thou(1670) });
    expect(lengthForPlay(others, { least: thou(4), most: thou(6) })).toEqual({
      ok: false,
      error: { key: 'chain-too-wide', varies: thou(3), allowed: thou(2) },
    });
  });

  test('whatever the links are within their limits, the gap is between the worst cases (seed 4235)', () => {
    const width = fc.integer({ min: 0, max: 50 });
    const links = fc.array(
      fc.record({ low: fc.integer({ min: 1, max: 3000 }), width, share: fc.integer({ min: 0, max: 50 }), makes: fc.boolean() }),
      { minLength: 1, maxLength: 8 },
    );
    fc.assert(
      fc.property(links, (drawn) => {
        const chain = drawn.map(({ low, width: wide, makes }) => link(low, low + wide, makes ? 'makes-room' : 'fills-room'));
        const gap = drawn.reduce(
          (sum, { low, width: wide, share, makes }) => sum + (makes ? 1 : -1) * thou(low + Math.min(wide, share)),
          0,
        );
        const { least, most } = worstCase(chain);
        expect(gap).toBeGreaterThanOrEqual(least);
        expect(gap).toBeLessThanOrEqual(most);
      }),
      { seed: 4235 },
    );
  });
});

describe('press and shrink fits', () => {
  const pair: PressedPair = {
    diameter: asDiameter(millimetres(50)),
    hubOuter: asDiameter(millimetres(100)),
    shaftBore: zero,
    length: millimetres(60),
    interference: micrometres(40),
    hub: STEEL,
    shaft: STEEL,
  };

  test('one material and a solid shaft: p = E·δ/(2d)·(1 − d²/D²), the textbook form', () => {
    // 200 000·0.040/(2·50)·(1 − 50²/100²) = 60 N/mm², by hand.
    expect(contactPressureMPa(pair)).toBeCloseTo(60, 9);
    expect(hubStressMPa(pair)).toBeCloseTo(100, 9);
    // 0.12·60·π·50·60 = 67.858 kN, by hand.
    expect(pressForceN(pair, 0.12)).toBeCloseTo(67_858.4, 1);
  });

  test('the hub is heated so far that it goes over with room: (0.040 + 0.020)/(11.5e-6·50) = 104.35 K', () => {
    expect(hubTemperature(pair, micrometres(20), celsius(20, 'half-even'))).toBe(celsius(124.348, 'half-even'));
  });

  test('to put it together: by force over the range of friction, or by heat, and with the caution', () => {
    const assembly = assemblyOf(pair, micrometres(20), celsius(20, 'half-even'));
    // 0.05 and 0.15 times 60·π·50·60 N, by hand.
    expect(assembly.forceN.least).toBeCloseTo(28_274.3, 1);
    expect(assembly.forceN.most).toBeCloseTo(84_823, 1);
    expect(assembly.hubAt).toBe(celsius(124.348, 'half-even'));
    expect(assembly.hubStressMPa).toBeCloseTo(100, 9);
    expect(assembly.caution).toMatch(/tongs|gloves/);
  });

  test('a hollow shaft gives way more (seed 4236)', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 45 }), (bore) => {
        expect(contactPressureMPa({ ...pair, shaftBore: millimetres(bore) })).toBeLessThan(contactPressureMPa(pair));
      }),
      { seed: 4236 },
    );
  });

  test('a hub no larger than its shaft is a bug of the caller', () => {
    expect(() => contactPressureMPa({ ...pair, hubOuter: asDiameter(millimetres(50)) })).toThrow(/the hub is larger/);
  });
});

describe('filing', () => {
  test('two to three thou is left, and the rounds left follow from what a round took', () => {
    expect([FILING_ALLOWANCE.least, FILING_ALLOWANCE.most]).toEqual([thou(2), thou(3)]);
    const took = perRound(inches(1.001), inches(1.0001), 3);
    expect(took).toBe(thou(0.3));
    expect(roundsLeft(thou(1.5), took)).toBe(5);
  });
});
