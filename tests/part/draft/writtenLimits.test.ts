import { describe, expect, test } from 'vitest';
import { inches, millimetres, thou, type Length } from '../../../src/measure/index.ts';
import { readWrittenLimits, type KnownMate } from '../../../src/part/index.ts';

const inch = (low: number, high: number) => ({ low: inches(low), high: inches(high) });
const mm = (low: number, high: number) => ({ low: millimetres(low), high: millimetres(high) });

/** A bore that three readings call 1.0003 in, read with an instrument that is as good as the case says. */
const bore = (uncertainty: Length): KnownMate => ({
  size: inches(1.0003),
  nominal: inches(1),
  uncertainty,
  holds: 'shaft',
  ring: null,
  measured: null,
});
const hub: KnownMate = {
  size: inches(1.6),
  nominal: inches(1.6),
  uncertainty: thou(0),
  holds: 'length',
  ring: null,
  measured: null,
};

/* Without limits: ±.005 in and ±0.1 mm, as the cases give. ISO and B4.1 limits: Machinery's Handbook 31st ed. tables. */
test.each([
  ['.627', inch(0.622, 0.632)],
  ['1 5/16', inch(1.3075, 1.3175)],
  ['1.250 ±.002', inch(1.248, 1.252)],
  ['1.250 +/-.002', inch(1.248, 1.252)],
  ['1.250 +.001 -.002', inch(1.248, 1.251)],
  ['1.250 +0/-.002', inch(1.248, 1.25)],
  ['.998 to .999', inch(0.998, 0.999)],
  ['.998-.999', inch(0.998, 0.999)],
  ['.998 – .999', inch(0.998, 0.999)],
  ['25h6', mm(24.987, 25)],
])('in inches, "%s"', (text, limits) => {
  // 25h6 without a unit would be 25 inches: a number is in the unit of the draft.
  const unit = text === '25h6' ? 'millimetre' : 'inch';
  const read = readWrittenLimits(text, unit, thou(5), null);
  expect(read).toMatchObject({ ok: true, value: limits });
});

test.each([
  ['15.94mm', mm(15.84, 16.04)],
  ['25 g6', mm(24.98, 24.993)],
  ['50 h11', mm(49.84, 50)],
  ['20 +0.1 -0.2', mm(19.8, 20.1)],
  ['24.98…25.00', mm(24.98, 25)],
  ['1 1/4"', { low: inches(1.25) - 100_000, high: inches(1.25) + 100_000 }],
])('in millimetres, "%s"', (text, limits) => {
  expect(readWrittenLimits(text, 'millimetre', millimetres(0.1), null)).toMatchObject({ ok: true, value: limits });
});

describe('a fit to a mate', () => {
  test('"slide" is the bore less the clearances of the fit, drawn in by what the bore may be off', () => {
    const plain = readWrittenLimits('slide', 'inch', thou(5), bore(thou(0)));
    const careful = readWrittenLimits('Slide fit', 'inch', thou(5), bore(thou(0.1)));
    if (!plain.ok || !careful.ok) throw new Error('not read');
    // Within the .0007 to .0015 that a slide fit has at 1 in.
    expect(plain.value.high).toBeLessThan(inches(0.9998));
    expect(plain.value.low).toBeGreaterThan(inches(0.9985));
    expect(careful.value.low - plain.value.low).toBe(thou(0.1));
    expect(plain.value.high - careful.value.high).toBe(thou(0.1));
    expect(careful.value).toMatchObject({ fit: 'slide', unproven: false });
  });

  test('where the bore is known too badly to promise it, the readings are taken as true and it says so', () => {
    const read = readWrittenLimits('slide', 'inch', thou(5), bore(thou(0.5)));
    const plain = readWrittenLimits('slide', 'inch', thou(5), bore(thou(0)));
    if (!read.ok || !plain.ok) throw new Error('not read');
    expect(read.value).toMatchObject({ unproven: true, low: plain.value.low, high: plain.value.high });
  });

  test('a designation alone stands at the size that the mate is called', () => {
    // Machinery's Handbook 31st ed., RC3 at .71 to 1.19 in: shaft -.8 to -1.3 thou.
    expect(readWrittenLimits('RC3', 'inch', thou(5), bore(thou(0.1)))).toMatchObject({ ok: true, value: inch(0.9987, 0.9992) });
    const bearing: KnownMate = {
      size: millimetres(20),
      nominal: millimetres(20),
      uncertainty: thou(0),
      holds: 'shaft',
      ring: null,
      measured: null,
    };
    expect(readWrittenLimits('h6', 'inch', thou(5), bearing)).toMatchObject({ ok: true, value: mm(19.987, 20) });
  });

  test('end play is over the width that is held', () => {
    expect(readWrittenLimits('play .004 to .008', 'inch', thou(5), hub)).toMatchObject({ ok: true, value: inch(1.604, 1.608) });
    expect(readWrittenLimits('play .004-.008', 'inch', thou(5), hub)).toMatchObject({ ok: true, value: inch(1.604, 1.608) });
  });
});

test.each([
  ['slide', 'no-mate'],
  ['g6', 'no-mate'],
  ['RC3', 'no-mate'],
  ['play .004 to .008', 'no-mate'],
  ['25q6', 'no-such-fit'],
  ['25H99', 'no-such-fit'],
  ['.999 to .998', 'upside-down'],
  ['', 'size'],
  ['about an inch', 'size'],
  ['1/0', 'size'],
])('"%s" is not read: %s', (text, key) => {
  expect(readWrittenLimits(text, 'millimetre', millimetres(0.1), null)).toMatchObject({ ok: false, error: { key } });
});
