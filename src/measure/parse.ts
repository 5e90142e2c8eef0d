import { fail, ok, type Result } from './result.ts';
import { nanometres, NM_PER_INCH, NM_PER_MM, NM_PER_TENTH_THOU, NM_PER_THOU, NM_PER_MICROMETRE, type Length } from './length.ts';
import type { DisplayUnit } from './format.ts';

/** Why a typed length was not read. `at` is where in the text the trouble starts, from 0. */
export type LengthError =
  | { readonly key: 'empty' }
  | { readonly key: 'not-a-length'; readonly text: string; readonly at: number }
  | { readonly key: 'zero-denominator'; readonly text: string }
  | { readonly key: 'too-large'; readonly text: string };

/** The longest length that is read: 100 m, far over any lathe; more is a slip of the finger. */
const LARGEST_NM = 100_000 * NM_PER_MM;

const UNITS: ReadonlyMap<string, number> = new Map([
  ['in', NM_PER_INCH],
  ['inch', NM_PER_INCH],
  ['inches', NM_PER_INCH],
  ['"', NM_PER_INCH],
  ['”', NM_PER_INCH],
  ['″', NM_PER_INCH],
  ['ft', 12 * NM_PER_INCH],
  ['foot', 12 * NM_PER_INCH],
  ['feet', 12 * NM_PER_INCH],
  ["'", 12 * NM_PER_INCH],
  ['’', 12 * NM_PER_INCH],
  ['′', 12 * NM_PER_INCH],
  ['thou', NM_PER_THOU],
  ['tenth', NM_PER_TENTH_THOU],
  ['tenths', NM_PER_TENTH_THOU],
  ['mm', NM_PER_MM],
  // The sign for micro has two code points that look the same.
  ['\u00b5m', NM_PER_MICROMETRE],
  ['\u03bcm', NM_PER_MICROMETRE],
  ['um', NM_PER_MICROMETRE],
]);

/** A number, a fraction, a run of letters, or any other sign by itself. */
const TOKEN = /\d*\.?\d+\/\d+|\d+\.?\d*|\.\d+|[a-z\u00b5\u03bc]+|\S/gu;
const DECIMAL = /^(?=\.?\d)(\d*)(?:\.(\d*))?$/;
const FRACTION = /^(\d+)\/(\d+)$/;

/** A number as it was written, exact: `.627` is 627 over 1000, `5/16` is 5 over 16. */
type Written = { readonly over: bigint; readonly under: bigint; readonly form: 'whole' | 'decimal' | 'fraction' };

function written(token: string): Written | null {
  const fraction = FRACTION.exec(token);
  if (fraction !== null) return { over: BigInt(fraction[1] ?? ''), under: BigInt(fraction[2] ?? ''), form: 'fraction' };
  const decimal = DECIMAL.exec(token);
  if (decimal === null) return null;
  const [, whole = '', part = ''] = decimal;
  return { over: BigInt(whole + part), under: 10n ** BigInt(part.length), form: part === '' ? 'whole' : 'decimal' };
}

/** A written number of units in nanometres, rounded once to the nearest, half up (numbers are written without a sign). */
const toNanometres = ({ over, under }: Written, nmPerUnit: number): bigint =>
  (over * BigInt(nmPerUnit) * 2n + under) / (under * 2n);

/**
 * Reads a length as a machinist types it: `.627`, `0.6275"`, `15.94mm`, `1 5/16`, `5/16"`, `2' 6"`, `2 thou`, `-0.05 mm`.
 * A number without a unit is in `unit`; after feet only an inch may go unnamed, and only where inches are the unit. Every digit
 * counts: the value is the nearest nanometre to what is written, up to 100 m either way.
 */
export function parseLength(text: string, unit: DisplayUnit): Result<Length, LengthError> {
  const tokens = [...text.toLowerCase().matchAll(TOKEN)].map((match) => ({ text: match[0], at: match.index }));
  const [first] = tokens;
  if (first === undefined) return fail({ key: 'empty' });
  const wrongAt = (index: number): Result<Length, LengthError> =>
    fail({ key: 'not-a-length', text, at: tokens[index]?.at ?? text.length });

  const negative = first.text === '-' || first.text === '−';
  let index = negative || first.text === '+' ? 1 : 0;
  let total = 0n;
  let lastUnit = Number.POSITIVE_INFINITY;
  do {
    // One group is a number, perhaps a fraction after it, perhaps a unit. `2' 6"` is two groups, the larger unit first.
    const begin = index;
    const numbers: Written[] = [];
    for (let number = written(tokens[index]?.text ?? ' '); number !== null; number = written(tokens[index]?.text ?? ' ')) {
      if (number.under === 0n) return fail({ key: 'zero-denominator', text });
      numbers.push(number);
      index += 1;
    }
    const [one, two] = numbers;
    if (one === undefined) return wrongAt(index);
    if (numbers.length > 2 || (two !== undefined && (one.form !== 'whole' || two.form !== 'fraction'))) return wrongAt(begin + 1);

    const unitToken = tokens[index];
    const named = unitToken === undefined ? undefined : UNITS.get(unitToken.text);
    if (unitToken !== undefined && named === undefined) return wrongAt(index);
    if (named === undefined && lastUnit !== Number.POSITIVE_INFINITY && unit !== 'inch') return wrongAt(begin);
    const nmPerUnit = named ?? (unit === 'inch' ? NM_PER_INCH : NM_PER_MM);
    if (nmPerUnit >= lastUnit) return wrongAt(begin);
    lastUnit = nmPerUnit;
    if (named !== undefined) index += 1;

    for (const number of numbers) total += toNanometres(number, nmPerUnit);
    if (total > LARGEST_NM) return fail({ key: 'too-large', text });
  } while (index < tokens.length);
  return ok(nanometres(Number(negative ? -total : total)));
}
