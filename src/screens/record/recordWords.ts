import type { MeasuredQuantity } from '../../route/index.ts';

const quantities: Readonly<Record<MeasuredQuantity, string>> = {
  diameter: 'diameter',
  length: 'length',
  depth: 'depth',
  hole: 'hole',
  indicator: 'indicator',
  bore: 'bore',
  width: 'width',
};

/** The English of the record and of the comparison; apart from `words.ts` because it is fetched with them. */
export const recordWords = {
  again: 'Make it again',
  change: 'Change the part',
  compare: 'Compare two pieces',
  quantities,
  deviations: {
    title: 'What came out otherwise',
    none: 'Everything that was measured is within its limits.',
    over: (what: string, value: string, by: string) => `${what} is ${value}: ${by} over the high limit.`,
    under: (what: string, value: string, by: string) => `${what} is ${value}: ${by} under the low limit.`,
    kept: 'It was kept after a question.',
    notMeasured: (what: string) => `${what} was not measured.`,
    skipped: (step: string) => `Left out: ${step}.`,
    what: (name: string, quantity: string) => `${name}, ${quantity},`,
  },
  fits: 'Fits, as they were made',
  fitOf: (name: string, mate: string) => `${name} in ${mate}`,
  notes: {
    title: 'Notes from the machine',
    felt: (step: string, feel: string) =>
      `${step}: on the mate it ${feel === 'slides' || feel === 'won’t start' ? feel : `is ${feel}`}.`,
    temperature: (step: string, degrees: string) => `${step}: the work was at ${degrees}.`,
    memo: (step: string, seconds: number) => `${step}: memo, ${seconds} s`,
    play: 'Play',
    lost: 'The sound is no longer there.',
  },
  compareTitle: 'Compare two pieces',
  compareNone: 'There is no other job on this device.',
  compareWith: 'Compare the open job with',
  comparePick: 'Choose a job',
  columns: { what: 'What', here: 'This piece', there: 'The other', apart: 'Apart', window: 'Wanted here' },
  notThere: '–',
  back: 'Back to the record',
  same: 'the same',
} as const;
