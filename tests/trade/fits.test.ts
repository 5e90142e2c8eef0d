import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  inches,
  micrometres,
  millimetres,
  NM_PER_THOU,
  nanometres,
  plus,
  roundReal,
  thou,
  zero,
  type Length,
} from '../../src/measure/index.ts';
import {
  boreShape,
  clearances,
  fitWindow,
  HAND_FITS,
  handClearances,
  holeDeviations,
  INCH_FITS,
  inchFit,
  isoFit,
  isoLimits,
  LARGEST_ISO_SIZE,
  parseInchFit,
  shaftDeviations,
  toleranceOf,
  type InchFit,
} from '../../src/trade/index.ts';
import { cases, size, value } from './fixture.ts';

/** The ends of a range of sizes: just over its lower end, and its upper end, which still belongs to it. */
const inRange = (over: number, to: number): Length[] => [nanometres(millimetres(over) + 1), millimetres(to)];

describe('ISO 286-1', () => {
  test.each(cases<{ over: number; to: number; grade: number; um: number }>('iso-grades'))(
    'IT$grade over $over to $to mm is $um µm',
    ({ over, to, grade, um }) => {
      for (const at of inRange(over, to)) expect(value(toleranceOf(at, grade))).toBe(um * 1000);
    },
  );

  test.each(cases<{ over: number; to: number; letter: string; um: number }>('iso-deviations'))(
    '$letter over $over to $to mm is $um µm',
    ({ over, to, letter, um }) => {
      for (const at of inRange(over, to)) {
        const { lower, upper } = value(shaftDeviations(at, letter, 6));
        expect(um < 0 ? upper : lower).toBe(um * 1000);
      }
    },
  );

  type Fit = { size: string; fit: string; hole: [string, string]; shaft: [string, string]; clearance: [string, string] };
  test.each(cases<Fit>('iso-fits'))('$size $fit', ({ size: nominal, fit, hole, shaft, clearance }) => {
    const limits = value(isoFit(size(nominal), fit));
    expect([limits.hole.low, limits.hole.high]).toEqual(hole.map(size));
    expect([limits.shaft.low, limits.shaft.high]).toEqual(shaft.map(size));
    expect([limits.leastClearance, limits.mostClearance]).toEqual(clearance.map(size));
  });

  test.each(cases<{ size: string; hole: string; um: [number, number] }>('iso-holes'))(
    '$size $hole is $um',
    ({ size: nominal, hole, um }) => {
      const { low, high } = value(isoLimits(size(nominal), hole));
      expect([low - size(nominal), high - size(nominal)]).toEqual(um.map((micron) => micron * 1000));
    },
  );

  test.each([
    ['25', 'g6', 'size', zero],
    ['600', 'g6', 'size', millimetres(600)],
    ['25', 'q6', 'no-such-deviation', millimetres(25)],
    ['25', 'g2', 'no-such-grade', millimetres(25)],
    ['25', 'g', 'not-a-designation', millimetres(25)],
    ['20', 't6', 'not-defined', millimetres(20)],
    ['25', '', 'not-a-designation', millimetres(25)],
    ['25', 'K9', 'not-defined', millimetres(25)],
  ])('%s %s is refused: %s', (_, designation, key, nominal) => {
    const limits = isoLimits(nominal, designation);
    expect(limits.ok ? null : limits.error.key).toContain(key);
  });

  test.each(['H7', 'g6/H7', 'H7/H7', 'H7/g6/h6', ''])('"%s" is no fit', (designation) => {
    expect(isoFit(millimetres(25), designation).ok).toBe(false);
  });

  const sizes = fc.integer({ min: 1, max: LARGEST_ISO_SIZE }).map(nanometres);
  const grades = fc.integer({ min: 4, max: 13 });

  test('a hole and a shaft of the same letter from c to h mirror each other (seed 4201)', () => {
    fc.assert(
      fc.property(sizes, grades, fc.constantFrom('c', 'd', 'e', 'f', 'g', 'h'), (nominal, grade, letter) => {
        const hole = value(holeDeviations(nominal, letter.toUpperCase(), grade));
        const shaft = value(shaftDeviations(nominal, letter, grade));
        expect([hole.lower + shaft.upper, hole.upper + shaft.lower]).toEqual([0, 0]);
      }),
      { seed: 4201 },
    );
  });

  test('a hole-basis fit and its shaft-basis twin give the same clearances: H7/p6 and P7/h6 (seed 4202)', () => {
    fc.assert(
      fc.property(
        sizes.filter((nominal) => nominal > millimetres(3) && nominal <= millimetres(500)),
        fc.constantFrom('k', 'n', 'p', 'r', 's'),
        (nominal, letter) => {
          const holeBasis = value(isoFit(nominal, `H7/${letter}6`));
          const shaftBasis = value(isoFit(nominal, `${letter.toUpperCase()}7/h6`));
          expect([shaftBasis.leastClearance, shaftBasis.mostClearance]).toEqual([
            holeBasis.leastClearance,
            holeBasis.mostClearance,
          ]);
        },
      ),
      { seed: 4202 },
    );
  });

  test('a coarser grade is never narrower, nor is a larger size (seed 4203)', () => {
    fc.assert(
      fc.property(sizes, sizes, fc.integer({ min: 3, max: 12 }), (one, other, grade) => {
        expect(value(toleranceOf(one, grade + 1))).toBeGreaterThanOrEqual(value(toleranceOf(one, grade)));
        const [small, large] = one <= other ? [one, other] : [other, one];
        expect(value(toleranceOf(large, grade))).toBeGreaterThanOrEqual(value(toleranceOf(small, grade)));
      }),
      { seed: 4203 },
    );
  });
});

