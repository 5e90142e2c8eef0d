import {
  A_ROUND,
  endsOf,
  perRoundFrom,
  roundsBeforeReading,
  roundsLeftFor,
  sizeOf,
  type Advice,
  type RoundsLeft,
  type Slip,
  type Why,
} from '../coach/index.ts';
import { nanometres, roundedQuotient, type InstrumentKind, type Length } from '../measure/index.ts';
import type { Bench } from './bench.ts';
import { amount, comma, count, sentence, type PhraseId, type Piece } from './reply.ts';

/** Filing as it stands: the rounds before the next reading, those left in all, and where. */
export type FilingPlan = {
  readonly left: Length;
  readonly before: number;
  readonly rounds: RoundsLeft;
  readonly where: 'chuck-end' | 'free-end' | 'all-along';
  /** So many stretches were measured. */
  readonly stretches: number;
};

/** The rounds of filing that an advice to file comes to; null for any other advice. */
export function filingPlan(bench: Bench): FilingPlan | null {
  const { advice, model, shop, filed } = bench;
  if (advice.kind !== 'file') return null;
  const each = perRoundFrom(shop.filing, filed);
  const left = { mean: advice.onPart, spread: sizeOf(model).spread };
  const ends = endsOf(model);
  const lowest =
    advice.where === 'all-along' ? Math.min(...ends.map(({ mean }) => mean)) : ends[advice.where === 'free-end' ? 1 : 0].mean;
  const before = roundsBeforeReading(left, lowest - shop.wishes.window.low, each, filed.length > 0);
  return { left: advice.onPart, before, rounds: roundsLeftFor(left, each), where: advice.where, stretches: filed.length };
}

const FILE: Readonly<Record<FilingPlan['where'], Readonly<Record<'filing' | 'polishing', PhraseId>>>> = {
  'all-along': { filing: 'file', polishing: 'polish' },
  'chuck-end': { filing: 'file-at-the-shoulder', polishing: 'polish-at-the-shoulder' },
  'free-end': { filing: 'file-at-the-end', polishing: 'polish-at-the-end' },
};

/** An amount on the part, on the dial; cuts are whole steps of it. */
export const dialOf = (bench: Bench, onPart: Length): Length =>
  nanometres(roundedQuotient(onPart, bench.shop.perDial, 'toward-zero'));

/** What to do next, as it is said: numbers first. */
export function advicePieces(bench: Bench): readonly (readonly Piece[])[] {
  const { advice } = bench;
  switch (advice.kind) {
    case 'cut':
      return cutPieces(bench, advice);
    case 'measure': {
      const cool = advice.cool ? [sentence('let-it-cool')] : [];
      const fine = advice.instrument === 'micrometer' && bench.model.fine === 0 && bench.model.read > 0;
      if (fine)
        return [
          ...cool,
          sentence('micrometer-now', ...(advice.place === 'chuck-end' ? [comma, 'at-the-shoulder' as const] : [])),
        ];
      return [...cool, sentence(advice.place === 'chuck-end' ? 'measure-at-the-shoulder' : 'measure-at-the-end')];
    }
    case 'file': {
      if (leftForLater(bench)) return [sentence(leftFor(bench))];
      const plan = filingPlan(bench);
      const phrase = FILE[advice.where][bench.shop.filing];
      if (plan === null) return [sentence(phrase)];
      // No whole round is safe any more: the mate tells more than another stroke.
      if (plan.before === 0) return [sentence('a-stroke-and-try')];
      return [sentence(phrase, comma, ...stretchPieces(bench, plan)), ...leftPieces(bench, plan)];
    }
    case 'touch-off':
      return [sentence('touch-off-again')];
    case 'accept':
      return [sentence('at-size')];
    case 'stop':
      return [sentence(advice.why === 'under-for-certain' ? 'under-for-certain' : 'cannot-be-told')];
  }
}

const THEN = { rounds: 'rounds-then-measure', strokes: 'strokes-then-measure', seconds: 'seconds-then-measure' } as const;
const LEFT = { rounds: 'rounds-left', strokes: 'strokes-left', seconds: 'seconds-left' } as const;

