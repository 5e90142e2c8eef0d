import {
  formatAmount,
  formatInch,
  formatMillimetre,
  formatSize,
  magnitude,
  times,
  type DisplayUnit,
  type Length,
} from '../measure/index.ts';
import type { Machine, Part } from '../part/index.ts';
import { carriageTravel } from './carriage.ts';
import { CAUTIONS } from './cautions.ts';
import { leavesMetal } from './leavesMetal.ts';
import type { Cut, MeasuredQuantity, Operation, Target } from './operation.ts';
import { divisionBelow, nearestDivision, passesOf, threadInfeeds, type PassGroup } from './workings.ts';

/** Widest line of a sheet, in characters: a page upright at a readable size. */
export const SHEET_WIDTH = 100;
const LABEL = 10;
const INDENT = 8;

const QUANTITIES: Readonly<Record<MeasuredQuantity, string>> = {
  diameter: 'diameter',
  length: 'length',
  depth: 'depth',
  indicator: 'indicator',
  bore: 'bore of the mate',
  width: 'size of the mate',
  hole: 'bore',
};

/** A size without its unit, which stands at the head of the sheet. */
const bare = (length: Length, unit: DisplayUnit): string =>
  unit === 'inch' ? formatInch(length, 4) : formatMillimetre(length, 3);

/** A space at which a line may be broken: not between a number and its unit. */
const BREAK = / (?!(?:mm|thou|rpm|µm|°C)(?:\W|$))/;

/** Text broken into lines no wider than the sheet; the first stands at `first`, the others at `rest` columns from the left. */
export function wrapped(text: string, first: string, rest: number): string[] {
  const lines: string[] = [];
  let line = first;
  let fresh = true;
  for (const word of text.split(BREAK)) {
    if (!fresh && line.length + 1 + word.length > SHEET_WIDTH) {
      lines.push(line);
      line = ' '.repeat(rest);
      fresh = true;
    }
    line += fresh ? word : ` ${word}`;
    fresh = false;
  }
  return [...lines, line.trimEnd()];
}

/** A line of an operation under its label: `  size    diameter .998 …`. */
const labelled = (label: string, text: string): string[] =>
  wrapped(text, ' '.repeat(INDENT) + label.padEnd(LABEL), INDENT + LABEL);

/** The clearances of a fit in words: one less than nothing is interference. */
function roomText({ leastClearance, mostClearance }: NonNullable<Target['fit']>, unit: DisplayUnit): string {
  const [least, most] = [leastClearance, mostClearance].map((length) => formatAmount(magnitude(length), unit));
  if (mostClearance < 0) return `interference ${most} to ${least}`;
  return leastClearance < 0 ? `from ${least} of interference to ${most} of clearance` : `clearance ${least} to ${most}`;
}

function targetLines(target: Target, instrument: string | null, unit: DisplayUnit, mates: Part['mates']): string[] {
  const size = (length: Length): string => bare(length, unit);
  const from = target.from === null || target.from === 0 ? '' : `, from ${size(target.from)}`;
  const by = instrument === null ? '' : `, by ${instrument.replace('-', ' ')}`;
  // A mate is what it is, and a true bar wants nothing: neither has a size to come down to.
  if (target.quantity === 'bore' || target.quantity === 'width')
    return labelled(
      'size',
      `${QUANTITIES[target.quantity]} about ${size(target.aim)}${by}; under ${size(target.low)} or over ${size(target.high)}, read again`,
    );
  if (target.quantity === 'indicator' && target.aim === 0)
    return labelled('size', `${QUANTITIES[target.quantity]} still within ${size(target.high)}${by}`);
  const lines = labelled(
    'size',
    `${QUANTITIES[target.quantity]} ${size(target.aim)}${target.datum === null ? '' : ` from the ${target.datum}`}, not under ${size(target.low)}, not over ${size(target.high)}${from}${by}`,
  );
  const { fit } = target;
  if (fit === null) return lines;
  const mate = mates.find((candidate) => candidate.id === fit.mate)?.say ?? fit.mate;
  if (leavesMetal(target)) {
    const [over, most] = [formatAmount(magnitude(fit.mostClearance), unit), formatAmount(magnitude(fit.leastClearance), unit)];
    return [
      ...lines,
      ...labelled('fit', `still over the ${mate} by ${over} to ${most}. Measured again, the size moves with it.`),
    ];
  }
  return [
    ...lines,
    ...labelled(
      'fit',
      `${fit.name} ${target.quantity === 'hole' ? 'over' : 'in'} the ${mate}: ${roomText(fit, unit)}. Measured again, the size moves with it.`,
    ),
  ];
}