describe('ANSI B4.1', () => {
  const inRangeInch = (over: number, to: number): Length[] => [nanometres(inches(over) + 1), inches(to)];
  const inThou = (length: number): number => roundReal((length / NM_PER_THOU) * 1000, 'half-even') / 1000;
  type Row = { over: number; to: number; fit: InchFit; hole: number; shaft: [number, number]; clearance: [number, number] };

  test.each(cases<Row>('inch-fits'))('$fit over $over to $to in', ({ over, to, fit, hole, shaft, clearance }) => {
    for (const at of inRangeInch(over, to)) {
      const limits = value(inchFit(at, fit));
      expect(limits.hole.low).toBe(at);
      expect(inThou(limits.hole.high - at)).toBe(hole);
      expect([inThou(limits.shaft.low - at), inThou(limits.shaft.high - at)]).toEqual(shaft.map((one) => one + 0));
      expect([inThou(limits.leastClearance) + 0, inThou(limits.mostClearance)]).toEqual(clearance.map((one) => one + 0));
    }
  });

  test.each(cases<Pick<Row, 'over' | 'to' | 'fit' | 'clearance'>>('inch-clearances'))(
    '$fit over $over to $to in clears $clearance thou',
    ({ over, to, fit, clearance }) => {
      for (const at of inRangeInch(over, to)) {
        const { leastClearance, mostClearance } = value(inchFit(at, fit));
        expect([inThou(leastClearance), inThou(mostClearance)]).toEqual(clearance);
      }
    },
  );

  test.each(cases<{ size: string; fit: InchFit; hole: string[]; shaft: string[] }>('inch-fits-worked'))(
    '$fit at $size',
    ({ size: nominal, fit, hole, shaft }) => {
      const limits = value(inchFit(size(nominal), fit));
      expect([limits.hole.low, limits.hole.high, limits.shaft.low, limits.shaft.high]).toEqual([...hole, ...shaft].map(size));
    },
  );

  test('a size beyond the table and a class that is not there are refused', () => {
    for (const nominal of [zero, nanometres(inches(4.73) + 1)])
      expect(inchFit(nominal, 'RC4')).toMatchObject({ ok: false, error: { key: 'inch-size-out-of-range' } });
    expect(inchFit(inches(0.5), 'FN3').ok).toBe(false);
    expect(parseInchFit('RC10')).toEqual({ ok: false, error: { key: 'no-such-fit', text: 'RC10' } });
    expect(parseInchFit('FN2')).toEqual({ ok: true, value: 'FN2' });
  });

  test('every class has whole limits at every size that it covers, the shaft no wider than the hole class allows (seed 4204)', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: inches(0.25), max: inches(4.73) }).map(nanometres),
        fc.constantFrom(...INCH_FITS),
        (nominal, fit) => {
          const limits = inchFit(nominal, fit);
          if (!limits.ok) {
            expect(fit).toBe('FN3');
            return;
          }
          const { hole, shaft, leastClearance, mostClearance } = limits.value;
          expect(shaft.high).toBeGreaterThan(shaft.low);
          expect(mostClearance - leastClearance).toBe(hole.high - hole.low + shaft.high - shaft.low);
          expect(shaft.high % 10).toBe(nominal % 10);
        },
      ),
      { seed: 4204 },
    );
  });
});

