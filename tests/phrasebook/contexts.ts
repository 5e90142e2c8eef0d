import type { Context } from '../../src/job/index.ts';
import { inches, millimetres, type Length } from '../../src/measure/index.ts';

type Made = { readonly low: Length; readonly aim: Length; readonly high: Length };
const windowIn = (low: number, aim: number, high: number): Made => ({ low: inches(low), aim: inches(aim), high: inches(high) });
const windowMm = (low: number, aim: number, high: number): Made => ({
  low: millimetres(low),
  aim: millimetres(aim),
  high: millimetres(high),
});

const nothingInch: Context = {
  unit: 'inch',
  awaited: null,
  window: null,
  from: null,
  last: null,
  largest: null,
  instrument: null,
  ownSteps: {},
  steps: 20,
  asked: false,
  now: 1_000_000,
};
const nothingMm: Context = { ...nothingInch, unit: 'millimetre' };
const at = (value: Length) => ({ value, at: 900_000 });

/** The moments in which the words of the corpus are said, by the name that its lines give. */
export const CONTEXTS = {
  'inch nothing': nothingInch,
  /** Turning down to .620 from .750, .640 read last, the micrometer in hand. */
  'inch .620': {
    ...nothingInch,
    awaited: 'diameter',
    window: windowIn(0.6195, 0.62, 0.6205),
    from: inches(0.75),
    last: at(inches(0.64)),
    largest: inches(1.5),
    instrument: 'micrometer',
  },
  'inch .620 asked': {
    ...nothingInch,
    awaited: 'diameter',
    window: windowIn(0.6195, 0.62, 0.6205),
    from: inches(0.75),
    last: at(inches(0.64)),
    largest: inches(1.5),
    instrument: 'micrometer',
    asked: true,
  },
  /** As the terminal sets it with --expect: two thou about the size, nothing else known. */
  'inch .625 fresh': {
    ...nothingInch,
    awaited: 'diameter',
    window: windowIn(0.623, 0.625, 0.627),
    largest: inches(1.5),
    instrument: 'caliper',
  },
  'inch 1.3125': {
    ...nothingInch,
    awaited: 'diameter',
    window: windowIn(1.3115, 1.3125, 1.313),
    from: inches(1.5),
    last: at(inches(1.34)),
    largest: inches(1.5),
    instrument: 'micrometer',
  },
  'inch 1.250': {
    ...nothingInch,
    awaited: 'diameter',
    window: windowIn(1.248, 1.25, 1.252),
    from: inches(1.5),
    largest: inches(1.5),
    instrument: 'caliper',
  },
  'inch depth .0625': {
    ...nothingInch,
    awaited: 'depth',
    window: windowIn(0.06, 0.0625, 0.065),
    largest: inches(6),
    instrument: 'depth-micrometer',
  },
  'inch length 2.500': {
    ...nothingInch,
    awaited: 'length',
    window: windowIn(2.495, 2.5, 2.505),
    from: inches(2.6),
    largest: inches(6),
    instrument: 'caliper',
  },
  'inch length 30': {
    ...nothingInch,
    awaited: 'length',
    window: windowIn(29.9, 30, 30.1),
    from: inches(31),
    largest: inches(36),
    instrument: 'rule',
  },
  'inch bore 1.000': { ...nothingInch, awaited: 'bore', window: windowIn(1, 1, 1), instrument: 'telescoping-gauge' },
  'inch indicator': { ...nothingInch, awaited: 'indicator', window: windowIn(0, 0, 0.002), instrument: 'indicator' },
  'mm nothing': nothingMm,
  'mm 19': {
    ...nothingMm,
    awaited: 'diameter',
    window: windowMm(18.98, 19, 19.02),
    from: millimetres(20),
    last: at(millimetres(19.4)),
    largest: millimetres(30),
    instrument: 'micrometer',
  },
  'mm 19 fresh': {
    ...nothingMm,
    awaited: 'diameter',
    window: windowMm(18.95, 19, 19.05),
    largest: millimetres(30),
    instrument: 'caliper',
  },
  'mm 25.4': {
    ...nothingMm,
    awaited: 'diameter',
    window: windowMm(25.35, 25.4, 25.45),
    from: millimetres(28),
    largest: millimetres(30),
    instrument: 'caliper',
  },
  'mm length 120': {
    ...nothingMm,
    awaited: 'length',
    window: windowMm(119.9, 120, 120.1),
    from: millimetres(122),
    largest: millimetres(150),
    instrument: 'caliper',
  },
  'mm indicator': { ...nothingMm, awaited: 'indicator', window: windowMm(0, 0, 0.05), instrument: 'indicator' },
} as const satisfies Readonly<Record<string, Context>>;

export type ContextName = keyof typeof CONTEXTS;