/** The filing before the next reading, counted as it was counted last: "two rounds, then measure". */
function stretchPieces({ counted }: Bench, { before }: FilingPlan): readonly (Piece | PhraseId)[] {
  if (counted === 'rounds' && before === 1) return ['one-round-then-measure'];
  return [count(before * A_ROUND[counted]), THEN[counted]];
}

/** What is left in all, with its range; nothing where that is the one round that was just told. */
function leftPieces({ counted }: Bench, { before, rounds: { least, most } }: FilingPlan): readonly (readonly Piece[])[] {
  if (most === 1 && before === 1) return [];
  return [sentence(count(least * A_ROUND[counted]), 'to', count(most * A_ROUND[counted]), LEFT[counted])];
}

/** What is left here is left for a later step with file or cloth. */
const leftForLater = ({ shop, working }: Bench): boolean => shop.filedLater && working === 'turning';
const leftFor = ({ shop }: Bench): PhraseId => (shop.filing === 'polishing' ? 'why-for-the-cloth' : 'why-for-the-file');

/** The reason for what is advised now; filing is not why a thing is polished. */
export function whyOf(bench: Bench): PhraseId {
  const { why } = bench.advice;
  return why === 'left-for-the-file' ? leftFor(bench) : WHY[why];
}

function cutPieces(bench: Bench, advice: Extract<Advice, { kind: 'cut' }>): readonly (readonly Piece[])[] {
  if (advice.onPart === 0) return [sentence('same-dial-again')];
  const one = amount(dialOf(bench, advice.onPart));
  const first =
    advice.passes === 1
      ? sentence('take', one, 'on-the-dial')
      : sentence('take', one, 'on-the-dial', comma, count(advice.passes), 'times');
  return advice.then === null ? [first] : [first, sentence('then', amount(dialOf(bench, advice.then)), comma, 'and-measure')];
}

/** The reason for an advice, in one sentence. */
const WHY: Readonly<Record<Why, PhraseId>> = {
  'no-reading-since-the-cut': 'why-no-reading',
  'warm-from-roughing': 'why-warm',
  'caliper-cannot-tell': 'why-caliper',
  'too-near-the-limit': 'why-too-near',
  'ends-may-differ': 'why-ends',
  'roughing-depth': 'why-roughing',
  'two-equal-passes': 'why-two-equal',
  'like-the-cut-before': 'why-like-before',
  'takes-more-than-asked': 'why-takes-more',
  'takes-less-than-asked': 'why-takes-less',
  'risk-of-going-under': 'why-risk',
  'thinner-than-the-tool-takes': 'why-too-thin',
  'inside-with-uncertainty': 'why-accept',
  'window-narrower-than-instrument': 'why-cannot-tell',
  'under-for-certain': 'why-under',
  'probably-under': 'why-cannot-tell',
  'lost-motion': 'why-lost-motion',
  'one-end-is-high': 'why-one-end',
  'binds-there': 'why-binds',
  'left-for-the-file': 'why-for-the-file',
};

/** The likely slip behind a reading that contradicts the cuts or the filing, as it is said; a caliper has no thimble. */
export function slipPhrase(slip: Slip, instrument: InstrumentKind | null, filed: boolean): PhraseId {
  if (slip === 'thimble-turn' && instrument !== 'micrometer') return 'slip-round';
  return slip === 'unexplained' && filed ? 'slip-filed' : SLIPS[slip];
}

/** What makes it look like that slip, in one sentence. */
export const SLIP_WHY: Readonly<Record<Slip, PhraseId>> = {
  'twice-the-cut': 'why-slip-twice',
  'half-the-cut': 'why-slip-half',
  'a-turn-out': 'why-slip-turn',
  'ten-divisions-out': 'why-slip-ten',
  'before-the-cut': 'why-slip-before',
  'thimble-turn': 'why-slip-thimble',
  'warm-part': 'why-slip-warm',
  'wrong-place': 'why-slip-place',
  unexplained: 'why-slip-unexplained',
};

const SLIPS: Readonly<Record<Slip, PhraseId>> = {
  'twice-the-cut': 'slip-twice',
  'half-the-cut': 'slip-half',
  'a-turn-out': 'slip-turn',
  'ten-divisions-out': 'slip-ten',
  'before-the-cut': 'slip-before',
  'thimble-turn': 'slip-thimble',
  'warm-part': 'slip-warm',
  'wrong-place': 'slip-place',
  unexplained: 'slip-unexplained',
};
