/**
 * Breaks each row of the phrasebook's number tables on purpose, one at a time, and holds what is left against the corpus, the
 * rows of the shapes, the decisions and a sample of both grids. Prints the score and what is not noticed; docs/phrasebook.md
 * explains those. One process, no test runner: the modules of the room are evaluated anew for each broken row, from memory.
 * Run: npx tsx scripts/mutate-phrasebook.ts [TABLE]…
 */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Script } from 'node:vm';
import ts from 'typescript';
import * as job from '../src/job/index.ts';
import * as measure from '../src/measure/index.ts';
import type * as Phrasebook from '../src/phrasebook/index.ts';
import { CONTEXTS } from '../tests/phrasebook/contexts.ts';
import { corpus, got, wanted } from '../tests/phrasebook/corpus.ts';
import { CUT_ROWS, DECISIONS, INSTRUMENT_ROWS, LIMIT_ROWS, momentOf, SHAPE_ROWS } from '../tests/phrasebook/rows.ts';

const print = (line: string): void => void process.stdout.write(`${line}\n`);
const room = fileURLToPath(new URL('../src/phrasebook/', import.meta.url));

const sources = new Map<string, string>();
for (const folder of ['', 'commands/'])
  for (const name of readdirSync(join(room, folder)))
    if (name.endsWith('.ts')) sources.set(folder + name, readFileSync(join(room, folder, name), 'utf8'));

type Exports = Record<string, unknown>;
type Body = (exports: Exports, require: (path: string) => unknown) => void;
const compile = (text: string): Body => {
  const { outputText } = ts.transpileModule(text, {
    compilerOptions: { module: ts.ModuleKind.CommonJS, target: ts.ScriptTarget.ES2022, verbatimModuleSyntax: false },
  });
  return new Script(`(function (exports, require) {${outputText}\n})`).runInThisContext() as Body;
};
const bodies = new Map([...sources].map(([name, text]) => [name, compile(text)]));
const outside: Readonly<Record<string, unknown>> = { '../measure/index.ts': measure, '../job/index.ts': job };

/** The room as it is with one file's text replaced. */
function roomWith(file: string, text: string): typeof Phrasebook {
  const loaded = new Map<string, Exports>();
  const load = (name: string): Exports => {
    const known = loaded.get(name);
    if (known !== undefined) return known;
    const exports: Exports = {};
    loaded.set(name, exports);
    const body = name === file ? compile(text) : bodies.get(name);
    if (body === undefined) throw new Error(`there is no ${name}`);
    body(exports, (path) => {
      const full = join(dirname(name), path);
      return outside[full] ?? load(full);
    });
    return exports;
  };
  return load('index.ts') as unknown as typeof Phrasebook;
}

const nm = (text: string): number => {
  const read = measure.parseLength(text, 'inch');
  if (!read.ok) throw new Error(`"${text}" is no length`);
  return read.value;
};
const inNm = (to: string): string => to.replace(/[\d.]+(in|mm)/g, (size) => String(nm(size)));
const said = (heard: job.Heard<number>): string =>
  heard.as === 'one' ? `one ${heard.value}` : heard.as === 'either' ? `either ${heard.values.join(' ')}` : `none ${heard.reason}`;
const lines = corpus.flatMap((each) => each.lines).map((line) => ({ line, to: wanted(line) }));

/** What notices that a room is broken; null where nothing does. */
function noticedBy(book: typeof Phrasebook): string | null {
  const letters: Readonly<Record<number, string>> = { 1: '', 0.6: 'a', 0.2: 'r', 0.03: 's' };
  const readings = (words: string, slot: job.NumberSlot, unit: measure.DisplayUnit): string => {
    const best = new Map<number, number>();
    for (const each of book.readNumber(words.split(' '), slot, unit)) {
      if (each.kind !== 'length') continue;
      const value = Number((unit === 'inch' ? measure.toInches(each.value) : measure.toMillimetres(each.value)).toFixed(6));
      best.set(value, Math.max(best.get(value) ?? 0, each.prior));
    }
    return [...best]
      .sort(([a], [b]) => a - b)
      .map(([value, prior]) => `${value}${letters[prior] ?? '?'}`)
      .join(' ');
  };
  for (const [, words, inch, millimetre] of SHAPE_ROWS)
    if (readings(words, 'size', 'inch') !== inch || readings(words, 'size', 'millimetre') !== millimetre) return 'shapes';
  for (const [slot, words, millimetre] of CUT_ROWS) if (readings(words, slot, 'millimetre') !== millimetre) return 'shapes';
  for (const { context, words, to } of DECISIONS) {
    const moment = CONTEXTS[context];
    if (said(book.resolveLength(book.readNumber(words.split(' '), 'size', moment.unit), 'size', moment)) !== inNm(to))
      return 'decisions';
  }
  for (const row of LIMIT_ROWS) {
    const moment = momentOf(row);
    const numbers = book.readNumber(row.words.split(' '), row.slot, moment.unit);
    if (row.slot === 'temperature') {
      const heard = book.resolveTemperature(numbers, moment);
      if ((heard.as === 'one' ? `one ${measure.toCelsius(heard.value)}` : said(heard)) !== row.to) return 'limits';
    } else if (said(book.resolveLength(numbers, row.slot, moment)) !== inNm(row.to)) return 'limits';
  }
  for (const [instrument, inch, millimetre] of INSTRUMENT_ROWS)
    for (const [moment, places] of [
      [CONTEXTS['inch .620'], inch],
      [CONTEXTS['mm 19'], millimetre],
    ] as const)
      for (const more of [0, 1]) {
        const words = ['point', ...Array.from({ length: places + more }, () => 'six')];
        const seen = { ...moment, instrument, window: null, from: null, last: null };
        const heard = book.resolveLength(book.readNumber(words, 'size', moment.unit), 'size', seen);
        if ((heard.as === 'one') !== (more === 0)) return 'instruments';
      }
  for (const { line, to } of lines) if (got(line, book.interpret(line.words, CONTEXTS[line.context])) !== to) return 'corpus';
  for (const [unit, step, last] of [
    ['inch', 2_540, 120_000],
    ['millimetre', 5_000, 60_000],
  ] as const)
    for (let index = 1; index <= last; index += 97) {
      const value = measure.nanometres(index * step);
      const about = {
        ...CONTEXTS[unit === 'inch' ? 'inch nothing' : 'mm nothing'],
        window: { low: value, aim: value, high: value },
      };
      if (said(book.resolveLength(book.readNumber(book.sizeWords(value, unit), 'size', unit), 'size', about)) !== `one ${value}`)
        return 'grids';
    }
  return null;
}

