import type { Context, Heard, Intent } from '../job/index.ts';
import { fail, nanometres, NM_PER_INCH, NM_PER_MM, ok, parseLength, type Length } from '../measure/index.ts';
import { PRIOR, type Candidate } from './candidate.ts';
import { interpret, type Interpretation } from './interpret.ts';
import { resolveLength } from './resolve.ts';

const FIGURES_ONLY = /^\d{1,6}$/;
const OFFSET = /^[+-]/;
const NAMED_UNIT = /[a-zµ"”'’]/i;
const HAS_POINT = /[.,]/;

const reading = (value: Heard<Length>): Interpretation => {
  const intent: Intent = { type: 'reading', spoken: 'typed', instrument: null, thing: null, place: null, value };
  return ok(intent);
};

/**
 * Reads a typed line: a size (`.627`, `1 5/16`, `15.94mm`), figures without their point (`627` where about .62 is awaited),
 * an offset from the target (`+2`, `-.001`), or any phrase of the table.
 */
export function interpretTyped(text: string, context: Context): Interpretation {
  const typed = text.trim().replace(/(\d),(\d)/g, '$1.$2');
  if (OFFSET.test(typed)) {
    const by = offsetLengths(typed.slice(1).trim(), context);
    if (by.length === 0) return fail({ key: 'not-a-command', words: typed });
    const signed = by.map((each) => nanometres(typed.startsWith('-') ? -each : each));
    if (context.awaited === 'indicator')
      return reading(
        resolveLength(
          signed.map((value) => asLength(value, context, 0)),
          'indicator',
          context,
        ),
      );
    return reading(
      resolveLength(
        signed.map((value) => ({ kind: 'from-target', by: value, prior: PRIOR.habit })),
        'size',
        context,
      ),
    );
  }
  // An indicator is counted in thou or hundredths, typed as said.
  if (context.awaited === 'indicator' && FIGURES_ONLY.test(typed))
    return reading(
      resolveLength(
        offsetLengths(typed, context).map((value) => asLength(value, context, 0)),
        'indicator',
        context,
      ),
    );
  if (/^[\d.]/.test(typed)) {
    const candidates = FIGURES_ONLY.test(typed) ? withoutPoint(typed, context) : written(typed, context);
    return candidates === null
      ? fail({ key: 'not-a-command', words: typed })
      : reading(resolveLength(candidates, 'size', context));
  }
  return interpret(typed, context);
}

const asLength = (value: Length, context: Context, places: number, prior: number = PRIOR.habit): Candidate => ({
  kind: 'length',
  value,
  unit: context.unit,
  named: false,
  places,
  signed: false,
  prior,
});

/** A size with a point, a fraction or a unit says exactly what it is. */
function written(text: string, context: Context): Candidate[] | null {
  const read = parseLength(text, context.unit);
  if (!read.ok) return null;
  const isDecimal = HAS_POINT.test(text) && !NAMED_UNIT.test(text) && !text.includes('/');
  // Trailing noughts are what a caliper that types sends; they claim nothing.
  const claimed = isDecimal ? text.slice(text.search(HAS_POINT) + 1).replace(/0+$/, '') : '';
  return [asLength(read.value, context, claimed.length)];
}

/** Figures alone: the point may stand in front of any of the last four, most likely where the shop leaves it out. */
function withoutPoint(text: string, context: Context): Candidate[] {
  const scale = context.unit === 'inch' ? NM_PER_INCH : NM_PER_MM;
  const usual = context.unit === 'inch' ? [3, 4, 0] : [2, 0, 3];
  return usual.flatMap((places, rank) => {
    const nm = (Number(text) * scale) / 10 ** places;
    if (places > text.length + (context.unit === 'inch' ? 2 : 1)) return [];
    // Fewer figures than a tenth of a thou needs are hardly ever meant as tenths.
    const prior = rank === 0 ? PRIOR.habit : text.length < places ? PRIOR.rare : PRIOR.also;
    return [asLength(nanometres(nm), context, 0, prior)];
  });
}

/** `+2` is two thou or two hundredths; with a point, a fraction or a unit it is what it says. */
function offsetLengths(text: string, context: Context): Length[] {
  const read = parseLength(text, context.unit);
  if (!read.ok) return [];
  if (!FIGURES_ONLY.test(text)) return [read.value];
  const scale = context.unit === 'inch' ? NM_PER_INCH / 1000 : NM_PER_MM / 100;
  return [nanometres(Number(text) * scale)];
}
