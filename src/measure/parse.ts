import { fail, ok, type Result } from './result.ts';
import { nanometres, NM_PER_INCH, NM_PER_MM, NM_PER_TENTH_THOU, NM_PER_THOU, NM_PER_MICROMETRE, type Length } from './length.ts';
import { roundedQuotient } from './rounding.ts';
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
  ['ft', 12 * NM_PER_INCH],
  ["'", 12 * NM_PER_INCH],
  ['thou', NM_PER_THOU],
  ['tenths', NM_PER_TENTH_THOU],
  ['mm', NM_PER_MM],
  ['µm', NM_PER_MICROMETRE],
  ['um', NM_PER_MICROMETRE],
]);

const DECIMAL = /^(\d*)(?:\.(\d*))?$/;
const FRACTION = /^(\d+)\/(\d+)$/;
const TOKEN = /\d*\.?\d+\/\d+|\d+\.?\d*|\.\d+|[a-zµ]+|["”']|[-+]|\S/giu;

/** Decimal digits times a unit, to the nearest nanometre; digits past the twelfth after the point are not kept. */
function decimalTimes(whole: string, part: string, nmPerUnit: number): number {
  const kept = part.slice(0, 7);
  const scale = 10 ** kept.length;
  return roundedQuotient(Number(`${whole || '0'}${kept}`) * nmPerUnit, scale, 'half-away');
}

/**
 * Reads a length as a machinist types it: `.627`, `0.6275"`, `15.94mm`, `1 5/16`, `5/16"`, `2' 6"`, `2 thou`, `-0.05 mm`.
 * A number without a unit is in `unit`. The value is exact where the text is (fractions to 1/64, 7 inch places, 6 mm places).
 */
export function parseLength(text: string, unit: DisplayUnit): Result<Length, LengthError> {
  const tokens = [...text.matchAll(TOKEN)].map((match) => ({ text: match[0].toLowerCase(), at: match.index }));
  if (tokens.length === 0) return fail({ key: 'empty' });
  const wrong = (at: number): Result<Length, LengthError> => fail({ key: 'not-a-length', text, at });
  const defaultNm = unit === 'inch' ? NM_PER_INCH : NM_PER_MM;

  let sign = 1;
  let index = 0;
  const first = tokens[0];
  if (first !== undefined && (first.text === '-' || first.text === '+')) {
    sign = first.text === '-' ? -1 : 1;
    index = 1;
  }
  let total = 0;
  let groups = 0;
  let lastUnit = Number.POSITIVE_INFINITY;
  while (index < tokens.length) {
    // One group is: a number, perhaps a fraction after it, perhaps a unit. "2' 6\"" is two groups, larger unit first.
    const numbers: { whole: string; part: string; over: number; under: number }[] = [];
    let token = tokens[index];
    while (token !== undefined && /^[\d.]/.test(token.text)) {
      const fraction = FRACTION.exec(token.text);
      const decimal = DECIMAL.exec(token.text);
      if (fraction !== null) {
        const under = Number(fraction[2]);
        if (under === 0) return fail({ key: 'zero-denominator', text });
        numbers.push({ whole: '', part: '', over: Number(fraction[1]), under });
      } else if (decimal !== null && token.text !== '.') {
        numbers.push({ whole: decimal[1] ?? '', part: decimal[2] ?? '', over: 0, under: 1 });
      } else return wrong(token.at);
      index += 1;
      token = tokens[index];
    }
    const [one, two] = numbers;
    if (one === undefined) return wrong(tokens[index]?.at ?? 0);
    const mixed = two !== undefined;
    if (numbers.length > 2 || (mixed && (one.under !== 1 || one.part !== '' || two.under === 1))) return wrong(tokens[index - 1]?.at ?? 0);
    let nmPerUnit = defaultNm;
    if (token !== undefined) {
      const named = UNITS.get(token.text);
      if (named === undefined) return wrong(token.at);
      nmPerUnit = named;
      index += 1;
    }
    if (groups > 0 && nmPerUnit >= lastUnit) return wrong(tokens[index - 1]?.at ?? 0);
    lastUnit = nmPerUnit;
    groups += 1;
    for (const number of numbers) {
      total += decimalTimes(number.whole, number.part, nmPerUnit) + roundedQuotient(number.over * nmPerUnit, number.under, 'half-away');
    }
    if (!(total <= LARGEST_NM)) return fail({ key: 'too-large', text });
  }
  if (groups === 0) return wrong(first?.at ?? 0);
  return ok(nanometres(sign * total));
}
