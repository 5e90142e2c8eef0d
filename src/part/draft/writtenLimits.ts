import {
  fail,
  minus,
  ok,
  parseLength,
  plus,
  type DisplayUnit,
  type Length,
  type LengthError,
  type Result,
} from '../../measure/index.ts';
import {
  boreWindow,
  fitWindow,
  HAND_FITS,
  handClearances,
  inchFit,
  isoLimits,
  parseInchFit,
  seatLimits,
  type BearingRing,
  type HandFit,
  type MeasuredRing,
  type SizeLimits,
} from '../../trade/index.ts';

/** A mate as far as a size that is fitted to it needs it. A bore counts at its smallest reading, a width at its largest. */
export type KnownMate = {
  readonly size: Length;
  readonly nominal: Length;
  readonly uncertainty: Length;
  readonly holds: 'shaft' | 'length' | 'hole';
  /** The ring of a bearing, whose seats have classes of their own; and the ring as it was measured. */
  readonly ring: BearingRing | null;
  readonly measured: MeasuredRing | null;
};

/** Why limits were not read. */
export type LimitsFault =
  | { readonly key: 'size'; readonly error: LengthError }
  | { readonly key: 'no-mate'; readonly fit: string }
  | { readonly key: 'no-such-fit'; readonly text: string }
  | { readonly key: 'upside-down' };

/** Limits as read. `fit` where a word of a fit made them; `unproven` where the mate is known too badly to promise it. */
export type WrittenLimits = SizeLimits & { readonly fit: string | null; readonly unproven: boolean };

const size = (text: string, unit: DisplayUnit): Result<Length, LimitsFault> => {
  const read = parseLength(text, unit);
  return read.ok ? read : fail({ key: 'size', error: read.error });
};

const between = (low: Length, high: Length): Result<WrittenLimits, LimitsFault> =>
  low > high ? fail({ key: 'upside-down' }) : ok({ low, high, fit: null, unproven: false });

const isHandFit = (word: string): word is HandFit => (HAND_FITS as readonly string[]).includes(word);

/** The shaft that a fit by hand wants. Where the bore is not known well enough to promise it, its readings are taken as true. */
function byHand(fit: HandFit, mate: KnownMate): WrittenLimits {
  const clearances = handClearances(fit, mate.size);
  const over = mate.holds === 'hole';
  const proven = (over ? boreWindow : fitWindow)(mate.size, mate.uncertainty, clearances);
  if (proven.ok) return { low: proven.value.low, high: proven.value.high, fit, unproven: false };
  return over
    ? { low: plus(mate.size, clearances.least), high: plus(mate.size, clearances.most), fit, unproven: true }
    : { low: minus(mate.size, clearances.most), high: minus(mate.size, clearances.least), fit, unproven: true };
}

