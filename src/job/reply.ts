import type { DisplayUnit, Length, Temperature } from '../measure/index.ts';

/** Tones, told apart by rhythm as well as pitch. */
export type Tone = 'heard' | 'stored' | 'please-repeat' | 'close-to-size' | 'at-size' | 'under-size';

/**
 * A piece of an answer, as data: rendered to words by the phrasebook, to sound by the voice, to text by the screens.
 * A `size` is said as a size ("six twenty-seven"), an `amount` as an amount ("two thou"), a `bare-amount` as one whose unit
 * is understood ("two" to go). `line` is text from the part or route, or what was heard.
 */
export type Piece =
  | { readonly say: 'phrase'; readonly phrase: PhraseId }
  | { readonly say: 'size'; readonly length: Length }
  | { readonly say: 'amount'; readonly length: Length }
  | { readonly say: 'bare-amount'; readonly length: Length }
  | { readonly say: 'count'; readonly count: number }
  | { readonly say: 'temperature'; readonly temperature: Temperature }
  | { readonly say: 'line'; readonly text: string }
  /** A breath inside a sentence: a comma to the eye, nothing to the ear. */
  | { readonly say: 'comma' }
  /** End of a sentence: a pause, a full stop. */
  | { readonly say: 'stop' }
  /** End of a question: a pause, a question mark. */
  | { readonly say: 'asks' };

export type Reply = { readonly tone: Tone | null; readonly pieces: readonly Piece[]; readonly unit: DisplayUnit };

