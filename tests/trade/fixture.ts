import { readFileSync } from 'node:fs';
import { parseLength, roundReal, type Length } from '../../src/measure/index.ts';

/** The cases of a table of outside check values; every one names its source. */
export function cases<T>(name: string): (T & { readonly source: string })[] {
  const text = readFileSync(new URL(`../fixtures/trade/${name}.json`, import.meta.url), 'utf8');
  const table = JSON.parse(text) as { readonly note: string; readonly cases: (T & { readonly source: string })[] };
  for (const row of table.cases) if (!/\S/.test(row.source)) throw new Error(`a value of ${name} has no source: ${JSON.stringify(row)}`);
  return table.cases;
}

/** A length of a table, which must name its unit. */
export function size(text: string): Length {
  const read = parseLength(text, 'millimetre');
  if (!read.ok || !/[a-z]$/.test(text)) throw new Error(`"${text}" is no length with a unit`);
  return read.value;
}

/** A number rounded half away from zero to so many places: how a printed value is met "to the last digit". */
export const printed = (value: number, places: number): number => roundReal(Number((value * 10 ** places).toPrecision(12)), 'half-away') / 10 ** places;

/** The value of a result that must be good. */
export function value<T>(result: { readonly ok: true; readonly value: T } | { readonly ok: false; readonly error: unknown }): T {
  if (!result.ok) throw new Error(`refused: ${JSON.stringify(result.error)}`);
  return result.value;
}
