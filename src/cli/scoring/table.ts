import type { Tally } from './tally.ts';

const percent = (part: number, whole: number): string => (whole === 0 ? '-' : `${((100 * part) / whole).toFixed(1)} %`);

const HEADINGS = ['group', 'utterances', 'right', 'wrong', 'rejected', 'word errors', 'false accepts/h', 'real-time factor'];

const row = (each: Tally): string[] => [
  each.group,
  `${each.utterances}`,
  `${each.right} (${percent(each.right, each.utterances)})`,
  `${each.wrong} (${percent(each.wrong, each.utterances)})`,
  `${each.rejected} (${percent(each.rejected, each.utterances)})`,
  each.wordErrorRate === null ? '-' : percent(each.wordErrorRate, 1),
  each.falseAcceptsPerHour === null ? '-' : each.falseAcceptsPerHour.toFixed(1),
  each.realTimeFactor.toFixed(3),
];

/** The tallies as a table that reads well in a terminal and in Markdown. */
export function scoreTable(tallies: readonly Tally[]): string {
  const rows = [HEADINGS, ...tallies.map(row)];
  const widths = HEADINGS.map((_, column) => Math.max(...rows.map((each) => each[column]!.length)));
  const line = (cells: readonly string[]): string =>
    `| ${cells.map((cell, column) => cell.padEnd(widths[column]!)).join(' | ')} |`;
  const rule = `| ${widths.map((width) => '-'.repeat(width)).join(' | ')} |`;
  return [line(HEADINGS), rule, ...rows.slice(1).map(line)].join('\n');
}
