import { fail, ok, type Result } from '../../measure/index.ts';
import type { Machine, Part } from '../../part/index.ts';
import { materialIn, type ToolMaterial } from '../../trade/index.ts';
import type { Route } from '../route.ts';
import { ALLOWANCES } from './allowances.ts';
import type { Cutting } from './cuts.ts';
import { inSentence, operationIn, type Holding, type Step, type Work } from './draft.ts';
import { millSteps } from './endSteps.ts';
import { barLength, faultsOf, type RouteFault } from './faults.ts';
import { firstEnd } from './firstEnd.ts';
import { gripOn, layoutOf, type Layout } from './layout.ts';
import { offsetEnds } from './offsetEnds.ts';
import { secondEnd, secondEndOf } from './secondEnd.ts';

const DEBURR: Step = {
  id: 'deburr',
  kind: 'deburr',
  title: 'Deburr, wash, and put it together',
  say: 'Deburr and wash',
  minutes: 10,
};

function milling(work: Work, { first, pivot }: Layout): Holding | null {
  const steps = millSteps(work);
  if (work.mill === null || steps.length === 0) return null;
  const grip = gripOn([...first, pivot], ALLOWANCES.grip) ?? pivot;
  const holding = `The ${inSentence(grip.feature)} in a vee block in the vice, axis along X.`;
  return { setup: { id: 'mill', machine: work.mill.machine.id, title: 'Mill', say: 'At the mill', holding }, steps };
}

/**
 * The route of a part on a lathe (the first machine) and a mill (the second, where something is milled), or everything that keeps
 * it from being made as it is given. Pure; the same part in inches and in millimetres gives the same sizes to the nanometre.
 */
export function routeFor(part: Part, machines: readonly Machine[], tool: ToolMaterial): Result<Route, readonly RouteFault[]> {
  const layout = layoutOf(part);
  const faults = faultsOf(part, machines, layout);
  const material = materialIn(part.stock.material);
  const [lathe, mill] = machines;
  if (faults.length > 0 || layout === null || material === null || lathe === undefined) return fail(faults);
  const on = (machine: Machine): Cutting => ({ machine, material, tool, unit: part.unit });
  const work: Work = { part, lathe: on(lathe), mill: mill === undefined ? null : on(mill) };
  const offBar = part.stock.length >= barLength(layout, part.stock.size);
  // A mate is measured once, before the first size that depends on it.
  const measured = new Set<string>();
  const later = secondEndOf(work, layout, offBar);
  const holdings = [
    firstEnd(work, layout, offBar, measured),
    secondEnd(work, layout, later, measured),
    ...offsetEnds(work, layout, later, measured),
    milling(work, layout),
  ].filter((holding): holding is Holding => holding !== null);
  const operations = holdings.flatMap(({ setup, steps }) => steps.map((step) => operationIn(setup.id, step)));
  const last = holdings.at(-1)?.setup.id ?? 'first-end';
  return ok({
    id: `${part.id}-route`,
    setups: holdings.map(({ setup }) => setup),
    operations: [...operations, operationIn(last, DEBURR)],
  });
}
