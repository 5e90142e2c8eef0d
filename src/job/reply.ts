import type { DisplayUnit, Length, Temperature } from '../measure/index.ts';

/** Tones, told apart by rhythm as well as pitch. */
export type Tone = 'heard' | 'stored' | 'please-repeat' | 'close-to-size' | 'at-size' | 'under-size';

/**
 * A piece of an answer, as data: rendered to words by the phrasebook, to sound by the voice, to text by the screens.
 * A `size` is said as a size ("six twenty-seven"), an `amount` as an amount ("two thou"), a `bare-amount` as one whose unit
 * is understood ("two" to go). `line` is text from the part or route, or a fixed sentence's own words.
 */
export type Piece =
  | { readonly say: 'phrase'; readonly phrase: PhraseId }
  | { readonly say: 'size'; readonly length: Length }
  | { readonly say: 'amount'; readonly length: Length }
  | { readonly say: 'bare-amount'; readonly length: Length }
  | { readonly say: 'count'; readonly count: number }
  | { readonly say: 'temperature'; readonly temperature: Temperature }
  | { readonly say: 'line'; readonly text: string }
  /** End of a sentence: a pause, a full stop. */
  | { readonly say: 'stop' }
  /** End of a question: a pause, a question mark. */
  | { readonly say: 'asks' };

export type Reply = { readonly tone: Tone | null; readonly pieces: readonly Piece[]; readonly unit: DisplayUnit };

/** Fixed words of the answers, each with its English. The voice renders a clip of every one; the ids are stable. */
export const PHRASES = {
  'to-go': 'to go',
  'on-the-dial': 'on the dial',
  take: 'take',
  'at-size': 'at size',
  'over': 'over',
  'under': 'under',
  'under-the-low-limit': 'under the low limit',
} as const satisfies Readonly<Record<string, string>>;

export type PhraseId = keyof typeof PHRASES;
