import { parseArgs } from 'node:util';
import { parseLength, type DisplayUnit } from '../measure/index.ts';
import type { MateReading, Part } from '../part/index.ts';
import type { MateReadings } from '../route/index.ts';
import { TOOLS, type ToolMaterial } from '../trade/index.ts';
import { InputFault } from './fault.ts';

const USAGE =
  'route PART [--tool high-speed-steel|brazed-carbide|carbide] [--edits FILE] [--measured MATE=SIZE]… [--json | --job | --spoken]';

/** What is printed: the sheet, the route and what changed as one object, a job file, or the steps as they are spoken. */
export type RoutePrint = 'sheet' | 'json' | 'job' | 'spoken';

export type RouteRequest = {
  readonly name: string;
  readonly tool: ToolMaterial;
  readonly edits: string | null;
  readonly measured: readonly string[];
  readonly as: RoutePrint;
};

/** Reads the arguments of `npm run route`; anything that is not understood is an `InputFault` of one line. */
export function readRequest(args: readonly string[]): RouteRequest {
  let parsed;
  try {
    parsed = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        tool: { type: 'string' },
        edits: { type: 'string' },
        measured: { type: 'string', multiple: true },
        json: { type: 'boolean' },
        job: { type: 'boolean' },
        spoken: { type: 'boolean' },
      },
    });
  } catch (error) {
    throw new InputFault(`${error instanceof Error ? error.message.replace(/\s+/g, ' ') : String(error)} Usage: ${USAGE}`);
  }
  const { values, positionals } = parsed;
  const [name, extra] = positionals;
  if (name === undefined) throw new InputFault(`Name a part: a file, demo:inch or demo:metric. Usage: ${USAGE}`);
  if (extra !== undefined) throw new InputFault(`"${extra}" is one part too many. Usage: ${USAGE}`);
  const asked = values.tool ?? 'high-speed-steel';
  const tool = TOOLS.find((known) => known === asked);
  if (tool === undefined) throw new InputFault(`--tool ${asked}: must be ${TOOLS.join(', ')} (carbide: inserts)`);
  const prints = (['json', 'job', 'spoken'] as const).filter((print) => values[print] === true);
  const [as = 'sheet', second] = prints;
  if (second !== undefined) throw new InputFault(`--${as} and --${second} do not go together. Usage: ${USAGE}`);
  return { name, tool, edits: values.edits ?? null, measured: values.measured ?? [], as };
}

/**
 * The readings that `--measured MATE=SIZE` names, by mate. A size without a unit is in that of the part; a bore is taken to be
 * read with a telescoping gauge, anything else with a micrometer. The same mate named twice has two readings.
 */
export function readMeasured(measured: readonly string[], part: Part, unit: DisplayUnit): MateReadings {
  const readings: Record<string, MateReading[]> = {};
  for (const text of measured) {
    const [id = '', size = ''] = text.split(/=(.*)/s);
    const mate = part.mates.find((candidate) => candidate.id === id.trim());
    if (mate === undefined) {
      const known = part.mates.map((candidate) => candidate.id).join(', ');
      throw new InputFault(`--measured ${text}: the part has no mate called "${id.trim()}"${known === '' ? '' : `; it has ${known}`}`);
    }
    const value = parseLength(size, unit);
    if (!value.ok || value.value <= 0) throw new InputFault(`--measured ${text}: "${size}" is not a size, such as 0.6262in or 15.94mm`);
    const instrument = mate.kind === 'bore' ? 'telescoping-gauge' : 'micrometer';
    (readings[mate.id] ??= []).push({ value: value.value, place: 'middle', across: 'one-way', instrument });
  }
  return readings;
}
