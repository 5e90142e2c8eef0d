import { describe, expect, test } from 'vitest';
import {
  asDiameter,
  celsius,
  micrometres,
  millimetres,
  minus,
  toInches,
  toMillimetres,
  zero,
  type Length,
} from '../../src/measure/index.ts';
import {
  bearsAt,
  centreHoleFor,
  contactPressureMPa,
  drillCalled,
  ELASTIC,
  externalMajor,
  holeDeviations,
  hubStressMPa,
  MATERIALS,
  MORSE_TAPER_PER_FOOT,
  parseThread,
  pressForceN,
  shaftDeviations,
  shaftTemperature,
  SPECIFIC_FORCES,
  stressAreaMm2,
  stressAreaSquareInches,
  toleranceOf,
  type Material,
  type Thread,
} from '../../src/trade/index.ts';
import { cases, printed, size, value } from './fixture.ts';

/** Sizes at both ends of a range in mm: just over the lower end, and the upper end itself. */
const ends = (over: number, to: number): Length[] => [(millimetres(over) + 1) as Length, millimetres(to)];

describe('ISO 286 against a second copy of its tables, to 500 mm', () => {
  type Row = { readonly over: number; readonly to: number; readonly um: number };
  const rows = cases<Row & { readonly grade?: number; readonly shaft?: string; readonly delta?: number }>('iso-second-copy');

  test.each(rows.filter(({ grade }) => grade !== undefined))(
    'IT$grade over $over to $to is $um µm',
    ({ over, to, grade, um }) => {
      for (const at of ends(over, to)) expect(value(toleranceOf(at, grade ?? 0))).toBe(micrometres(um));
    },
  );

  test.each(rows.filter(({ shaft }) => shaft !== undefined))('$shaft over $over to $to is $um µm', ({ over, to, shaft, um }) => {
    for (const at of ends(over, to)) {
      const { lower, upper } = value(shaftDeviations(at, shaft ?? '', 6));
      expect('defg'.includes(shaft ?? '') ? upper : lower).toBe(micrometres(um));
    }
  });

  // How far the rule for K, M and N to IT8 moves a hole from the mirror of its shaft.
  test.each(rows.filter(({ delta }) => delta !== undefined))(
    'the difference for IT$delta over $over to $to is $um µm',
    ({ over, to, delta, um }) => {
      for (const at of ends(over, to)) {
        const { upper } = value(holeDeviations(at, 'N', delta ?? 0));
        expect(minus(upper, minus(0 as Length, value(shaftDeviations(at, 'n', 6)).lower))).toBe(micrometres(um));
      }
    },
  );
});

describe('drills against two copies of the gauge', () => {
  test.each(cases<{ name: string; inch: number; mm?: number }>('drills-second-copy'))(
    '$name is $inch in',
    ({ name, inch, mm }) => {
      const diameter = drillCalled(name)?.diameter;
      expect(diameter).toBeDefined();
      if (diameter === undefined) return;
      expect(toInches(diameter)).toBe(inch);
      // The copy gives four figures: .001 mm under 10 mm, .01 over.
      if (mm !== undefined) expect(Math.abs(toMillimetres(diameter) - mm)).toBeLessThanOrEqual((mm < 10 ? 0.0005 : 0.005) + 1e-9);
    },
  );
});

describe('threads', () => {
  type Row = { readonly thread: string; readonly pitch?: number; readonly mm2?: number; readonly in2?: number };
  const digits = (text: number): number => (String(text).split('.')[1] ?? '').length;
  test.each(cases<Row>('stress-areas'))('$thread: pitch $pitch mm, $mm2 mm² $in2 in²', ({ thread: name, pitch, mm2, in2 }) => {
    const thread: Thread = value(parseThread(name));
    if (pitch !== undefined) expect(thread.pitch).toBe(millimetres(pitch));
    // ISO 898-1 prints three figures.
    if (mm2 !== undefined && mm2 >= 100 && digits(mm2) === 0) expect(Number(stressAreaMm2(thread).toPrecision(3))).toBe(mm2);
    else if (mm2 !== undefined) expect(printed(stressAreaMm2(thread), digits(mm2))).toBe(mm2);
    if (in2 !== undefined) expect(printed(stressAreaSquareInches(thread), digits(in2))).toBe(in2);
  });
});

describe('external threads', () => {
  type Row = { readonly thread: string; readonly high: number; readonly low: number };
  test.each(cases<Row>('thread-majors'))('$thread, 6g: $low to $high', ({ thread, high, low }) => {
    expect(externalMajor(value(parseThread(thread)))).toEqual({ low: millimetres(low), high: millimetres(high) });
  });
});

