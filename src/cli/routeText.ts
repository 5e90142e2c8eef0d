import { basename } from 'node:path';
import { parseArgs } from 'node:util';
import { z } from 'zod';
import { planSchema, type Plan } from '../job/index.ts';
import { describeFileProblem, readPartFile, type Machine, type Part } from '../part/index.ts';
import { checkRoute, describeRouteFault, routeFor, routeSchema, routeSheet } from '../route/index.ts';
import { TOOLS, type ToolMaterial } from '../trade/index.ts';
import { InputFault } from './fault.ts';
import { openJob, readInput } from './openJob.ts';

const USAGE = 'route PART [--tool high-speed-steel|carbide] [--json | --job]';

type Request = { readonly name: string; readonly tool: ToolMaterial; readonly as: 'sheet' | 'json' | 'job' };

function readRequest(args: readonly string[]): Request {
  let parsed;
  try {
    parsed = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { tool: { type: 'string' }, json: { type: 'boolean' }, job: { type: 'boolean' } },
    });
  } catch (error) {
    throw new InputFault(`${error instanceof Error ? error.message.replace(/\s+/g, ' ') : String(error)} Usage: ${USAGE}`);
  }
  const [name, extra] = parsed.positionals;
  if (name === undefined) throw new InputFault(`Name a part: a file, demo:inch or demo:metric. Usage: ${USAGE}`);
  if (extra !== undefined) throw new InputFault(`"${extra}" is one part too many. Usage: ${USAGE}`);
  const asked = parsed.values.tool ?? 'high-speed-steel';
  const tool = TOOLS.find((known) => known === asked);
  if (tool === undefined) throw new InputFault(`--tool ${asked}: must be ${TOOLS.join(' or ')}`);
  if (parsed.values.json === true && parsed.values.job === true)
    throw new InputFault(`--json and --job do not go together. Usage: ${USAGE}`);
  return { name, tool, as: parsed.values.json === true ? 'json' : parsed.values.job === true ? 'job' : 'sheet' };
}

type Given = { readonly part: Part; readonly machines: readonly Machine[]; readonly invented: boolean };

/** The part of a part file, or that of a demo job. */
async function readGiven(name: string): Promise<Given> {
  if (name.startsWith('demo:')) {
    const { plan } = await openJob(name);
    return plan;
  }
  const read = readPartFile((await readInput(name)).toString('utf8'));
  if (!read.ok) throw new InputFault(`${basename(name)}: ${describeFileProblem(read.error)}`);
  return read.value;
}

/**
 * What `npm run route -- PART` prints: the route of a part as a readable sheet; with `--json` the route and its warnings as one
 * object, with `--job` a whole job file that the page imports. A part that cannot be made as given is an `InputFault` with the
 * reasons, as any bad input is.
 */
export async function routeText(args: readonly string[]): Promise<string> {
  const { name, tool, as } = readRequest(args);
  const { part, machines, invented } = await readGiven(name);
  const made = routeFor(part, machines, tool);
  if (!made.ok) {
    const reasons = made.error.map((fault) => describeRouteFault(fault, part));
    throw new InputFault(`${part.name} cannot be made as given: ${reasons.join(' ')}`);
  }
  const plan: Plan = { id: part.id, title: part.name, invented, part, machines: [...machines], route: made.value };
  const written = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;
  switch (as) {
    case 'sheet':
      return routeSheet(part, machines, made.value);
    case 'json':
      return written({ route: z.encode(routeSchema, made.value), warnings: checkRoute(part, machines, made.value) });
    case 'job':
      return written({ format: 'swarfside-job', version: 1, plan: z.encode(planSchema, plan), events: [] });
  }
}
