import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  asDiameter,
  celsius,
  inches,
  micrometres,
  millimetres,
  nanometres,
  thou,
  toDegrees,
  toInches,
  toMillimetres,
  zero,
} from '../../src/measure/index.ts';
import {
  acceptance,
  advanceFor,
  combined,
  compoundAngle,
  compoundAngleByFoot,
  effectiveFreedom,
  expansionOf,
  fromExpanded,
  fromLimits,
  fromResolution,
  MORSE_TAPER_PER_FOOT,
  proofOf,
  setOver,
  setOverByFoot,
  sizeAtReference,
  sizeFromWarmReading,
  studentT95,
  taperPerFoot,
  typeA,
  type Proof,
} from '../../src/trade/index.ts';
import { cases, printed, size } from './fixture.ts';

describe('tapers', () => {
  type Row = {
    perFoot?: number;
    work?: string;
    setOver?: string;
    large?: string;
    small?: string;
    over?: string;
    degrees?: number;
    morse?: number;
    perFootIs?: number;
  };
  test.each(cases<Row>('tapers'))('$perFoot $large $small: $setOver $degrees $morse', (row) => {
    const { large, small, over } = row;
    if (large !== undefined && small !== undefined && over !== undefined) {
      const taper = { large: asDiameter(size(large)), small: asDiameter(size(small)), over: size(over) };
      expect(setOver(taper, size(row.work ?? ''), 'half-even')).toBe(size(row.setOver ?? ''));
      if (row.degrees !== undefined) expect(printed(toDegrees(compoundAngle(taper)), 5)).toBe(row.degrees);
    } else if (row.morse !== undefined) expect(MORSE_TAPER_PER_FOOT[row.morse]).toBe(row.perFootIs);
    else if (row.setOver !== undefined)
      expect(setOverByFoot(row.perFoot ?? 0, size(row.work ?? ''), 'half-even')).toBe(size(row.setOver));
    // The angle is a whole number of thousandths of a second, 2.8e-7°, finer than the fifth place.
    else expect(Math.abs(toDegrees(compoundAngleByFoot(row.perFoot ?? 0)) - (row.degrees ?? 0))).toBeLessThanOrEqual(0.5e-5);
  });

  test('taper per foot and advance: 1 in 4 is 3 in a foot, and a thou on the diameter is 4 thou in', () => {
    const taper = { large: asDiameter(inches(1)), small: asDiameter(inches(0.75)), over: inches(1) };
    expect(taperPerFoot(taper)).toBe(3);
    expect(advanceFor(taper, thou(1), 'half-even')).toBe(thou(4));
  });
});

describe('temperature', () => {
  type Row = {
    perK: number;
    size?: string;
    kelvin?: number;
    um?: number;
    inch?: number;
    reads?: string;
    at?: number;
    instrumentPerK?: number;
    instrumentAt?: number;
    is20?: string;
    places?: number;
  };
  test.each(cases<Row>('thermal'))('$size $reads $kelvin K $at °C', (row) => {
    const body = { perK: row.perK, source: row.source };
    if (row.size !== undefined) {
      const grown = expansionOf(size(row.size), body, row.kelvin ?? 0, 'half-even');
      if (row.um !== undefined) expect(grown).toBe(micrometres(row.um));
      else expect(printed(toInches(grown), 5)).toBe(row.inch);
      return;
    }
    const at = celsius(row.at ?? 0, 'half-even');
    const found =
      row.instrumentPerK === undefined
        ? sizeAtReference(size(row.reads ?? ''), body, at, 'half-even')
        : sizeFromWarmReading(
            size(row.reads ?? ''),
            body,
            at,
            { perK: row.instrumentPerK, source: '' },
            celsius(row.instrumentAt ?? 0, 'half-even'),
            'half-even',
          );
    expect(printed(toMillimetres(found), row.places ?? 5)).toBe(toMillimetres(size(row.is20 ?? '')));
  });

  test('steel read by steel at one temperature needs nothing, at any temperature (seed 4231)', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 500_000_000 }).map(nanometres),
        fc.integer({ min: -20, max: 90 }),
        (length, degreesC) => {
          const [steel, at] = [{ perK: 11.5, source: '' }, celsius(degreesC, 'half-even')];
          expect(sizeFromWarmReading(length, steel, at, steel, at, 'half-even')).toBe(length);
          expect(sizeAtReference(length, steel, celsius(20, 'half-even'), 'half-even')).toBe(length);
        },
      ),
      { seed: 4231 },
    );
  });
});

