import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  asDiameter,
  degrees,
  inches,
  millimetres,
  minus,
  plus,
  thou,
  toDegrees,
  toInches,
  toMillimetres,
  zero,
} from '../../src/measure/index.ts';
import { parseThread } from '../../src/trade/index.ts';
import {
  acrossEdges,
  checkTaper,
  dialStop,
  holesOf,
  inFromEnd,
  packingAgain,
  packingFor,
  pitchOf,
  sineRise,
  tapAfter,
  taperSetting,
  tapPlan,
  throwFor,
  toParallel,
} from '../../src/setups/index.ts';
import { cases, printed, size, value } from '../trade/fixture.ts';

const across = (inch: number) => asDiameter(inches(inch));

describe('packing piece in a three-jaw', () => {
  type Packing = {
    bar?: number;
    offset?: number;
    packing?: number;
    packingGiven?: number;
    offsetOut?: number;
    places: number;
    unit: string;
  };
  const rows = cases<Packing>('eccentric').filter((row) => row.bar !== undefined);
  test.each(rows)('$bar $unit, from $source', (row) => {
    const of = (amount: number) => (row.unit === 'in' ? inches(amount) : millimetres(amount));
    const out = (length: ReturnType<typeof inches>) => (row.unit === 'in' ? toInches(length) : toMillimetres(length));
    const bar = asDiameter(of(row.bar ?? 0));
    if (row.offset !== undefined && row.packing !== undefined)
      expect(printed(out(packingFor(bar, of(row.offset), 'point')), row.places)).toBe(row.packing);
    if (row.packingGiven !== undefined && row.offsetOut !== undefined)
      expect(printed(out(throwFor(bar, of(row.packingGiven))), row.places)).toBe(row.offsetOut);
  });

  test('flat jaws take one and a half times the throw (Machine Shop Essentials, by trade.md section 5)', () => {
    expect(packingFor(across(2), inches(0.25), 'flat')).toBe(inches(0.375));
  });

  test('a piece that gave too little is made thicker by what is missing, and one that was right stays (seed 71)', () => {
    expect(packingAgain(across(1.5), inches(0.18), inches(0.125), inches(0.25))).toBe(inches(0.18));
    fc.assert(
      fc.property(fc.integer({ min: 50, max: 200 }), fc.integer({ min: -20, max: 20 }), (offset, short) => {
        const bar = across(1.5);
        const wanted = thou(offset);
        const packed = packingFor(bar, thou(offset - short), 'point');
        // The jaws do as the formula says, so the first piece gives exactly its throw.
        const again = packingAgain(bar, packed, wanted, thou(2 * (offset - short)));
        expect(Math.abs(again - packingFor(bar, wanted, 'point'))).toBeLessThanOrEqual(2);
      }),
      { seed: 71 },
    );
  });
});

describe('edges', () => {
  test('the middle is between the touches, and the finder comes off the width (edge finder .200: .100 each side)', () => {
    expect(acrossEdges(zero, inches(1.45), across(0.2), 'outside')).toEqual({ centre: inches(0.725), width: inches(1.25) });
    expect(acrossEdges(zero, inches(0.55), across(0.2), 'inside').width).toBe(inches(0.75));
  });
  test('the first touch and the other may change places (seed 72)', () => {
    fc.assert(
      fc.property(fc.integer({ min: -40_000, max: 40_000 }), fc.integer({ min: -40_000, max: 40_000 }), (one, other) => {
        const [a, b] = [thou(one), thou(other)];
        expect(acrossEdges(a, b, across(0.2), 'outside')).toEqual(acrossEdges(b, a, across(0.2), 'outside'));
      }),
      { seed: 72 },
    );
  });
  test('in from an end: half the tip, then the distance (.100 and .156)', () => {
    expect(inFromEnd(across(0.2), inches(0.156))).toBe(inches(0.256));
  });
});

describe('holes', () => {
  type Bolt = { bolt?: number; holes: number; first: number; at?: [number, number][]; chordOut?: number };
  const rows = cases<Bolt>('circles').filter((row) => row.bolt !== undefined);
  test.each(rows)('$holes holes on $bolt from $first degrees, from $source', (row) => {
    const pattern = { shape: 'circle', size: millimetres(row.bolt ?? 0), holes: row.holes, first: row.first } as const;
    const holes = holesOf(pattern);
    expect(holes).toHaveLength(row.holes);
    row.at?.forEach(([x, y], index) => {
      // The table has five places, a hole is a whole number of nanometres.
      expect(Math.abs(toMillimetres(holes[index]?.x ?? zero) - x)).toBeLessThan(1e-5);
      expect(Math.abs(toMillimetres(holes[index]?.y ?? zero) - y)).toBeLessThan(1e-5);
    });
    if (row.chordOut !== undefined) expect(printed(toMillimetres(pitchOf(pattern) ?? zero), 5)).toBe(row.chordOut);
  });
  test('a line: equal steps from the first hole, along its angle (sine and cosine of 30 degrees, .5 and .86603)', () => {
    const line = holesOf({ shape: 'line', size: inches(1), holes: 3, first: 30 });
    expect(line[0]).toEqual({ x: zero, y: zero });
    expect(printed(toInches(line[2]?.x ?? zero), 5)).toBe(1.73205);
    expect(line[2]?.y).toBe(inches(1));
  });
});

