import { formatSize, type DisplayUnit } from '../measure/index.ts';
import type { Machine, Part } from '../part/index.ts';
import { carriageTravel } from './carriage.ts';
import { CAUTIONS, DEFERS_TO, STOP_FIRST } from './cautions.ts';
import { checkRoute } from './checks.ts';
import type { Cut, MeasuredQuantity, Operation, Target } from './operation.ts';
import type { Route } from './route.ts';
import { describeWarning } from './warnings.ts';

const QUANTITIES: Readonly<Record<MeasuredQuantity, string>> = {
  diameter: 'diameter',
  length: 'length',
  depth: 'depth',
  indicator: 'indicator',
  bore: 'bore of the mate',
  width: 'width of the mate',
};

function targetLines(target: Target, instrument: string | null, unit: DisplayUnit, mates: Part['mates']): string[] {
  const size = (length: Target['aim']): string => formatSize(length, unit);
  const lines = [
    `${QUANTITIES[target.quantity]}: ${size(target.aim)} (${size(target.low)} to ${size(target.high)})${instrument === null ? '' : `, ${instrument}`}`,
  ];
  if (target.from !== null) lines.push(`from ${size(target.from)}`);
  const { fit } = target;
  if (fit !== null) {
    const mate = mates.find((candidate) => candidate.id === fit.mate)?.say ?? fit.mate;
    lines.push(
      `fits the ${mate} (${fit.name}): clearance ${size(fit.leastClearance)} to ${size(fit.mostClearance)}; moves with it when it is measured`,
    );
  }
  return lines;
}

function cutLines(cut: Cut, unit: DisplayUnit): string[] {
  const parts = [cut.tool, `${cut.speedRpm} rpm`];
  if (cut.feedPerTurn !== null) parts.push(`feed ${formatSize(cut.feedPerTurn, unit)} a turn`);
  if (cut.depthOnRadius !== null) parts.push(`depth ${formatSize(cut.depthOnRadius, unit)} on the radius`);
  return cut.note === null ? [parts.join(', ')] : [parts.join(', '), cut.note];
}

/** Where the carriage stops, and what that is on its dial where it has one. */
function stopLine({ from, distance }: NonNullable<Operation['stop']>, unit: DisplayUnit, machine: Machine | undefined): string {
  const line = `stop ${formatSize(distance, unit)} from the ${from}`;
  const dial = machine?.carriage ?? null;
  if (dial === null) return line;
  const { turns, divisions } = carriageTravel(distance, dial);
  return `${line}: ${turns} turn${turns === 1 ? '' : 's'} and ${divisions} division${divisions === 1 ? '' : 's'} of the carriage dial`;
}

function operationLines(
  operation: Operation,
  step: number,
  unit: DisplayUnit,
  part: Part,
  machine: Machine | undefined,
): string[] {
  const lines = [`${String(step).padStart(3)}  ${operation.title}`];
  const under = (text: string): void => void lines.push(`       ${text}`);
  if (operation.caution !== null) under(`CAUTION: ${CAUTIONS[operation.caution].shown}`);
  if (operation.target !== null) targetLines(operation.target, operation.instrument, unit, part.mates).forEach(under);
  if (operation.cut !== null) cutLines(operation.cut, unit).forEach(under);
  if (operation.stop !== null) under(stopLine(operation.stop, unit, machine));
  if (operation.note !== null) under(operation.note);
  return lines;
}

/**
 * The route as a plain text sheet, in the unit of the part: what a person would pin up beside the machine. Steps are numbered
 * from 1 through the whole route, as they are spoken. Warnings of `checkRoute` stand at the end. Ends with a line feed.
 */
export function routeSheet(part: Part, machines: readonly Machine[], route: Route): string {
  const { unit, stock } = part;
  const minutes = route.operations.reduce((sum, operation) => sum + operation.minutes, 0);
  const lines = [
    part.name,
    `Stock: ${stock.form}, ${formatSize(stock.size, unit)} across, ${formatSize(stock.length, unit)} long, ${stock.material}`,
    `${route.operations.length} operations, about ${Math.round(minutes)} minutes`,
    STOP_FIRST.shown,
    DEFERS_TO,
  ];
  let setup = '';
  let machine: Machine | undefined;
  route.operations.forEach((operation, index) => {
    if (operation.setup !== setup) {
      setup = operation.setup;
      const held = route.setups.find((candidate) => candidate.id === setup);
      machine = machines.find((candidate) => candidate.id === held?.machine);
      lines.push('', held?.title ?? setup, `${machine?.name ?? 'no machine'}. ${held?.holding ?? ''}`, '');
    }
    lines.push(...operationLines(operation, index + 1, unit, part, machine));
  });
  const warnings = checkRoute(part, machines, route);
  if (warnings.length > 0) lines.push('', 'To look at:', ...warnings.map((warning) => `- ${describeWarning(warning, unit)}`));
  return `${lines.join('\n')}\n`;
}