describe('uncertainty', () => {
  type Row = {
    readings?: number[];
    mean?: number;
    s?: number;
    u?: number;
    t?: number;
    halfWidth?: number;
    resolution?: number;
    limits?: number;
    expanded?: number;
    uc?: number;
    U?: number;
    places?: number;
  };
  test.each(cases<Row>('budgets'))('$readings $resolution $limits $expanded', (row) => {
    const a = row.readings === undefined ? null : typeA(row.readings.map(millimetres));
    if (row.s !== undefined) {
      if (a === null) throw new Error('five readings have a type A evaluation');
      expect([
        printed(a.mean / 1e6, 6),
        printed(a.deviation / 1e6, 7),
        printed(a.ofMean / 1e6, 7),
        studentT95(a.freedom),
      ]).toEqual([row.mean, row.s, row.u, row.t]);
      expect(printed((studentT95(a.freedom) * a.ofMean) / 1e6, 6)).toBe(row.halfWidth);
      return;
    }
    const parts = [fromResolution(row.resolution ?? 0), fromLimits(row.limits ?? 0)];
    if (a !== null) parts.push(a.ofMean / 1e6);
    if (row.expanded !== undefined) parts.push(fromExpanded(row.expanded, 2));
    expect(printed(combined(parts), row.places ?? 7)).toBe(row.uc);
    expect(printed(2 * combined(parts), String(row.U).split('.')[1]?.length === 3 ? 4 : 5)).toBe(row.U);
  });

  test.each(cases<{ parts: [number, number][]; uc: number; nu: number; t99: number; U99: number }>('gum-h1'))(
    'GUM H.1: u_c $uc nm, ν_eff $nu',
    ({ parts, uc, nu, t99, U99 }) => {
      const whole = combined(parts.map(([uncertainty]) => uncertainty));
      expect(printed(whole, 0)).toBe(uc);
      expect(Math.floor(effectiveFreedom(parts.map(([uncertainty, freedom]) => ({ uncertainty, freedom }))))).toBe(nu);
      // The GUM multiplies the rounded u_c of 32 nm, so 93 where 31.7 would give 92.6: both round to 93.
      expect(printed(whole * t99, 0)).toBe(U99);
    },
  );

  test.each(cases<{ freedom: number; t: number }>('t-values'))('t95 for $freedom is $t', ({ freedom, t }) => {
    expect(studentT95(freedom)).toBe(t);
    expect(studentT95(freedom + 0.9)).toBe(t);
  });

  test('parts known exactly add no freedom; one reading has no spread', () => {
    expect(effectiveFreedom([{ uncertainty: 1, freedom: Number.POSITIVE_INFINITY }])).toBe(Number.POSITIVE_INFINITY);
    expect(typeA([millimetres(1)])).toBeNull();
    expect(() => studentT95(0.5)).toThrow(/degrees of freedom/);
    expect(studentT95(400)).toBe(1.96);
  });

  type Decision = { low: string; high: string; u: string; reads: string; proof: Proof };
  test.each(cases<Decision>('decisions'))('$reads against $low to $high, U $u: $proof', ({ low, high, u, reads, proof }) => {
    expect(proofOf(size(reads), { low: size(low), high: size(high) }, size(u))).toBe(proof);
  });

  test('the acceptance limits are those that conform, and too wide an uncertainty leaves none (seed 4232)', () => {
    const small = fc.integer({ min: 0, max: 30_000 }).map(nanometres);
    fc.assert(
      fc.property(small, small, fc.integer({ min: -60_000, max: 90_000 }).map(nanometres), (width, u, reading) => {
        const limits = { low: zero, high: width };
        const inside = acceptance(limits, u);
        if (inside.ok)
          expect(proofOf(reading, limits, u) === 'conforms').toBe(reading >= inside.value.low && reading <= inside.value.high);
        else {
          expect(inside.error).toEqual({ key: 'uncertainty-too-wide', tolerance: width, uncertainty: u });
          expect(proofOf(reading, limits, u)).not.toBe('conforms');
        }
      }),
      { seed: 4232 },
    );
  });
});
