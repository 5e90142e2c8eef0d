import { formatSize } from '../measure/index.ts';
import type { Machine, Part } from '../part/index.ts';
import { DEFERS_TO, STOP_FIRST } from './cautions.ts';
import { checkRoute } from './checks.ts';
import type { CautionKey } from './operation.ts';
import type { Route } from './route.ts';
import { dialLines, mateLines, operationLines, SHEET_WIDTH, wrapped } from './sheetLines.ts';
import { describeWarning } from './warnings.ts';

const UNIT_NAMES = { inch: 'inches', millimetre: 'millimetres' } as const;

/** Minutes as a shop says them: `45 minutes`, `about 3 h 20 min`, to five minutes. */
export function timeText(minutes: number): string {
  const rounded = Math.max(5, Math.round(minutes / 5) * 5);
  if (rounded < 60) return `about ${rounded} minutes`;
  const rest = rounded % 60;
  return `about ${Math.floor(rounded / 60)} h${rest === 0 ? '' : ` ${rest} min`}`;
}

/**
 * The route as a plain text sheet, in the unit of the part: what a person takes to the machine. Steps are numbered from 1
 * through the whole route, as they are spoken, each with a box to tick and room for the reading. What is passed over by an
 * edit is marked. Warnings of `checkRoute` stand at the end. No line is wider than 100 characters but a warning; ends with a
 * line feed.
 */
export function routeSheet(part: Part, machines: readonly Machine[], route: Route, skipped: readonly string[] = []): string {
  const { unit, stock } = part;
  const out = new Set(skipped);
  const minutes = route.operations.reduce((sum, { id, minutes: each }) => sum + (out.has(id) ? 0 : each), 0);
  const condition = stock.condition === null ? '' : `, ${stock.condition.replace('-', ' ')}`;
  const lines = [
    part.name,
    '='.repeat(Math.min(SHEET_WIDTH, part.name.length)),
    ...wrapped(
      `${stock.form}, ${formatSize(stock.size, unit)} across, ${formatSize(stock.length, unit)} long, ${stock.material}${condition}`,
      'Stock     ',
      10,
    ),
    ...mateLines(part),
    `Route     ${route.operations.length} steps in ${route.setups.length} set-up${route.setups.length === 1 ? '' : 's'}, ${timeText(minutes)}`,
    `Sizes     in ${UNIT_NAMES[unit]}; a depth is how far the tool moves, on the radius`,
    '',
    ...wrapped(STOP_FIRST.shown, '', 0),
    ...wrapped(DEFERS_TO, '', 0),
  ];
  let setup = '';
  let machine: Machine | undefined;
  let held = 0;
  const cautioned = new Map<CautionKey, number>();
  route.operations.forEach((operation, index) => {
    if (operation.setup !== setup) {
      setup = operation.setup;
      const holding = route.setups.find((candidate) => candidate.id === setup);
      machine = machines.find((candidate) => candidate.id === holding?.machine);
      held += 1;
      const title = `SET-UP ${held}: ${holding?.title ?? setup}, ${machine?.name ?? 'no machine'}`;
      lines.push('', title, '-'.repeat(Math.min(SHEET_WIDTH, title.length)));
      lines.push(...wrapped(holding?.holding ?? '', '', 0));
      for (const why of holding?.why ?? []) lines.push(...wrapped(why, '', 0));
      for (const other of holding?.alternatives ?? []) lines.push(...wrapped(other, 'Or: ', 4));
      if (machine !== undefined) lines.push(...dialLines(machine, unit));
      lines.push('');
    }
    const step = index + 1;
    const { caution } = operation;
    const cautionAt = caution === null ? null : (cautioned.get(caution) ?? null);
    if (caution !== null && cautionAt === null && !out.has(operation.id)) cautioned.set(caution, step);
    lines.push(...operationLines(operation, { step, part, machine, skipped: out.has(operation.id), cautionAt }));
  });
  const kept = { ...route, operations: route.operations.filter(({ id }) => !out.has(id)) };
  const warnings = checkRoute(part, machines, kept);
  if (warnings.length > 0) lines.push('', 'To look at:', ...warnings.map((warning) => `- ${describeWarning(warning, unit)}`));
  return `${lines.join('\n')}\n`;
}