describe('the carriage dial', () => {
  const dial = { division: inches(0.01), perTurn: inches(0.8) };
  const rows = [
    ['from nought', 2.614, 0, 3, 0.214],
    ['from where it stands', 2.614, 0.3, 3, 0.514],
    ['over the nought', 0.7, 0.3, 0, 0.2],
    ['a whole turn', 0.8, 0.1, 1, 0.1],
    ['less than a turn', 0.35, 0, 0, 0.35],
  ] as const;
  test.each(rows)('%s (computed by hand)', (_what, distance, from, turns, reads) => {
    expect(dialStop(inches(distance), dial, inches(from))).toEqual({ turns, reads: inches(reads) });
  });
});

describe('tapping', () => {
  const thread = (text: string) => value(parseThread(text));
  // Turns = pitches in the depth; per diameter of depth 1/4-20 takes 5, 1/2-13 6.5, M8 6.4 (computed, trade.md section 10).
  const rows = [
    ['5/16-18', inches(0.75), 54],
    ['1/4-20', inches(0.25), 20],
    ['1/2-13', inches(0.5), 26],
    ['M8', millimetres(8), 25],
  ] as const;
  test.each(rows)('%s: so many quarter turns', (name, depth, quarters) => {
    expect(tapPlan(thread(name), depth, true).quarters).toBe(quarters);
  });
  test('backs off on the way, clears a blind hole every four turns, and stops', () => {
    const plan = tapPlan(thread('5/16-18'), inches(0.75), true);
    expect(tapAfter(plan, 0, 4)).toEqual({ next: 'back-off', quartersLeft: 50 });
    expect(tapAfter(plan, 12, 16)).toEqual({ next: 'clear-chips', quartersLeft: 38 });
    expect(tapAfter({ ...plan, blind: false }, 12, 16).next).toBe('back-off');
    expect(tapAfter(plan, 50, 54)).toEqual({ next: 'at-depth', quartersLeft: 0 });
    expect(tapAfter(plan, 54, 55).next).toBe('too-deep');
  });
});

describe('tapers', () => {
  type Row = { large?: string; small: string; over: string; work: string; setOver: string; degrees?: number };
  const rows = cases<Row>('tapers').filter((row) => row.large !== undefined);
  test.each(rows)('$large to $small over $over, from $source', (row) => {
    const taper = { large: asDiameter(size(row.large ?? '')), small: asDiameter(size(row.small)), over: size(row.over) };
    const set = taperSetting(taper, size(row.work));
    expect(set.tailstock).toBe(size(row.setOver));
    if (row.degrees !== undefined) expect(printed(toDegrees(set.compound), 5)).toBe(row.degrees);
  });

  const taper = { large: across(1), small: across(0.75), over: inches(4) };
  test('two readings that agree change nothing', () => {
    const check = checkTaper(taper, { large: across(0.95), small: across(0.825), apart: inches(2) }, inches(10));
    expect(check).toEqual({ over: zero, compound: degrees(0, 'half-even'), tailstock: zero });
  });
  test('one that is steep goes back, one that is slow goes on, by half the difference over the length (computed)', () => {
    const steep = checkTaper(taper, { large: across(0.95), small: across(0.821), apart: inches(2) }, inches(10));
    expect(steep.over).toBe(thou(4));
    expect(steep.tailstock).toBe(thou(10));
    expect(toDegrees(steep.compound)).toBeCloseTo(0.0572, 3);
    const slow = checkTaper(taper, { large: across(0.95), small: across(0.829), apart: inches(2) }, null);
    expect(slow.over).toBe(thou(-4));
    expect(slow.tailstock).toBeNull();
  });
  test('parallel: two thou over four inches on ten inches of work is two and a half at the tailstock (L(D − d)/2l)', () => {
    expect(toParallel({ large: across(1), small: across(0.998), apart: inches(4) }, inches(10))).toBe(thou(2.5));
  });
  test('the setting that a check asks for passes the check (seed 73)', () => {
    fc.assert(
      fc.property(fc.integer({ min: -50, max: 50 }), (wrong) => {
        const work = inches(10);
        // The tailstock stands this many thou too far over.
        const extra = (2 * thou(wrong) * inches(4)) / work;
        const shown = { large: plus(taper.large, asDiameter(millimetres(extra / 1e6))), small: taper.small, apart: inches(4) };
        const check = checkTaper(taper, shown, work);
        expect(Math.abs(minus(check.tailstock ?? zero, thou(wrong)))).toBeLessThanOrEqual(2);
      }),
      { seed: 73 },
    );
  });
  type Sine = { bar: string; degrees: number; rise: number; places: number };
  test.each(cases<Sine>('sine-bars'))('a sine bar of $bar at $degrees degrees stands on $rise, from $source', (row) => {
    expect(printed(toInches(sineRise(size(row.bar), degrees(row.degrees, 'half-even'))), row.places)).toBe(row.rise);
  });
});
