import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  formatAmount, formatFraction, formatInch, formatMillimetre, formatSize, nanometres, NM_PER_INCH, NM_PER_MM, parseLength,
  sixtyFourths, writeLength, type Length,
} from '../../src/measure/index.ts';
import { FRACTIONS } from './cases/facts.ts';
import { AMOUNTS, INCHES, MILLIMETRES, SIZES, WRITTEN } from './cases/format.ts';
import { READ, REFUSED } from './cases/parse.ts';

const SEED = 627;

/** The longest that is read: 100 m. */
const readable = fc.integer({ min: -1e11, max: 1e11 }).map(nanometres);

function read(text: string): Length {
  const length = parseLength(text, 'inch');
  if (!length.ok) throw new Error(`the case itself is not a length: ${text}`);
  return length.value;
}

describe('reading a typed length', () => {
  test.each(READ)('%j where %s is shown is %d nm', (text, unit, count) => {
    expect(parseLength(text, unit)).toEqual({ ok: true, value: count });
  });

  test.each(REFUSED)('%j where %s is shown is refused: %s at %j', (text, unit, key, at) => {
    const answer = parseLength(text, unit);
    expect(answer.ok).toBe(false);
    if (answer.ok) return;
    expect(answer.error.key).toBe(key);
    expect(answer.error.key === 'not-a-length' ? answer.error.at : null).toBe(at);
  });

  test(`whatever is typed is read or refused, never thrown at (seed ${SEED})`, () => {
    const typed = fc.string({ unit: fc.constantFrom(...'0123456789./ \'"-+inmthouf,é½'), maxLength: 24 });
    fc.assert(
      fc.property(fc.oneof(typed, fc.string({ unit: 'binary', maxLength: 24 })), fc.constantFrom('inch', 'millimetre'), (text, unit) => {
        const answer = parseLength(text, unit);
        if (answer.ok) expect(Number.isSafeInteger(answer.value)).toBe(true);
        else if (answer.error.key === 'not-a-length') {
          expect(answer.error.at).toBeGreaterThanOrEqual(0);
          expect(answer.error.at).toBeLessThanOrEqual(text.length);
        }
      }),
      { seed: SEED, numRuns: 3_000 },
    );
  });

  test(`a decimal of any number of places is the nearest nanometre (seed ${SEED})`, () => {
    const digits = fc.string({ unit: fc.constantFrom(...'0123456789'), minLength: 1, maxLength: 20 });
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 3_000 }), digits, (whole, part) => {
        const answer = parseLength(`${whole}.${part}`, 'inch');
        const under = 10n ** BigInt(part.length);
        // |2·(nm·under − written·25 400 000)| ≤ under: off by half a nanometre at most, in exact arithmetic.
        const off = 2n * (BigInt(answer.ok ? answer.value : -1) * under - BigInt(`${whole}${part}`) * BigInt(NM_PER_INCH));
        expect(off <= under && -off <= under).toBe(true);
      }),
      { seed: SEED, numRuns: 1_000 },
    );
  });
});

describe('writing a length', () => {
  test.each(INCHES)('%s to %d places is %s in', (text, places, shown) => {
    expect(formatInch(read(text), places)).toBe(shown);
  });

  test.each(MILLIMETRES)('%s to %d places is %s mm', (text, places, shown) => {
    expect(formatMillimetre(read(text), places)).toBe(shown);
  });

  test.each(AMOUNTS)('%s in %s work is said %s', (text, unit, shown) => {
    expect(formatAmount(read(text), unit)).toBe(shown);
  });

  test.each(SIZES)('%s is shown in %s as %s', (text, unit, shown) => {
    expect(formatSize(read(text), unit)).toBe(shown);
  });

  test.each(FRACTIONS)('%s in keeps its fraction', (fraction) => {
    expect(formatFraction(read(fraction))).toBe(fraction);
  });

  test.each(['.627in', '15.94mm', '-1/4in'])('%s has no fraction', (text) => {
    expect(formatFraction(read(text))).toBeNull();
  });

  test.each(WRITTEN)('%d nm stands in a file as %s', (count, text) => {
    expect(writeLength(nanometres(count))).toBe(text);
  });
});

describe(`writing and reading back (seed ${SEED})`, () => {
  const law = (name: string, property: fc.IRawProperty<unknown>): void =>
    test(name, () => fc.assert(property, { seed: SEED, numRuns: 2_000 }));

  const onInches = fc.integer({ min: -2e7, max: 2e7 }).map((count) => nanometres(count * 127));

  law('a file gives back the very nanometre, whatever unit is shown', fc.property(
    fc.oneof(readable, onInches), fc.constantFrom('inch', 'millimetre'), (length, unit) => {
      expect(parseLength(writeLength(length), unit)).toEqual({ ok: true, value: length });
    }));

  law('inches to six places are exact wherever inches end', fc.property(onInches, (length) => {
    expect(read(`${formatInch(length, 6)} in`)).toBe(length);
  }));

  law('what is shown is off by half of its last place at most', fc.property(onInches, fc.integer({ min: 1, max: 5 }), (length, places) => {
    expect(Math.abs(read(`${formatInch(length, places)} in`) - length) * 2).toBeLessThanOrEqual(NM_PER_INCH / 10 ** places);
    expect(Math.abs(read(`${formatMillimetre(length, places)} mm`) - length) * 2).toBeLessThanOrEqual(NM_PER_MM / 10 ** places);
  }));

  law('an amount that is said is off by half a tenth at most', fc.property(fc.integer({ min: -2_500_000, max: 2_500_000 }), (count) => {
    const length = nanometres(count);
    expect(Math.abs(read(formatAmount(length, 'inch')) - length) * 2).toBeLessThanOrEqual(2_540);
  }));

  law('every sixty-fourth has a fraction that reads back', fc.property(fc.integer({ min: 0, max: 6_400 }), (count) => {
    const fraction = formatFraction(sixtyFourths(count));
    expect(fraction).not.toBeNull();
    expect(read(`${fraction ?? ''} in`)).toBe(sixtyFourths(count));
  }));
});