test('what is left between a hole and a shaft is the tightest pair and the loosest (25 H7/f6 and 25 H7/p6 of ISO 286)', () => {
  const hole = { low: millimetres(25), high: millimetres(25.021) };
  const [running, pressed] = [
    { low: millimetres(24.967), high: millimetres(24.98) },
    { low: millimetres(25.022), high: millimetres(25.035) },
  ];
  expect(clearances(hole, running)).toEqual({ least: millimetres(0.02), most: millimetres(0.054) });
  expect(clearances(hole, pressed)).toEqual({ least: millimetres(-0.035), most: millimetres(-0.001) });
});

describe('fits by hand', () => {
  test('from the loosest to the tightest they do not overlap the wrong way round (seed 4205)', () => {
    fc.assert(
      fc.property(fc.integer({ min: 3_000_000, max: 150_000_000 }).map(nanometres), (diameter) => {
        const order = ['run', 'slide', 'locate', 'tap', 'press'] as const;
        const found = order.map((fit) => handClearances(fit, diameter));
        for (const [index, { least, most }] of found.entries()) {
          expect(most).toBeGreaterThan(least);
          const tighter = found[index + 1];
          if (tighter !== undefined) expect(most > tighter.most && least > tighter.least).toBe(true);
        }
      }),
      { seed: 4205 },
    );
  });

  test('at an inch they are what people say: slide about a thou, press an interference', () => {
    expect(handClearances('slide', inches(1))).toEqual({ least: micrometres(17.62), most: micrometres(37.7) });
    expect(HAND_FITS.map((fit) => handClearances(fit, inches(1)).least < 0)).toEqual([false, false, false, true, true]);
  });
});

describe('the window from a measured bore', () => {
  test('shape: smallest, largest, out of round at one place, taper along', () => {
    const at = (thouOver: number): Length => plus(inches(1), thou(thouOver));
    expect(
      boreShape([
        { value: at(1), place: 'near', across: 'one-way' },
        { value: at(1.4), place: 'near', across: 'other-way' },
        { value: at(2), place: 'far', across: 'one-way' },
      ]),
    ).toEqual({ smallest: at(1), largest: at(2), outOfRound: thou(0.4), taper: thou(1) });
    expect(boreShape([{ value: at(1), place: 'middle', across: 'one-way' }])).toEqual({
      smallest: at(1),
      largest: at(1),
      outOfRound: null,
      taper: null,
    });
    expect(boreShape([])).toBeNull();
  });

  test('a shaft in the window clears the true bore, wherever in its uncertainty that lies (seed 4206)', () => {
    const small = fc.integer({ min: 0, max: 60_000 }).map(nanometres);
    fc.assert(
      fc.property(
        fc.integer({ min: 5_000_000, max: 90_000_000 }).map(nanometres),
        small,
        small,
        small,
        fc.double({ min: -1, max: 1, noNaN: true }),
        (bore, a, b, u, where) => {
          const clearances = { least: a <= b ? a : b, most: a <= b ? b : a };
          const window = fitWindow(bore, u, clearances);
          if (!window.ok) {
            expect(clearances.most - clearances.least).toBeLessThan(2 * u);
            return;
          }
          const truth = bore + where * u;
          const { low, high, aim } = window.value;
          expect(aim >= low && aim <= high).toBe(true);
          expect(truth - high).toBeGreaterThanOrEqual(clearances.least - 1e-6);
          expect(truth - low).toBeLessThanOrEqual(clearances.most + 1e-6);
        },
      ),
      { seed: 4206 },
    );
  });

  test('a bore known only to a thou cannot promise a fit of half a thou', () => {
    expect(fitWindow(inches(1), thou(1), { least: zero, most: thou(0.5) })).toEqual({
      ok: false,
      error: { key: 'bore-too-uncertain', room: thou(0.5), uncertainty: thou(1) },
    });
  });
});