/** Fixed words of the answers, each with its English. The voice renders a clip of every one; the ids are stable. */
export const PHRASES = {
  // reading back and what is left
  'to-go': 'to go',
  'on-the-dial': 'on the dial',
  'on-the-diameter': 'on the diameter',
  take: 'take',
  'less-than-a-division': 'less than a division; file it',
  file: 'file',
  'at-size': 'at size',
  'in-the-window': 'in the window',
  over: 'over',
  under: 'under',
  'under-the-low-limit': 'under the low limit',
  'past-the-high-limit': 'past the high limit',
  'off-what-is-wanted': 'off what is wanted',
  'loose-by': 'the fit will be loose by',
  'too-small-by': 'too small by',
  'too-deep-by': 'too deep by',
  'nothing-left': 'nothing left to take',
  noted: 'noted',
  'not-measured-yet': 'not measured yet',
  'from-the-plan': 'from the plan',
  // moving
  step: 'step',
  of: 'of',
  target: 'target',
  to: 'to',
  'next-up': 'next',
  'last-one': 'that was the last one; the record is ready',
  'all-done': 'all steps are done',
  'already-first': 'this is the first step',
  'no-such-step': 'there is no step',
  'steps-go-to': 'steps go up to',
  back: 'back',
  skipped: 'skipped',
  // answers
  'no-target-here': 'nothing is measured here',
  passes: 'passes',
  'one-pass': 'one pass',
  at: 'at',
  'stop-at': 'stop at',
  from: 'from',
  turns: 'turns of the carriage dial',
  'turn-and': 'turns and',
  'no-stop-here': 'no stop for this step',
  rpm: 'r p m',
  'no-speed-here': 'no speed for this step',
  'a-turn': 'a turn',
  'no-feed-here': 'no feed for this step',
  'last-reading': 'last reading',
  'no-reading-yet': 'no reading yet',
  'the-bore': 'the bore',
  'no-fit-here': 'no fit on this step',
  clearance: 'clearance',
  interference: 'interference',
  'slide-fit': 'slide fit',
  'run-fit': 'running fit',
  'locate-fit': 'locating fit',
  'tap-fit': 'tap fit',
  'press-fit': 'press fit',
  'about-minutes': 'minutes, about',
  'no-caution-here': 'no special caution here; spindle stopped before you measure',
  readings: 'readings',
  'one-reading': 'one reading',
  'nothing-to-dial': 'nothing to dial here',
  // asking back
  yes: 'yes',
  'did-you-mean': 'did you mean',
  'say-yes-or-no': 'say yes or no',
  'bigger-than-it-was': 'bigger than it was',
  'far-from-the-last': 'far from the last reading',
  'outside-the-stock': 'outside the stock',
  'far-from-the-target': 'far from the target',
  'keep-it': 'keep it',
  'no-reading-in-the-window': 'no reading in the window',
  'no-reading-taken': 'no reading taken',
  'go-on-anyway': 'go on anyway',
  // putting right
  scratched: 'scratched',
  'nothing-to-scratch': 'nothing to scratch',
  'nothing-to-correct': 'no reading to put right',
  'say-it-again': 'say it again',
  'never-mind': 'never mind',
  'nothing-was-asked': 'nothing was asked',
  // refusals
  'say-again': 'say again',
  heard: 'I heard',
  'say-it-with-a-verb': 'say reads, then the number',
  'what-number': 'what number',
  'no-centimetres': 'say it in millimetres',
  'how-much-is-that': 'how much is that, in numbers',
  'finer-than-it-reads': 'that is finer than the instrument reads',
  'no-last-to-count-from': 'no last reading to count from',
  'no-target-to-count-from': 'no target to count from',
  'makes-no-sense-here': 'that makes no sense here',
  'nothing-awaited': 'no reading is awaited here',
  'which-mate': 'this step has no bore to measure',
  'not-stored': 'not stored; the store failed',
  'too-loud': 'too loud to hear you; use the buttons',
  // set-up
  jaw: 'jaw',
  low: 'low',
  high: 'high',
  total: 'total',
  throw: 'throw',
  'read-all-four': 'read all four jaws',
  'now-jaw': 'now jaw',
  'now-jaws': 'now jaws',
  and: 'and',
  loosen: 'loosen',
  tighten: 'tighten',
  'jaws-are-right': 'by the jaws it is there',
  'sweep-it': 'turn it by hand, low and high',
  'now-the-high': 'now the high',
  'now-the-low': 'now the low',
  'that-is-it': "that's it",
  'too-much': 'too much',
  short: 'short',
  'read-it-here': 'read it here',
  'turn-on-to': 'turn on to',
  'turn-on': 'turn on',
  'turn-back': 'turn back',
  'then-it-is-up': 'and it is up',
  'high-spot-at': 'high spot at',
  'give-or-take': 'give or take',
  'left-out-the-one-at': 'left out the odd one at',
  'they-disagree': 'the readings disagree; read them again',
  'no-high-spot': 'no high spot; it runs true as far as this tells',
  'plan-has': 'the plan has',
  'first-hole-at': 'first hole at',
  'end-at': 'end at',
  in: 'in',
  'over-the-edge': 'over the edge',
  'over-the-end': 'over the end',
  'over-its-middle': 'over its middle',
  'should-be': 'it should be',
  'check-the-finder': 'check the finder',
  'touch-the-end': 'touch the end first, then both sides',
  finder: 'finder',
  'bolt-circle': 'bolt circle',
  'line-of-holes': 'line of holes',
  'how-many-holes': 'how many holes',
  'hole-to-hole': 'hole to hole',
  hole: 'hole',
  ex: 'X',
  'why-axis': 'Y',
  'no-such-hole': 'there is no such hole',
  'no-holes-here': 'no holes here; say bolt circle, then its size',
  'last-hole': 'that was the last hole',
  'a-quarter': 'a quarter',
  'a-half': 'a half',
  'three-quarters': 'three quarters',
  'and-a-quarter': 'and a quarter',
  'and-a-half': 'and a half',
  'and-three-quarters': 'and three quarters',
  'tap-turns': 'turns from the first thread',
  'turns-done': 'turns',
  'back-off-half': 'back off every half turn',
  'clear-the-chips': 'out with it and clear the chips',
  'at-depth': 'at depth',
  'too-many-turns': 'past the depth; stop',
  'large-end-what': 'large end, how big',
  'small-end-what': 'small end, how big',
  'over-what-length': 'over what length',
  compound: 'compound',
  'set-over-tailstock': 'or set the tailstock over',
  tailstock: 'tailstock',
  'back-by': 'back',
  'on-by': 'further',
  'toward-you': 'toward you',
  'away-from-you': 'away from you',
  'too-steep': 'too steep',
  'too-slow': 'too slow',
  'taper-is-right': 'the taper is right',
  'no-taper': 'no taper',
  tapers: 'tapers',
  'big-at-the-shoulder': 'big at the shoulder',
  'big-at-the-end': 'big at the end',
  'read-both-ends': 'read the shoulder and the end first',
  point: 'point',
  'packing-piece': 'packing piece',
  'under-one-jaw': 'under one jaw',
  'packing-should-be': 'make the packing piece',
  'no-throw-here': 'no throw on this step',
  'throw-too-big': 'too much throw to pack; use the four jaw',
  bar: 'bar',
  'no-set-up-here': 'nothing to set up here',
  'no-reason-here': 'no special reason; it is the plan',
  'why-four-jaw': 'the indicator shows twice the throw, so the work goes half of it',
  'why-high-spot': 'one turn of an offset is one wave on the indicator; the readings place its top',
  'why-edge': 'the finder touches half its tip short of the edge',
  'why-tap': 'depth over pitch gives the turns; backing off breaks the chip',
  'edge-at': 'edge at',
  'other-edge-at': 'other edge at',
  'centre-at': 'centre at',
  width: 'width',
  'dial-at': 'dial at',
  'took-it': 'took',
  'dial-zero': 'dial zero',
  'touched-off': 'touched off',
  // fit
  'wont-start': "won't start",
  tight: 'tight',
  'binds-at-the-shoulder': 'binds at the shoulder',
  slides: 'slides',
  loose: 'loose',
  'take-a-little': 'take a little and try again',
  'file-toward-the-shoulder': 'file toward the shoulder and try again',
  'leave-it-there': 'leave it there',
  'check-with-the-micrometer': 'check it with the micrometer',
  turning: 'turning',
  filing: 'filing',
  polishing: 'polishing',
  // the assistant
  listening: 'listening',
  'not-listening': 'not listening',
  louder: 'louder',
  quieter: 'quieter',
  slower: 'slower',
  'on-the-screen': 'on the screen',
  'memo-kept': 'memo kept',
  degrees: 'degrees',
  'spindle-stopped': 'spindle stopped first',
} as const satisfies Readonly<Record<string, string>>;

export type PhraseId = keyof typeof PHRASES;

/** A sentence of an answer: its pieces and a full stop. */
export const sentence = (...pieces: readonly (Piece | PhraseId)[]): readonly Piece[] => [...pieces.map(piece), { say: 'stop' }];
/** A question of an answer: its pieces and a question mark. */
export const question = (...pieces: readonly (Piece | PhraseId)[]): readonly Piece[] => [...pieces.map(piece), { say: 'asks' }];

const piece = (from: Piece | PhraseId): Piece => (typeof from === 'string' ? { say: 'phrase', phrase: from } : from);

export const size = (length: Length): Piece => ({ say: 'size', length });
export const amount = (length: Length): Piece => ({ say: 'amount', length });
export const bareAmount = (length: Length): Piece => ({ say: 'bare-amount', length });
export const count = (number: number): Piece => ({ say: 'count', count: number });
/** A breath inside a sentence. */
export const comma: Piece = { say: 'comma' };
export const line = (text: string): Piece => ({ say: 'line', text });
