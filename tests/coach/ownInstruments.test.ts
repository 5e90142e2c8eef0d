import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { advise, expandedUncertainty, sizeOf, sizeRead, startModel, type Cutter } from '../../src/coach/index.ts';
import { inches, INSTRUMENTS, instrumentsOf, micrometres, millimetres, thou, zero } from '../../src/measure/index.ts';

const cutter: Cutter = {
  step: thou(0.5),
  turn: thou(200),
  deepest: thou(10),
  thinnest: thou(1),
  tapers: true,
  perK: 11.5,
};
const HANDS = ['caliper', 'micrometer'] as const;
const PLACES = ['chuck-end', 'middle', 'free-end'] as const;
const instrument = (kind: (typeof HANDS)[number], step: number, error: number) =>
  instrumentsOf([{ kind, resolution: micrometres(step), permissibleError: micrometres(error) }]);

describe('an own instrument and the coach', () => {
  test('a reading with a coarser one is never worth more (seed 772)', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...HANDS),
        fc.tuple(fc.integer({ min: 1, max: 200 }), fc.integer({ min: 0, max: 200 })),
        fc.tuple(fc.integer({ min: 0, max: 200 }), fc.integer({ min: 0, max: 200 })),
        fc.array(fc.tuple(fc.constantFrom(...HANDS), fc.constantFrom(...PLACES)), { minLength: 1, maxLength: 6 }),
        (kind, [step, error], [stepMore, errorMore], taken) => {
          const fine = instrument(kind, step, error);
          const coarse = instrument(kind, step + stepMore, error + errorMore);
          const [better, worse] = [fine, coarse].map((instruments) => {
            const model = taken.reduce(
              (before, [read, place]) =>
                sizeRead(before, { value: millimetres(25), instrument: read, place, warmth: { kelvin: 0, spread: 2 } }),
              startModel(cutter, { mean: 25_000_000, spread: 100_000 }, instruments),
            );
            return [sizeOf(model).spread, expandedUncertainty(kind, millimetres(25), taken.length, instruments)];
          });
          // A millionth for the rounding of the arithmetic.
          better?.forEach((spread, at) => expect(Number(worse?.[at])).toBeGreaterThanOrEqual(spread * (1 - 1e-6)));
        },
      ),
      { seed: 772 },
    );
  });

  test('one that is said never to err is still read by feel: nothing is known without doubt', () => {
    const instruments = instrumentsOf([{ kind: 'micrometer', resolution: micrometres(1), permissibleError: zero }]);
    const reading = { value: inches(1), instrument: 'micrometer', place: 'middle', warmth: { kelvin: 0, spread: 2 } } as const;
    const { spread } = sizeOf(sizeRead(startModel(cutter, { mean: inches(1), spread: 100_000 }, instruments), reading));
    expect(spread).toBeGreaterThan(0);
    expect(Number.isFinite(spread)).toBe(true);
  });

  test('what a good micrometer may accept, one that is off by a thou may not', () => {
    const window = { low: inches(0.9995), high: inches(1.0005), aim: inches(1) };
    const wishes = { window, finishing: thou(10), micrometer: true, turning: true, warm: false, binds: null };
    const verdict = (instruments = INSTRUMENTS) =>
      advise(
        (['chuck-end', 'free-end', 'chuck-end', 'free-end'] as const).reduce(
          (model, place) =>
            sizeRead(model, { value: inches(1), instrument: 'micrometer', place, warmth: { kelvin: 0, spread: 0.5 } }),
          startModel(cutter, { mean: inches(1), spread: 100_000 }, instruments),
        ),
        wishes,
      ).kind;
    expect(verdict()).toBe('accept');
    expect(verdict(instrumentsOf([{ kind: 'micrometer', resolution: null, permissibleError: thou(1) }]))).not.toBe('accept');
  });
});
