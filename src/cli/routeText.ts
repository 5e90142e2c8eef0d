import { basename } from 'node:path';
import { z } from 'zod';
import { planSchema, type Plan } from '../job/index.ts';
import { instrumentsOf } from '../measure/index.ts';
import { describeFileProblem, readBy, type Machine, type Part } from '../part/index.ts';
import {
  applyEdits,
  changesBetween,
  checkRoute,
  describeChange,
  describeEditFault,
  describeRouteFault,
  describeWarning,
  keepMeasuring,
  readEditedPartFile,
  reapply,
  remeasured,
  routeEditSchema,
  routeFor,
  routeSchema,
  routeSheet,
  type EditedRoute,
  type LeftOver,
  type Route,
  type RouteEdit,
} from '../route/index.ts';
import { FILE_FORMAT, FILE_VERSION } from '../shelf/index.ts';
import type { ToolMaterial } from '../trade/index.ts';
import { InputFault } from './fault.ts';
import { openJob, readInput } from './openJob.ts';
import { readMeasured, readRequest } from './routeRequest.ts';
import { spokenRoute } from './spokenRoute.ts';

type Given = {
  readonly part: Part;
  readonly machines: readonly Machine[];
  readonly instruments?: Plan['instruments'];
  readonly invented: boolean;
  readonly edits: readonly RouteEdit[];
};

/** The part of a part file, with its edits, or that of a demo job. */
async function readGiven(name: string): Promise<Given> {
  if (name.startsWith('demo:')) {
    const { plan } = await openJob(name);
    return { ...plan, edits: [] };
  }
  const read = readEditedPartFile((await readInput(name)).toString('utf8'));
  if (!read.ok) throw new InputFault(`${basename(name)}: ${describeFileProblem(read.error)}`);
  return read.value;
}

/** A file of edits: a list of them, as they stand in a part file. */
async function readEdits(name: string): Promise<readonly RouteEdit[]> {
  let json: unknown;
  try {
    json = JSON.parse((await readInput(name)).toString('utf8'));
  } catch (error) {
    if (error instanceof InputFault) throw error;
    throw new InputFault(`${basename(name)}: is not JSON: ${error instanceof Error ? error.message : String(error)}`);
  }
  const read = readBy(z.array(routeEditSchema), json);
  if (!read.ok) throw new InputFault(`${basename(name)}: ${describeFileProblem(read.error)}`);
  return read.value;
}

function made(part: Part, { machines, instruments }: Given, tool: ToolMaterial): Route {
  const route = routeFor(part, machines, tool, instrumentsOf(instruments ?? []));
  if (route.ok) return route.value;
  const reasons = route.error.map((fault) => describeRouteFault(fault, part));
  throw new InputFault(`${part.name} cannot be made as given: ${reasons.join(' ')}`);
}

function edited(route: Route, edits: readonly RouteEdit[], part: Part): EditedRoute {
  const result = applyEdits(route, edits);
  if (result.ok) return result.value;
  const { index, fault } = result.error;
  // What the edits before it have done is what this one was tried on.
  const tried = reapply(route, edits.slice(0, index)).edited.route;
  throw new InputFault(`edit ${index + 1}: ${describeEditFault(fault, tried, part.unit)}`);
}

const listed = (title: string, lines: readonly string[]): string =>
  lines.length === 0 ? '' : `\n${title}\n${lines.map((line) => `- ${line}`).join('\n')}\n`;

/**
 * What `npm run route -- PART` prints: the route of a part as a readable sheet, with its edits applied and what changed at the
 * end; with `--json` all of it as one object, with `--job` a whole job file that the page imports, with `--spoken` the steps as
 * they are said. A part that cannot be made as given and an edit that makes no sense are an `InputFault`, as any bad input is.
 */
export async function routeText(args: readonly string[]): Promise<string> {
  const request = readRequest(args);
  const given = await readGiven(request.name);
  const { machines, instruments, invented } = given;
  const edits = [...given.edits, ...(request.edits === null ? [] : await readEdits(request.edits))];
  const drawn = made(given.part, given, request.tool);
  const before = edited(drawn, edits, given.part);
  const readings = readMeasured(request.measured, given.part, given.part.unit);
  const part = remeasured(given.part, readings, instrumentsOf(given.instruments ?? []));
  const again: { readonly edited: EditedRoute; readonly leftOver: readonly LeftOver[] } =
    request.measured.length === 0
      ? { edited: before, leftOver: [] }
      : reapply(keepMeasuring(made(part, given, request.tool), drawn), before.edits);
  const { route, skipped } = again.edited;
  // Without a measured mate what changed is what the edits did; with one, what the measuring did to the edited route.
  const changes = changesBetween(request.measured.length === 0 ? drawn : before.route, route);
  const warnings = checkRoute(part, machines, {
    ...route,
    operations: route.operations.filter(({ id }) => !skipped.includes(id)),
  });
  const plan: Plan = {
    id: part.id,
    title: part.name,
    invented,
    part,
    machines: [...machines],
    ...(instruments === undefined ? {} : { instruments }),
    route,
  };
  const written = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;
  switch (request.as) {
    case 'sheet':
      return (
        routeSheet(part, machines, route, skipped) +
        listed(
          'What changed:',
          changes.map((change) => describeChange(change, part.unit)),
        ) +
        listed(
          'Edits that no longer apply:',
          again.leftOver.map(({ fault }) => describeEditFault(fault, route, part.unit)),
        )
      );
    case 'json':
      return written({
        route: z.encode(routeSchema, route),
        warnings,
        says: warnings.map((warning) => describeWarning(warning, part.unit)),
        skipped,
        edits: z.encode(z.array(routeEditSchema), [...again.edited.edits]),
        changes,
        leftOver: again.leftOver,
      });
    case 'spoken':
      return spokenRoute(plan, skipped);
    case 'job':
      return written({ format: FILE_FORMAT, version: FILE_VERSION, plan: z.encode(planSchema, plan), events: [] });
  }
}
