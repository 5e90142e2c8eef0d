import type { Angle, DisplayUnit, Length, Temperature } from '../measure/index.ts';

/**
 * How usual it is to say those words for that value, before anything is known of the job. Four steps are enough; what they
 * lead to is in `resolve.ts` and docs/numbers.md.
 */
export const PRIOR = {
  /** What the next machinist would take it for. */
  habit: 1,
  /** Said by many, where it fits. */
  also: 0.6,
  /** Now and then. */
  rare: 0.2,
  /** Only if nothing else can be meant, and then it is asked about. */
  stretch: 0.03,
} as const;

/** One thing that the words may stand for. `prior` is one of `PRIOR`. */
export type Candidate =
  | {
      readonly kind: 'length';
      /** Rounded to the nanometre; exact for up to five inch places, six millimetre places and 64ths. */
      readonly value: Length;
      /** The unit it was counted in, and whether the speaker named it. */
      readonly unit: DisplayUnit;
      readonly named: boolean;
      /** Decimal places that were said, in that unit; null for a fraction, which has none. */
      readonly places: number | null;
      /** Led by "plus" or "minus". */
      readonly signed: boolean;
      readonly prior: number;
    }
  | { readonly kind: 'from-target'; readonly by: Length; readonly prior: number }
  | { readonly kind: 'from-last'; readonly by: Length; readonly prior: number }
  | { readonly kind: 'half-of-last'; readonly prior: number }
  | {
      readonly kind: 'temperature';
      readonly value: Temperature;
      readonly scale: 'celsius' | 'fahrenheit';
      readonly named: boolean;
      readonly prior: number;
    }
  | { readonly kind: 'angle'; readonly value: Angle; readonly prior: number }
  | { readonly kind: 'count'; readonly count: number; readonly of: 'step' | 'tally'; readonly prior: number }
  | { readonly kind: 'vague' | 'centimetres'; readonly prior: number };

export type LengthCandidate = Extract<Candidate, { kind: 'length' }>;
