import { describe, expect, it } from 'vitest';
import { fold, folded, type Intent, type JobState, type Plan } from '../../src/job/index.ts';
import { asDiameter } from '../../src/measure/index.ts';
import type { Operation } from '../../src/route/index.ts';
import { inch, NOON, one, pieces, plan, when } from './scene.ts';

/** The invented demo with one operation of its route changed, opened at it. */
function opened(id: string, change: Partial<Operation>, part: Partial<Plan['part']> = {}, holding?: string): JobState {
  const operations = plan.route.operations.map((operation) => (operation.id === id ? { ...operation, ...change } : operation));
  const at = operations.find((operation) => operation.id === id);
  const setups = plan.route.setups.map((setup) =>
    setup.id === at?.setup && holding !== undefined ? { ...setup, holding } : setup,
  );
  const changed: Plan = { ...plan, part: { ...plan.part, ...part }, route: { ...plan.route, operations, setups } };
  return fold(folded(changed, []), { id: 'e1', seq: 1, at: NOON, v: 1, body: { type: 'OperationOpened', operation: id } });
}

const stepOf = (id: string): number => plan.route.operations.findIndex((operation) => operation.id === id) + 1;
const goTo = (id: string): Intent => ({ type: 'go-to', step: { as: 'one', value: stepOf(id) } });

describe('a packing piece', () => {
  // 1.5 in of stock and a throw of .125: 1.5e + √(r² − .75e²) − r = .1797 (trade.md, section 5).
  const packed = opened('dial-in-offset', {}, {}, 'Three-jaw chuck, packing piece under jaw one');
  it('is told when the step is opened', () => {
    expect(pieces(when(packed, goTo('dial-in-offset')).decision)).toContain('packing-piece size(0.18) under-one-jaw');
  });
  it('is told anew from what the indicator showed with the one that was made', () => {
    const { state } = when(
      packed,
      { type: 'set-up-length', what: 'packing', value: one(0.17) },
      { type: 'indicator', end: 'low', value: one(0) },
      { type: 'indicator', end: 'high', value: one(0.236) },
    );
    // .118 is .007 short of the throw, and about 1.5 times that on the piece.
    expect(pieces(when(state, { type: 'ask-packing' }).decision)).toBe('packing-should-be size(0.18) .');
  });
  it('does not hold a bar with a throw that is too big for it', () => {
    const turned = plan.part.turned.map((feature) =>
      feature.kind === 'offset-journal' ? { ...feature, throw: inch(0.9) } : feature,
    );
    const tooBig = opened('dial-in-offset', {}, { turned }, 'Three-jaw chuck, packing piece under jaw one');
    expect(pieces(when(tooBig, { type: 'ask-packing' }).decision)).toBe('throw-too-big .');
  });
});

describe('a taper of the part', () => {
  // 1.0 to .75 over 4 in: compound 1.78991°, set-over of 10 in work .3125 (trade.md, section 6).
  const [journal] = plan.part.turned.filter(({ kind }) => kind === 'journal');
  if (journal?.kind !== 'journal') throw new Error('the demo has a journal');
  const { mate: _mate, fit: _fit, ...plain } = journal;
  const taper = {
    ...plain,
    kind: 'taper',
    diameter: { low: inch(0.999), high: inch(1.001) },
    small: asDiameter(inch(0.75)),
    smallEnd: 'right',
    length: { low: inch(3.995), high: inch(4.005) },
  } as const;
  const turned = plan.part.turned.map((feature) => (feature.id === journal.id ? taper : feature));
  const step = plan.route.operations.find(({ kind, feature }) => kind === 'finish' && feature === journal.id);
  if (step === undefined) throw new Error('the demo finishes its journal');
  const tapered = opened(step.id, { kind: 'taper', target: null }, { turned });

  it('sets the compound when the step is opened, without being told the ends', () => {
    expect(pieces(when(tapered, goTo(step.id)).decision)).toContain('compound 1 point 7 9 degrees');
  });
  it('sets the tailstock over once the length between centres is said', () => {
    const { decision } = when(tapered, { type: 'set-up-length', what: 'work', value: one(10) });
    expect(pieces(decision)).toContain('set-over-tailstock size(0.3125)');
  });
  it('says why the compound stands so, and why the tailstock does once that is what is set', () => {
    expect(pieces(when(tapered, { type: 'ask-why' }).decision)).toBe('why-taper .');
    const { state } = when(tapered, { type: 'set-up-length', what: 'work', value: one(10) });
    expect(pieces(when(state, { type: 'ask-why' }).decision)).toBe('why-set-over .');
  });
  it('says it of a taper that was told at another step too', () => {
    const plain = opened(step.id, { kind: 'chamfer', target: null, why: [] });
    const { state } = when(plain, { type: 'set-up-length', what: 'large', value: one(1) });
    expect(pieces(when(state, { type: 'ask-why' }).decision)).toBe('why-taper .');
  });
  it('is left for one that is told', () => {
    const { decision } = when(tapered, { type: 'set-up-length', what: 'large', value: one(0.9) });
    expect(pieces(decision)).toContain('small-end-what');
  });
});

describe('a bolt circle', () => {
  it('says why its holes stand where they do', () => {
    const begun = opened('deburr', {});
    const { state } = when(begun, { type: 'set-up-length', what: 'circle', value: one(2) });
    expect(pieces(when(state, { type: 'ask-why' }).decision)).toBe('why-circle .');
    expect(pieces(when(begun, { type: 'ask-why' }).decision)).toBe('no-reason-here .');
  });
});

describe('a length that names its datum', () => {
  const length = plan.route.operations.find(({ kind }) => kind === 'length');
  const measured = opened(length?.id ?? '', {
    say: 'Measure the arm journal from the left face',
    cut: null,
    target: {
      quantity: 'length',
      low: inch(1.308),
      aim: inch(1.31),
      high: inch(1.312),
      from: null,
      datum: 'left face',
      fit: null,
    },
  });
  const reads = (value: number): Intent => ({
    type: 'reading',
    spoken: 'with-verb',
    instrument: null,
    thing: 'length',
    place: null,
    value: one(value),
  });
  it('is told with it, and its limits after', () => {
    expect(pieces(when(measured, { type: 'ask-target' }).decision)).toBe(
      'target size(1.31) from "left face" . size(1.308) to size(1.312) .',
    );
  });
  it('is read against the limits of the drawing', () => {
    expect(pieces(when(measured, reads(1.311)).decision)).toBe('size(1.311) . at-size .');
    expect(pieces(when(measured, reads(1.306)).decision)).toContain('under-the-low-limit');
  });
});

describe('a milled feature in time with the high spot', () => {
  const spotted = (angle: number): string => {
    const milled = plan.part.milled.map((feature) => ({ ...feature, angle }));
    let told = when(opened('find-high-spot', {}, { milled }), goTo('find-high-spot'));
    for (const thou of [0, 55, -125, -161]) told = when(told.state, { type: 'spot', value: one(thou / 1000) });
    return pieces(told.decision);
  };
  it('is turned to by its angle, against the clock from the left', () => {
    expect(spotted(90)).toContain('high-spot-at 60 ,');
    expect(spotted(90)).toMatch(/for-the "[^"]+" , 90 anticlockwise-from-left \.$/);
  });
  it('needs no more where it is milled at the high spot', () => expect(spotted(0)).toMatch(/then-it-is-up \.$/));
});