/**
 * What a depth is on the cross-slide dial, and what to set where it lies between two divisions: the nearest for a rough cut, the
 * one below for a finishing cut, so that no size is lost.
 */
function onDial(depth: Length, machine: Machine | undefined, unit: DisplayUnit, finishing = false): string {
  if (machine === undefined) return '';
  const amount = machine.crossSlide.reads === 'diameter' ? times(depth, 2) : depth;
  const settable = finishing ? divisionBelow(depth, machine) : nearestDivision(depth, machine);
  const set =
    settable === amount
      ? ''
      : `, set ${formatAmount(settable, unit)}${finishing ? ', and measure: the last takes what is left' : ''}`;
  return `, ${formatAmount(amount, unit)} on the dial${set}`;
}

/** A group of passes: how many, how deep, what to dial, what they leave. */
function passLine({ kind, count, depth, leaves }: PassGroup, machine: Machine | undefined, unit: DisplayUnit): string {
  switch (kind) {
    case 'rough':
      return `${count} of ${bare(depth, unit)} on the radius${onDial(depth, machine, unit)}; leaves ${bare(leaves, unit)}`;
    case 'last':
      return `${count} equal last ones of ${bare(depth, unit)}${onDial(depth, machine, unit, true)}; leaves ${bare(leaves, unit)}`;
    case 'spring':
      return `${count} without infeed`;
  }
}

/** The infeeds of a thread as the dial shows them, to the nearest division, counted from where the tool touches. */
function infeedLine(operation: Operation, machine: Machine | undefined, unit: DisplayUnit): string {
  const dialled = threadInfeeds(operation).map((depth) => (machine === undefined ? depth : nearestDivision(depth, machine)));
  return `from touching: ${dialled.map((depth) => bare(depth, unit)).join(', ')}`;
}

const ONLY_COUNTS = /^(?:[A-Z][a-z]+|\d+) (?:equal )?pass(?:es)?\.$/;

/** The passes of an operation, a line for each group of alike ones: how deep, what to dial, what they leave. */
export function passTexts(operation: Operation, unit: DisplayUnit, machine: Machine | undefined): readonly string[] {
  const { cut } = operation;
  if (cut === null) return [];
  if (threadInfeeds(operation).length > 0) return [infeedLine(operation, machine, unit)];
  const groups = passesOf(operation);
  if (groups.length > 0) return groups.map((group) => passLine(group, machine, unit));
  if (cut.depthOnRadius === null) return [];
  return [`${bare(cut.depthOnRadius, unit)} on the radius a pass${onDial(cut.depthOnRadius, machine, unit)}`];
}

function cutLines(operation: Operation, cut: Cut, unit: DisplayUnit, machine: Machine | undefined): string[] {
  const feed = cut.feedPerTurn === null ? '' : `, feed ${bare(cut.feedPerTurn, unit)} a turn`;
  const lines = labelled('tool', `${cut.tool}, ${cut.speedRpm} rpm${feed}`);
  lines.push(...passTexts(operation, unit, machine).flatMap((line, index) => labelled(index === 0 ? 'passes' : '', line)));
  // A note that only counts the passes says what stands above it.
  return cut.note === null || ONLY_COUNTS.test(cut.note) ? lines : [...lines, ...labelled('cut', cut.note)];
}

/** The dials of a machine, said once for all that is done on it. */
export function dialLines({ crossSlide, carriage }: Machine, unit: DisplayUnit): string[] {
  const dial = (name: string, { division, perTurn }: { readonly division: Length; readonly perTurn: Length }): string =>
    `${name} ${bare(division, unit)} a division and ${bare(perTurn, unit)} a turn`;
  const along = carriage === null ? '' : `; ${dial('carriage', carriage)}`;
  return wrapped(`${dial('cross slide', crossSlide)}, reads the ${crossSlide.reads}${along}.`, 'Dials: ', 7);
}

