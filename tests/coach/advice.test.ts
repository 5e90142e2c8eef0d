import { describe, expect, it } from 'vitest';
import {
  advise,
  cutTaken,
  expandedUncertainty,
  lineOf,
  perRoundFrom,
  roundsLeftFor,
  sizeOf,
  sizeRead,
  startModel,
  surpriseOf,
  taperOf,
  whereToFile,
  type Cutter,
  type Place,
  type SizeReading,
  type Wishes,
} from '../../src/coach/index.ts';
import { INSTRUMENTS, inches, thou } from '../../src/measure/index.ts';

const cutter: Cutter = { step: thou(1), turn: thou(200), deepest: thou(60), thinnest: thou(1), tapers: true, perK: 11.5 };
const wishes: Wishes = {
  window: { low: inches(0.9985), high: inches(0.9995), aim: inches(0.999) },
  finishing: thou(10),
  micrometer: true,
  turning: true,
  warm: false,
  binds: null,
};
const reading = (value: number, instrument: 'caliper' | 'micrometer' = 'micrometer', place: Place = 'free-end'): SizeReading => ({
  value: inches(value),
  instrument,
  place,
  warmth: { kelvin: 0, spread: 2 },
});
const started = (size: number) => sizeRead(startModel(cutter, { mean: inches(size), spread: thou(4) }), reading(size));
const kind = (model: ReturnType<typeof started>, with_: Partial<Wishes> = {}) => advise(model, { ...wishes, ...with_ }).kind;

describe('advice', () => {
  it('asks for a reading before anything else, and after every cut', () => {
    expect(advise(startModel(cutter, { mean: inches(1.05), spread: thou(4) }), wishes)).toMatchObject({
      kind: 'measure',
      why: 'no-reading-since-the-cut',
    });
    expect(kind(cutTaken(started(1.019), thou(10)))).toBe('measure');
  });
  it('keeps roughing apart from two equal last passes', () => {
    const advice = advise(started(1.099), wishes);
    expect(advice).toMatchObject({ kind: 'cut', passes: 2, onPart: thou(40), then: thou(10), why: 'roughing-depth' });
  });
  it('halves what is left until a cut like it was measured', () => {
    expect(advise(cutTakenAndRead(started(1.059), 40, 1.019), wishes)).toMatchObject({ kind: 'cut', why: 'two-equal-passes' });
  });
  it('never goes where the chance of going under is above the stated risk', () => {
    for (let left = 2; left <= 40; left += 1) {
      const advice = advise(cutTakenAndRead(started(0.999 + (left + 10) / 1000), 10, 0.999 + left / 1000), wishes);
      if (advice.kind === 'cut') expect(advice.chanceUnder).toBeLessThan(0.001);
    }
  });
  it('files what the tool would only rub', () => {
    const model = sizeRead(cutTakenAndRead(started(1.0103), 10, 1.0003), reading(1.0003, 'micrometer', 'chuck-end'));
    expect(advise(model, wishes)).toMatchObject({ kind: 'file', where: 'all-along', why: 'thinner-than-the-tool-takes' });
  });
  it('accepts only with both ends inside, and asks for the other end first', () => {
    const one = cutTakenAndRead(started(1.009), 10, 0.999);
    expect(advise(one, wishes)).toMatchObject({ kind: 'measure', place: 'chuck-end' });
    expect(kind(sizeRead(one, reading(0.999, 'micrometer', 'chuck-end')))).toBe('accept');
  });
  it('asks for the micrometer where the caliper cannot tell', () => {
    const near = sizeRead(startModel(cutter, { mean: inches(1.0), spread: thou(4) }), reading(1.0, 'caliper'));
    expect(advise(near, wishes)).toMatchObject({ kind: 'measure', instrument: 'micrometer', why: 'caliper-cannot-tell' });
  });
  it('asks to let warm work cool before it is measured near the size', () => {
    const warm = cutTaken(started(1.015), thou(10));
    expect(advise(warm, { ...wishes, warm: true })).toMatchObject({ kind: 'measure', cool: true, why: 'warm-from-roughing' });
  });
  it('says what is under for certain', () => {
    expect(advise(started(0.997), wishes)).toMatchObject({ kind: 'stop', why: 'under-for-certain' });
  });
});

const cutTakenAndRead = (model: ReturnType<typeof started>, asked: number, then: number) =>
  sizeRead(cutTaken(model, thou(asked)), reading(then));

describe('slips', () => {
  const cut = cutTaken(cutTakenAndRead(started(1.059), 20, 1.039), thou(20));
  // What each slip does to a cut of 20 thou that should leave 1.019.
  it.each([
    [1.039, 'before-the-cut'],
    [0.999, 'twice-the-cut'],
    [1.029, 'half-the-cut'],
    [1.044, 'thimble-turn'],
  ] as const)('%d where 1.019 was expected is %s', (value, slip) => expect(surpriseOf(cut, reading(value))?.slip).toBe(slip));
  it('lets a sound reading pass', () => expect(surpriseOf(cut, reading(1.0192))).toBeNull());
});

describe('what is learned', () => {
  it('sees that cuts take less than they are asked to', () => {
    let model = started(1.2);
    let size = 1.2;
    for (let pass = 0; pass < 6; pass += 1) {
      size -= 0.9 * 0.02;
      model = sizeRead(cutTaken(model, thou(20)), reading(size));
    }
    expect(sizeOf(model).mean).toBeCloseTo(inches(size), -4);
    expect(lineOf(model).slope.mean).toBeLessThan(1);
  });
  it('finds a taper from both ends', () => {
    const tapered = sizeRead(
      sizeRead(startModel(cutter, { mean: inches(1), spread: thou(4) }), reading(1.0003)),
      reading(0.9997, 'micrometer', 'chuck-end'),
    );
    expect(taperOf(tapered).mean).toBeGreaterThan(thou(0.35));
    expect(whereToFile(taperOf(tapered), 0, null)).toBe('free-end');
    expect(whereToFile({ mean: 0, spread: 1000 }, 0, 'chuck-end')).toBe('chuck-end');
  });
  it('takes the rate of filing from the log, and gives a range of rounds that holds the likely one', () => {
    const each = perRoundFrom('filing', [{ removed: { mean: thou(2), spread: thou(0.1) }, rounds: 4 }]);
    expect(each.mean).toBeGreaterThan(thou(0.35));
    expect(each.mean).toBeLessThan(thou(0.5));
    const rounds = roundsLeftFor({ mean: thou(2), spread: thou(0.1) }, each);
    expect(rounds.least).toBeLessThanOrEqual(rounds.likely);
    expect(rounds.most).toBeGreaterThanOrEqual(rounds.likely);
  });
  it('never claims more of an instrument than its permissible error leaves, however often it is read', () => {
    // 2·a/√3 stays (GUM 4.3.7).
    const floor = (2 * thou(0.1)) / Math.sqrt(3);
    expect(expandedUncertainty('micrometer', inches(1), 1000, INSTRUMENTS)).toBeGreaterThan(floor);
    expect(expandedUncertainty('micrometer', inches(1), 1000, INSTRUMENTS)).toBeLessThan(floor * 1.01);
  });
});