describe('press and shrink fits', () => {
  type Row = {
    readonly diameter: string;
    readonly interference: string;
    readonly hubOuter?: string;
    readonly hubGPa?: number;
    readonly shaftGPa?: number;
    readonly poisson?: number;
    readonly psi?: number;
    readonly mPa?: number;
    readonly hubMPa?: number;
    readonly length?: string;
    readonly friction?: number;
    readonly newtons?: number;
    readonly newtonsWithin?: number;
    readonly perK?: number;
    readonly kelvin?: number;
  };
  const PSI_PER_MPA = 1 / 0.006_894_757_293;
  test.each(cases<Row>('press-fits'))('$diameter with $interference: $psi psi $mPa MPa $kelvin K', (row) => {
    const { poisson = 0.3, hubGPa = 200, shaftGPa = 200, perK = 12 } = row;
    const pair = {
      diameter: asDiameter(size(row.diameter)),
      hubOuter: asDiameter(size(row.hubOuter ?? '1000mm')),
      shaftBore: zero,
      length: size(row.length ?? '10mm'),
      interference: size(row.interference),
      hub: { modulusGPa: hubGPa, poisson, expansionPerK: perK },
      shaft: { modulusGPa: shaftGPa, poisson, expansionPerK: perK },
    };
    if (row.psi !== undefined) expect(printed(contactPressureMPa(pair) * PSI_PER_MPA, 0)).toBe(row.psi);
    if (row.mPa !== undefined) expect(printed(contactPressureMPa(pair), 0)).toBe(row.mPa);
    if (row.hubMPa !== undefined) expect(printed(hubStressMPa(pair), 0)).toBe(row.hubMPa);
    // The source prints two figures of the force.
    if (row.newtons !== undefined)
      expect(Math.abs(pressForceN(pair, row.friction ?? 0) - row.newtons)).toBeLessThanOrEqual(row.newtonsWithin ?? 0);
    if (row.kelvin !== undefined) {
      const places = (String(row.kelvin).split('.')[1] ?? '').length;
      expect(printed(20 - shaftTemperature(pair, zero, celsius(20, 'half-even')) / 1000, places)).toBe(row.kelvin);
    }
  });

  type Elastic = {
    readonly material: Material;
    readonly gPa: readonly [number, number];
    readonly poisson: readonly [number, number];
  };
  const elastic = cases<Elastic>('elastic');
  test.each(elastic)('$material is as stiff as published: $gPa GPa, $poisson', ({ material, gPa, poisson }) => {
    const has = ELASTIC[material];
    expect(has.modulusGPa).toBeGreaterThanOrEqual(gPa[0]);
    expect(has.modulusGPa).toBeLessThanOrEqual(gPa[1]);
    expect(has.poisson).toBeGreaterThanOrEqual(poisson[0]);
    expect(has.poisson).toBeLessThanOrEqual(poisson[1]);
  });
  test('every material has its constants', () => {
    expect(elastic.map(({ material }) => material).sort()).toEqual([...MATERIALS].sort());
  });
});

describe('centre holes', () => {
  type Row = { readonly over: number; readonly to: number; readonly pilot: number; readonly mouth: number };
  test.each(cases<Row>('centre-holes'))('work over $over to $to: pilot $pilot, cone $mouth', ({ over, to, pilot, mouth }) => {
    for (const at of ends(over, to)) expect(centreHoleFor(at)).toEqual({ pilot: millimetres(pilot), mouth: millimetres(mouth) });
  });
  test('a centre bears at half the depth of the cone: (8 - 3)/4/tan 30° = 2.165 (computed)', () => {
    expect(printed(toMillimetres(bearsAt(centreHoleFor(millimetres(40)))), 3)).toBe(2.165);
  });
});

describe('Morse tapers', () => {
  type Row = { readonly morse: number; readonly perFoot: number; readonly places: number; readonly degrees?: number };
  test.each(cases<Row>('morse'))('no. $morse is $perFoot in a foot', ({ morse, perFoot, places, degrees }) => {
    const taper = MORSE_TAPER_PER_FOOT[morse] ?? Number.NaN;
    // The last figure: tables round the same five places up and down.
    expect(Math.abs(taper - perFoot)).toBeLessThanOrEqual(0.6 * 10 ** -places);
    if (degrees !== undefined) expect(Math.abs((Math.atan(taper / 24) * 180) / Math.PI - degrees)).toBeLessThanOrEqual(0.0001);
  });
});

describe('specific cutting force', () => {
  type Row = { readonly material: Material; readonly kc1: number; readonly mc: number };
  const rows = cases<Row>('specific-force');
  test.each(rows)('$material: $kc1 N/mm², exponent $mc', ({ material, kc1, mc }) => {
    expect(SPECIFIC_FORCES[material]).toEqual({ kc11: kc1, exponent: mc });
  });
  test('every material has one', () => {
    expect(rows.map(({ material }) => material).sort()).toEqual([...MATERIALS].sort());
  });
});
