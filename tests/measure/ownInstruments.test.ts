import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  inches,
  INSTRUMENTS,
  instrumentsOf,
  micrometres,
  millimetres,
  minus,
  nanometres,
  ownFigureFault,
  thou,
  zero,
  type InstrumentKind,
  type Length,
  type OwnFigure,
  type OwnFigureFault,
} from '../../src/measure/index.ts';

const KINDS = Object.keys(INSTRUMENTS) as readonly InstrumentKind[];

describe('the figures of an own instrument', () => {
  test.each<readonly [figure: OwnFigure, value: Length, fault: OwnFigureFault | null]>([
    ['resolution', thou(0.5), null],
    ['resolution', millimetres(0.01), null],
    ['resolution', nanometres(1), null],
    ['resolution', zero, 'step-of-nothing'],
    ['resolution', nanometres(-1), 'step-of-nothing'],
    ['resolution', INSTRUMENTS.rule.resolution, null],
    ['resolution', millimetres(0.5), null],
    ['resolution', nanometres(500_001), 'coarser-than-a-rule'],
    ['permissibleError', zero, null],
    ['permissibleError', thou(0.5), null],
    ['permissibleError', nanometres(-1), 'less-than-nothing'],
    ['permissibleError', millimetres(0.5), null],
    ['permissibleError', inches(1), 'coarser-than-a-rule'],
  ])('%s of %i nm', (figure, value, fault) => {
    expect(ownFigureFault(figure, value)).toBe(fault);
  });

  test('no standard instrument would be refused', () => {
    for (const { resolution, permissibleError } of Object.values(INSTRUMENTS))
      expect([ownFigureFault('resolution', resolution), ownFigureFault('permissibleError', permissibleError(inches(1)))]).toEqual(
        [null, null],
      );
  });
});

describe('the instruments of a shop', () => {
  test('are the standard ones where it has none of its own', () => {
    expect(instrumentsOf([])).toBe(INSTRUMENTS);
  });

  test('keep the standard figure where one is not given, and all of the other kinds', () => {
    const own = instrumentsOf([{ kind: 'caliper', resolution: millimetres(0.02), permissibleError: null }]);
    expect(own.caliper.resolution).toBe(millimetres(0.02));
    expect(own.caliper.permissibleError).toBe(INSTRUMENTS.caliper.permissibleError);
    expect(own.caliper.source).not.toBe(INSTRUMENTS.caliper.source);
    expect({ ...own, caliper: null }).toEqual({ ...INSTRUMENTS, caliper: null });
  });

  test('a caliper’s own error holds to 6 in, and grows by a thou for each further 6 begun (TB 9-5210-208-35)', () => {
    const { caliper } = instrumentsOf([{ kind: 'caliper', resolution: null, permissibleError: thou(0.5) }]);
    expect([1, 6, 6.001, 18.5].map((size) => caliper.permissibleError(inches(size)))).toEqual([
      thou(0.5),
      thou(0.5),
      thou(1.5),
      thou(3.5),
    ]);
    expect(caliper.resolution).toBe(INSTRUMENTS.caliper.resolution);
  });

  test('one that is coarser by so much is off by so much more at every size (seed 771)', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...KINDS),
        fc.integer({ min: 0, max: 250 }),
        fc.integer({ min: 0, max: 250 }),
        fc.integer({ min: 1, max: 900 }),
        (kind, fine, more, mm) => {
          const errorOf = (um: number): Length =>
            instrumentsOf([{ kind, resolution: null, permissibleError: micrometres(um) }])[kind].permissibleError(
              millimetres(mm),
            );
          expect(minus(errorOf(fine + more), errorOf(fine))).toBe(micrometres(more));
        },
      ),
      { seed: 771 },
    );
  });
});