const DESIGNATION = /^(.*?)\s*([a-zA-Z]{1,2}\d{1,2})$/;
const PLAY = /^play\s+(.+?)\s*(?:\bto\b|–|-)\s*(.+)$/i;
const PLUS_MINUS = /^(.+?)\s*(?:±|\+\/-|\+-)\s*(.+)$/;
const TWO_SIGNS = /^(.+?)\s*\+\s*([^+-]+?)\s*\/?\s*[-−]\s*([^+-]+)$/;
const RANGE = /^(.+?)\s*(?:\bto\b|…|\.\.\.?|–|(?<=[\d"m])\s*-\s*(?=[.\d]))\s*(.+)$/i;

/** A fit by its designation: with a size before it (`25h6`), or alone and then at its mate's own size (`g6`, `RC3`). */
function designated(text: string, unit: DisplayUnit, mate: KnownMate | null): Result<WrittenLimits, LimitsFault> | null {
  const named = parseInchFit(text);
  if (named.ok) {
    if (mate === null) return fail({ key: 'no-mate', fit: named.value });
    const fit = inchFit(mate.nominal, named.value);
    return fit.ok ? ok({ ...fit.value.shaft, fit: named.value, unproven: false }) : fail({ key: 'no-such-fit', text });
  }
  const parts = DESIGNATION.exec(text);
  const [before, letters] = [parts?.[1], parts?.[2]];
  if (before === undefined || letters === undefined || /^(mm|in|um)/i.test(letters)) return null;
  if (before === '' && mate === null) return fail({ key: 'no-mate', fit: letters });
  const basic = before === '' ? ok(mate?.nominal as Length) : size(before, unit);
  if (!basic.ok) return basic;
  const ring = before === '' ? (mate?.ring ?? null) : null;
  const limits = ring === null ? isoLimits(basic.value, letters) : seatLimits(ring, basic.value, letters, mate?.measured ?? null);
  return limits.ok ? ok({ ...limits.value, fit: letters, unproven: false }) : fail({ key: 'no-such-fit', text });
}

/**
 * Limits as a machinist writes them: `.998 to .999`, `.998-.999`, `1.250 ±.002`, `1.250 +.001 -.002`, `25h6`, a size alone (then
 * `general` either way), or a fit to the mate: `slide`, `g6`, `RC3`; a length that holds a width with end play: `play .004 to
 * .008`. A number without a unit is in `unit`. Exact but where a fit rounds.
 */
export function readWrittenLimits(
  text: string,
  unit: DisplayUnit,
  general: Length,
  mate: KnownMate | null,
): Result<WrittenLimits, LimitsFault> {
  const trimmed = text.trim();
  const word = trimmed.toLowerCase().replace(/\s+fit$/, '');
  if (isHandFit(word))
    return mate === null || mate.holds === 'length' ? fail({ key: 'no-mate', fit: word }) : ok(byHand(word, mate));
  const play = PLAY.exec(trimmed);
  if (play !== null) {
    if (mate === null || mate.holds !== 'length') return fail({ key: 'no-mate', fit: 'play' });
    const least = size(play[1] ?? '', unit);
    const most = size(play[2] ?? '', unit);
    if (!least.ok) return least;
    if (!most.ok) return most;
    const made = between(plus(mate.size, least.value), plus(mate.size, most.value));
    return made.ok ? ok({ ...made.value, fit: 'play' }) : made;
  }
  const either = PLUS_MINUS.exec(trimmed);
  const signs = either === null ? TWO_SIGNS.exec(trimmed) : null;
  const signed = either === null ? signs : ([null, either[1], either[2], either[2]] as const);
  if (signed !== null) {
    const [middle, over, under] = [1, 2, 3].map((at) => size(signed[at] ?? '', unit)) as [
      Result<Length, LimitsFault>,
      Result<Length, LimitsFault>,
      Result<Length, LimitsFault>,
    ];
    if (!middle.ok) return middle;
    if (!over.ok) return over;
    return under.ok ? between(minus(middle.value, under.value), plus(middle.value, over.value)) : under;
  }
  const range = RANGE.exec(trimmed);
  if (range !== null) {
    const low = size(range[1] ?? '', unit);
    const high = size(range[2] ?? '', unit);
    if (!low.ok) return low;
    return high.ok ? between(low.value, high.value) : high;
  }
  const fit = designated(trimmed, unit, mate);
  if (fit !== null) return fit;
  const alone = size(trimmed, unit);
  return alone.ok ? between(minus(alone.value, general), plus(alone.value, general)) : alone;
}

/** What is wrong with limits, in one line, and how they are written. */
export function describeLimitsFault(fault: LimitsFault): string {
  switch (fault.key) {
    case 'size':
      return describeLengthError(fault.error);
    case 'no-mate':
      return fault.fit === 'play'
        ? '“play” is over a width: choose what it holds'
        : `“${fault.fit}” is a fit to a mate: choose its mate, or write a size before it`;
    case 'no-such-fit':
      return `“${fault.text}” is no fit of the standard at this size`;
    case 'upside-down':
      return 'the low limit is above the high limit';
  }
}

/** What is wrong with a size, in one line. */
export function describeLengthError(error: LengthError): string {
  switch (error.key) {
    case 'empty':
      return 'a size is wanted';
    case 'not-a-length':
      return `“${error.text.trim()}” is not a size: write .627, 1 5/16, 15.94mm`;
    case 'zero-denominator':
      return `“${error.text.trim()}” divides by nothing`;
    case 'too-large':
      return `“${error.text.trim()}” is longer than any lathe`;
  }
}