type Mutant = { readonly table: string; readonly file: string; readonly what: string; readonly text: string };

/** One mutant for each match of a pattern between two marks of a file. */
function* broken(
  table: string,
  file: string,
  from: string,
  to: string,
  pattern: RegExp,
  as: (match: RegExpExecArray) => readonly string[],
): Generator<Mutant> {
  const source = sources.get(file) ?? '';
  const start = source.indexOf(from);
  const end = source.indexOf(to, start);
  if (start < 0 || end < 0) throw new Error(`${file} has no "${from}" … "${to}"`);
  for (const match of source.slice(start, end).matchAll(pattern))
    for (const instead of as(match)) {
      const at = start + match.index;
      if (/^ *\/\//.test(source.slice(source.lastIndexOf('\n', at) + 1, at))) continue;
      const line = source.slice(0, at).split('\n').length;
      yield {
        table,
        file,
        what: `${file}:${line} ${match[0].trim()} → ${instead.trim() || 'nothing'}`,
        text: source.slice(0, at) + instead + source.slice(at + match[0].length),
      };
    }
}

const LOWER: Readonly<Record<string, string>> = { habit: 'rare', also: 'stretch', rare: 'habit', stretch: 'habit' };
const ENTRY = /(habit|also|rare|stretch)\((\d)\)/g;
const WORD = /(?<=[`'"[(| ]|^)[a-z]+(?=[`'"\])| \n]|$)/gm;
function* mutants(): Generator<Mutant> {
  yield* broken(
    'places of the point',
    'placements.ts',
    'const INCH',
    '/** What the figures are of',
    ENTRY,
    ([, name = '', places = '']) => [`${name}(${Number(places) + 1})`, `${LOWER[name] ?? ''}(${places})`],
  );
  yield* broken('numerals', 'numerals.ts', 'export const DIGITS', 'const values', /'[a-z]+'/g, () => ["'zzz'"]);
  yield* broken('spellings', 'spellings.ts', 'const SPELLINGS', '};', /\[["'][a-z']+["'](?=[,\]])/g, () => ["['zzz'"]);
  yield* broken('fillers', 'restarts.ts', 'export const FILLERS', '};', /^ {2}[a-z]+:/gm, () => ['  zzz:']);
  yield* broken('restarts', 'restarts.ts', 'export const RESTARTS', '];', /words: '[a-z ]+'/g, () => ["words: 'zzz'"]);
  yield* broken('parts of an inch', 'meaning-of-parts.ts', 'const SIXTY_FOURTHS_OF', '};', /\d+/g, ([number = '']) => [
    String(Number(number) + 1),
  ]);
  yield* broken(
    'written figures',
    'written-figures.ts',
    'const PARTS',
    'const figureByFigure',
    /: \['[a-z ]+', '[a-z ]+'\]|: '[a-z]+'/g,
    ([row = '']) => [row.replaceAll(/'[a-z ]+'/g, "'zzz'")],
  );
  yield* broken(
    'places of instruments',
    'resolve.ts',
    'const PLACES',
    'type Weighed',
    /(?<=inch: |millimetre: )\d/g,
    ([number = '']) => [String(Number(number) + 1), String(Number(number) - 1)],
  );
  yield* broken(
    'numbers of the rule',
    'resolve.ts',
    'export const RESOLVE',
    '} as const;',
    /(?<=[ (])\d[\d._]*/g,
    ([number = '']) => [String(Number(number.replaceAll('_', '')) * 1.6)],
  );
  yield* broken('number rules', 'number-rules.ts', '  hundreds:', '  // What the ear listens for', WORD, () => ['zzz']);
}

const only = process.argv.slice(2);
const tally = new Map<string, { made: number; noticed: number }>();
const survivors: string[] = [];
if (noticedBy(roomWith('', '')) !== null) throw new Error('the unbroken room must pass everything');
for (const { table, file, what, text } of mutants()) {
  if (only.length > 0 && !only.includes(table)) continue;
  let noticed: string | null;
  try {
    noticed = noticedBy(roomWith(file, text));
  } catch {
    noticed = 'it threw';
  }
  const row = tally.get(table) ?? { made: 0, noticed: 0 };
  tally.set(table, { made: row.made + 1, noticed: row.noticed + (noticed === null ? 0 : 1) });
  if (noticed === null) survivors.push(what);
}
for (const [table, { made, noticed }] of tally) print(`${table}: ${noticed} of ${made} noticed`);
const all = [...tally.values()].reduce((sum, row) => ({ made: sum.made + row.made, noticed: sum.noticed + row.noticed }), {
  made: 0,
  noticed: 0,
});
print(`all: ${all.noticed} of ${all.made} noticed (${((100 * all.noticed) / all.made).toFixed(1)} %)`);
for (const what of survivors) print(`  not noticed: ${what}`);