/** Where the carriage stops, and what that is on its dial where it has one. */
export function stopText(
  { from, distance }: NonNullable<Operation['stop']>,
  unit: DisplayUnit,
  machine: Machine | undefined,
): string {
  const dial = machine?.carriage ?? null;
  if (dial === null) return `${bare(distance, unit)} from the ${from}`;
  const { turns, divisions, rest } = carriageTravel(distance, dial);
  const counted = (count: number, what: string): string[] => (count === 0 ? [] : [`${count} ${what}${count === 1 ? '' : 's'}`]);
  const moved = [...counted(turns, 'turn'), ...counted(divisions, 'division')].join(' and ');
  const travel = `${moved === '' ? 'no turn' : moved} of the carriage dial${rest === 0 ? '' : `, and ${formatAmount(rest, unit)}`}`;
  return `${bare(distance, unit)} from the ${from}: ${travel}`;
}

function coordinateLines({ coordinates }: Operation, unit: DisplayUnit): string[] {
  if (coordinates.length === 0) return [];
  const widest = Math.max(...coordinates.map(({ at }) => at.length));
  const rows = coordinates.map(({ at, x, y, z }) => {
    const [across, along, down] = [x, y, z].map((value) => bare(value, unit).padStart(9));
    return `${at.padEnd(widest)}  X${across ?? ''}  Y${along ?? ''}  Z${down ?? ''}`;
  });
  return rows.map((row, index) => ' '.repeat(INDENT) + (index === 0 ? 'readout' : '').padEnd(LABEL) + row);
}

/** What is written by hand as the work goes on: the reading, where one is wanted. */
const readingLines = ({ target }: Operation): string[] =>
  target === null ? [] : labelled('read', '________   ________   ________');

/** What an operation is told against: where it stands, and what was told already on the sheet. */
export type SheetPlace = {
  readonly step: number;
  readonly part: Part;
  readonly machine: Machine | undefined;
  readonly skipped: boolean;
  /** The step at which this caution stands in full, or null where this is the first. */
  readonly cautionAt: number | null;
};

/** One operation of the sheet: its title with a box to tick, then a line for everything that it needs, as the work goes. */
export function operationLines(operation: Operation, { step, part, machine, skipped, cautionAt }: SheetPlace): string[] {
  const { unit } = part;
  const { target, cut, stop, caution, note, angle } = operation;
  const number = String(step).padStart(3);
  if (skipped) return wrapped(`${operation.title} (skipped)`, `${number} [-] `, INDENT);
  return [
    ...wrapped(operation.title, `${number} [ ] `, INDENT),
    ...(caution === null
      ? []
      : labelled(
          'CAUTION',
          cautionAt === null ? CAUTIONS[caution].shown : `${CAUTIONS[caution].say}. (In full at step ${cautionAt}.)`,
        )),
    ...operation.before.flatMap((line, index) => labelled(index === 0 ? 'first' : '', line)),
    ...(target === null ? [] : targetLines(target, operation.instrument, unit, part.mates)),
    ...(cut === null ? [] : cutLines(operation, cut, unit, machine)),
    ...(stop === null ? [] : labelled('stop', stopText(stop, unit, machine))),
    ...(angle === null ? [] : labelled('angle', `${angle} degrees`)),
    ...coordinateLines(operation, unit),
    ...(note === null ? [] : labelled('note', note)),
    ...operation.why.flatMap((line, index) => labelled(index === 0 ? 'why' : '', line)),
    ...operation.alternatives.flatMap((line, index) => labelled(index === 0 ? 'or' : '', line)),
    ...readingLines(operation),
  ];
}

/** The mates of a part as they are known, each with room to write its measured size where it has none. */
export function mateTexts({ mates, unit }: Part): readonly string[] {
  return mates.map((mate) => {
    const read = mate.readings.map(({ value }) => formatSize(value, unit)).join(', ');
    // Rings and bolts are taken as they are made: no step measures them.
    const until = mate.kind === 'bearing' || mate.kind === 'outer-ring' || mate.kind === 'bolt' ? 'as made; where' : 'until';
    const known =
      read === ''
        ? `${formatSize(mate.nominal, unit)} ${until} it is measured: ________`
        : `${formatSize(mate.nominal, unit)}, measured ${read}`;
    const kind = mate.kind.replace('-', ' ');
    return `${mate.name}${mate.name.toLowerCase().includes(kind) ? '' : ` (${kind})`}, ${known}`;
  });
}

/** The mates of a part as lines of the sheet. */
export const mateLines = (part: Part): string[] => mateTexts(part).flatMap((text) => wrapped(text, 'Mate      ', LABEL));
