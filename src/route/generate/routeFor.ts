import { fail, INSTRUMENTS, ok, type Instruments, type Result } from '../../measure/index.ts';
import type { Machine, Part } from '../../part/index.ts';
import { materialIn, type ToolMaterial } from '../../trade/index.ts';
import type { Route } from '../route.ts';
import { BOUNDS } from './allowances.ts';
import { assemblySteps } from './assembly.ts';
import { betweenCentres, turnsBetweenCentres } from './betweenCentres.ts';
import type { Cutting } from './cuts.ts';
import { withReadings } from './datums.ts';
import { inSentence, operationIn, type Holding, type Step, type Work } from './draft.ts';
import { faultsOf } from './faults.ts';
import type { RouteFault } from './fault.ts';
import { firstEnd, firstEndOf } from './firstEnd.ts';
import { barGrip } from './holding.ts';
import { gripOn, layoutOf, type Layout } from './layout.ts';
import { machineFaults } from './machineFaults.ts';
import { millSteps } from './millSteps.ts';
import { offsetEnds } from './offsetEnds.ts';
import { secondEnd, secondEndOf, secondGrip } from './secondEnd.ts';
import { comesOffBar } from './stockLength.ts';

const deburr = (together: boolean): Step => ({
  id: 'deburr',
  kind: 'deburr',
  title: together ? 'Deburr, wash, and put it together' : 'Deburr and wash',
  say: 'Deburr and wash',
  minutes: 10,
});

function milling(work: Work, { first, pivot }: Layout): Holding | null {
  const steps = millSteps(work);
  if (work.mill === null || steps.length === 0) return null;
  const cut = new Set(work.part.milled.map(({ on }) => on));
  const free = first.filter(({ feature }) => !cut.has(feature.id));
  const grip = gripOn(free, cut.has(pivot.feature.id) ? null : pivot, BOUNDS.grip) ?? gripOn(first, pivot, BOUNDS.grip) ?? pivot;
  const angled = work.part.milled.some(({ angle }) => angle !== 0);
  return {
    setup: {
      id: 'mill',
      machine: work.mill.machine.id,
      title: 'Mill',
      say: 'At the mill',
      holding: `The ${inSentence(grip.feature)} in a vee block in the vice, axis along X.`,
      why: [
        cut.has(grip.feature.id)
          ? `The ${inSentence(grip.feature)} is true to the axis, and there is nothing else to hold; what is cut in it is kept clear of vee and clamp.`
          : `The ${inSentence(grip.feature)} is true to the axis and nothing is cut in it; a vee does not mark it.`,
      ],
      alternatives: angled ? ['An indexing head with a centre, where several angles are wanted.'] : [],
    },
    steps,
  };
}

/** The set-ups on the lathe for work that is held in a chuck. */
function inChuck(work: Work, layout: Layout, offBar: boolean, measured: Set<string>): Holding[] {
  const first = firstEndOf(work, layout, offBar);
  const later = secondEndOf(work, layout, offBar);
  const chuck = barGrip(work.part, work.lathe.machine, offBar, first.held.supported);
  const holdings: (Holding | null)[] = [
    chuck === null ? null : firstEnd(work, layout, first, chuck, offBar, measured),
    secondEnd(work, layout, later, secondGrip(work, layout, later), measured),
    ...offsetEnds(work, layout, later, measured),
  ];
  return withReadings(
    work.part,
    layout,
    holdings.filter((holding): holding is Holding => holding !== null),
    later.length.id,
  );
}

/**
 * The route of a part on a lathe (the first machine) and a mill (the second, where something is milled), or everything that keeps
 * it from being made as it is given; `instruments` are what its mates were read with. Pure; the same part in inches and in
 * millimetres gives the same steps, with sizes as far apart as what is left on purpose in the one and in the other.
 */
export function routeFor(
  part: Part,
  machines: readonly Machine[],
  tool: ToolMaterial,
  instruments: Instruments = INSTRUMENTS,
): Result<Route, readonly RouteFault[]> {
  const layout = layoutOf(part);
  const material = materialIn(part.stock.material);
  const [lathe, mill] = machines;
  const faults = faultsOf(part, machines, layout);
  if (layout === null || material === null || lathe === undefined) return fail(faults);
  const on = (machine: Machine): Cutting => ({ machine, material, tool, unit: part.unit });
  const work: Work = { part, lathe: on(lathe), mill: mill === undefined ? null : on(mill), instruments };
  const offBar = comesOffBar(part, lathe, layout);
  const all = [...faults, ...machineFaults(work, layout, offBar)];
  if (all.length > 0) return fail(all);
  // A mate is measured once, before the first size that depends on it.
  const measured = new Set<string>();
  const centres = turnsBetweenCentres(part, lathe, layout, offBar);
  const turned = centres
    ? withReadings(part, layout, betweenCentres(work, layout, measured), 'face-to-length')
    : inChuck(work, layout, offBar, measured);
  const milled = milling(work, layout);
  const holdings = milled === null ? turned : [...turned, milled];
  const operations = holdings.flatMap(({ setup, steps }) => steps.map((step) => operationIn(setup.id, step)));
  const pressed = assemblySteps(work, [...layout.first, layout.pivot, ...layout.second]);
  const last = holdings.at(-1)?.setup.id ?? 'first-end';
  return ok({
    id: `${part.id}-route`,
    setups: holdings.map(({ setup }) => setup),
    operations: [
      ...operations,
      ...[deburr(part.mates.length > 0 && pressed.length === 0), ...pressed].map((step) => operationIn(last, step)),
    ],
  });
}
