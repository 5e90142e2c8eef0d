import type { BenchRow } from './row.ts';
import { quantileOf, share } from './statistics.ts';

const unique = <T>(values: readonly T[]): T[] => [...new Set(values)];

function table(headings: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
  return [line(headings), line(headings.map(() => '---')), ...rows.map(line)].join('\n');
}

/** Real words, and whatever must be refused with how often it was not: what share went right,
 * by group and condition, engines side by side. */
function wordsTable(rows: readonly BenchRow[], engines: readonly string[]): string {
  const body = unique(rows.map((row) => row.condition)).flatMap((condition) =>
    unique(rows.filter((row) => row.verdict === null).map((row) => row.group)).map((group) => {
      const cells = engines.map((engine) => {
        const here = rows.filter(
          (row) => row.condition === condition && row.group === group && row.engine === engine && row.verdict === null,
        );
        const right = here.filter((row) => (row.said === '' ? row.heard === null : row.heard === row.said)).length;
        const wrong = here.filter((row) => row.heard !== null && row.heard !== row.said).length;
        const hours = here.reduce((sum, row) => sum + row.audioS, 0) / 3600;
        const more = here.every((row) => row.said === '')
          ? `${wrong} in ${(hours * 60).toFixed(1)} min`
          : `wrong ${share(wrong, here.length)}`;
        return `${share(right, here.length)}, ${more}`;
      });
      return [condition, group, ...cells];
    }),
  );
  return table(['condition', 'group', ...engines.map((engine) => `${engine}: right`)], body);
}

function phrasesTable(rows: readonly BenchRow[], engines: readonly string[]): string {
  const body = unique(rows.map((row) => row.condition)).flatMap((condition) =>
    engines.map((engine) => {
      const here = rows.filter((row) => row.condition === condition && row.engine === engine && row.verdict !== null);
      const count = (as: string): number => here.filter((row) => row.verdict?.as === as).length;
      const words = here.filter((row) => row.heard === row.said).length;
      const silent = here.filter((row) => row.verdict?.silent === true).length;
      return [
        condition,
        engine,
        `${here.length}`,
        share(count('right'), here.length),
        share(here.filter((row) => row.verdict?.as === 'right' && row.verdict.checked).length, here.length),
        share(words, here.length),
        ...['refused', 'asked', 'wrong'].map((as) => share(count(as), here.length)),
        share(silent, here.length),
      ];
    }),
  );
  return table(
    [
      'condition',
      'engine',
      'phrases',
      'right in meaning',
      'of these said back first',
      'right in words',
      'refused',
      'asked',
      'wrong',
      'wrong number, not asked',
    ],
    body,
  );
}

/** Of what was heard with a confidence in each tenth, how much was right: a calibrated engine has the two alike. */
function reliability(rows: readonly BenchRow[], engines: readonly string[]): string {
  const body = Array.from({ length: 10 }, (_, tenth) => {
    const cells = engines.map((engine) => {
      const here = rows.filter(
        (row) => row.engine === engine && row.text !== '' && Math.min(9, Math.floor(row.confidence * 10)) === tenth,
      );
      const right = here.filter((row) => row.said !== '' && row.text === row.said).length;
      return `${here.length}: ${share(right, here.length)}`;
    });
    return [`${tenth / 10} to ${(tenth + 1) / 10}`, ...cells];
  });
  return table(['confidence', ...engines.map((engine) => `${engine}: how many, and right`)], body);
}

function speed(rows: readonly BenchRow[], engines: readonly string[]): string {
  const body = engines.map((engine) => {
    const here = rows.filter((row) => row.engine === engine);
    const factor = here.reduce((sum, row) => sum + row.workMs, 0) / 1000 / here.reduce((sum, row) => sum + row.audioS, 0);
    const processor = here.reduce((sum, row) => sum + row.processorMs, 0) / 1000 / here.reduce((sum, row) => sum + row.audioS, 0);
    const work = here.map((row) => row.workMs);
    const cells = [
      factor.toFixed(3),
      processor.toFixed(3),
      `${quantileOf(work, 0.5).toFixed(0)} ms`,
      `${quantileOf(work, 0.95).toFixed(0)} ms`,
    ];
    return [engine, ...cells];
  });
  return table(
    ['engine', 'real-time factor by the clock', 'by the processor', 'median for an utterance', '95th percentile'],
    body,
  );
}

/** The whole report as Markdown; docs/benchmarks.md says how to read it. */
export function report(rows: readonly BenchRow[]): string {
  const engines = unique(rows.map((row) => row.engine));
  const parts = [
    ['Single words, and what must be refused', wordsTable(rows, engines)],
    ['Synthetic phrases, in their moment', phrasesTable(rows, engines)],
    ['What a confidence is worth', reliability(rows, engines)],
    ['Speed', speed(rows, engines)],
  ] as const;
  return parts.map(([heading, body]) => `### ${heading}\n\n${body}\n`).join('\n');
}
