import { larger, minus, zero } from '../../measure/index.ts';
import type { Machine, ToolKind } from '../../part/index.ts';
import { parseThread } from '../../trade/index.ts';
import type { Work } from './draft.ts';
import type { RouteFault } from './fault.ts';
import { firstEndOf } from './firstEnd.ts';
import { heldBetweenCentres } from './held.ts';
import { barGrip } from './holding.ts';
import { turnsBetweenCentres } from './betweenCentres.ts';
import { acrossCorners, inSentenceOf, isFine, limitsOf, necksOf, shouldersOf, type Layout, type Side } from './layout.ts';
import { heldForOffset, offsetGripOf, throwsOf } from './offsetEnds.ts';
import { secondEndOf, secondGrip } from './secondEnd.ts';
import { springOf } from './sideSteps.ts';
import { comesOffBar, passesSpindle, pieceWanted } from './stockLength.ts';
import { coneOf, setOverOf, slopeOf, taperMethod } from './taperMethod.ts';
import type { Held } from './draft.ts';

/** True where the lathe has something to steady long work with. */
const hasRest = ({ tools }: Machine): boolean => tools.some((tool) => tool === 'steady' || tool === 'follow-rest');

/** Fine diameters that bend by more than twice their window, even as well held as this set-up holds them, cannot be promised. */
function bendFaults(work: Work, side: Side, held: Held): RouteFault[] {
  if (hasRest(work.lathe.machine)) return [];
  const shoulders = shouldersOf(side);
  return side.flatMap((bar, index): RouteFault[] => {
    if (bar.offset > 0 || !isFine(bar)) return [];
    const { low, high } = limitsOf(bar.feature);
    const bends = springOf(work, bar, held, minus(shoulders[index] ?? zero, bar.length));
    const window = minus(high, low);
    return bends > window * 2 ? [{ key: 'bends-too-much', feature: bar.feature.id, bends, window }] : [];
  });
}

/** The kinds of tool that a part wants, each with the first feature that wants it. */
function toolsWanted({ part }: Work, { first, second, pivot }: Layout): ReadonlyMap<ToolKind, string> {
  const wanted = new Map<ToolKind, string>();
  const want = (tool: ToolKind, feature: string): void => void (wanted.has(tool) ? null : wanted.set(tool, feature));
  want('turning', pivot.feature.id);
  if (pivot.feature.kind === 'thread') want('threading', pivot.feature.id);
  for (const side of [first, second]) {
    const necks = necksOf(side);
    side.forEach(({ feature }, index) => {
      if (necks[index] === true) want('grooving', feature.id);
      if (feature.kind === 'thread') want('threading', feature.id);
    });
  }
  for (const edge of part.edges) if (edge.kind === 'undercut') want('grooving', edge.id);
  for (const end of part.ends) {
    if (end.kind !== 'centre') want('drilling', end.id);
    if (end.kind === 'bored-hole') want('boring', end.id);
    if (end.kind === 'tapped-hole') want('tapping', end.id);
  }
  return wanted;
}

function taperFaults({ part, lathe }: Work, { first, second, pivot }: Layout, betweenCentres: boolean): RouteFault[] {
  const { machine } = lathe;
  return [...first, pivot, ...second].flatMap((bar): RouteFault[] => {
    const cone = coneOf(bar);
    if (cone === null || machine.compoundTravel === null || taperMethod(part, machine, cone, betweenCentres) !== null) return [];
    return [
      {
        key: 'taper-too-long',
        feature: bar.feature.id,
        length: slopeOf(cone),
        travel: machine.compoundTravel,
        setOver: setOverOf(part, cone),
      },
    ];
  });
}

/** Everything in the machine that keeps a part from being made as it is given; what the machine does not say is not checked. */
export function machineFaults(work: Work, layout: Layout, offBar: boolean): readonly RouteFault[] {
  const { part, lathe, mill } = work;
  const { machine } = lathe;
  const faults: RouteFault[] = [];
  const { stock } = part;
  const wanted = toolsWanted(work, layout);
  if (machine.tools.length > 0)
    for (const [tool, feature] of wanted) if (!machine.tools.includes(tool)) faults.push({ key: 'no-tool', tool, feature });
  if (machine.tools.length > 0 && offBar && !machine.tools.includes('parting'))
    faults.push({ key: 'no-tool', tool: 'parting', feature: layout.pivot.feature.id });
  const [milled] = part.milled;
  if (mill !== null && milled !== undefined && mill.machine.tools.length > 0 && !mill.machine.tools.includes('end-mill'))
    faults.push({ key: 'no-tool', tool: 'end-mill', feature: milled.id });
  for (const feature of part.turned) {
    const thread = feature.kind === 'thread' ? parseThread(feature.designation) : null;
    if (thread?.ok === true && machine.pitches.length > 0 && !machine.pitches.includes(thread.value.pitch))
      faults.push({ key: 'no-pitch', feature: feature.id, pitch: thread.value.pitch });
  }
  faults.push(...taperFaults(work, layout, turnsBetweenCentres(part, machine, layout, offBar)));
  const wouldPart = comesOffBar(part, { ...machine, spindleBore: null }, layout);
  if (wouldPart && machine.spindleBore !== null && !passesSpindle(part, machine, layout))
    return [
      ...faults,
      { key: 'bar-too-thick', stock: acrossCorners(part), bore: machine.spindleBore, blank: pieceWanted(part, layout) },
    ];
  if (turnsBetweenCentres(part, machine, layout, offBar)) {
    const held = heldBetweenCentres([...layout.first, layout.pivot, ...layout.second], layout.total);
    return [...faults, ...bendFaults(work, layout.first, held), ...bendFaults(work, layout.second, held)];
  }
  const first = firstEndOf(work, layout, offBar);
  const later = secondEndOf(work, layout, offBar);
  if (barGrip(part, machine, offBar, first.held.supported) === null)
    faults.push({
      key: 'no-chuck',
      holds: offBar ? 'the bar' : 'the blank',
      diameter: larger(acrossCorners(part), stock.size),
      need: 'bar',
    });
  if (later.trueFirst && secondGrip(work, layout, later) === null)
    faults.push({ key: 'no-chuck', holds: `the ${inSentenceOf(later.grip)}`, diameter: later.grip.diameter, need: 'true' });
  for (const bar of throwsOf(layout))
    if (offsetGripOf(work, layout, later, bar) === null) {
      const held = heldForOffset(layout, later, bar);
      faults.push({ key: 'no-chuck', holds: `the ${inSentenceOf(held)}`, diameter: held.diameter, need: 'offset' });
    }
  faults.push(
    ...bendFaults(work, layout.first, first.held),
    ...(later.trueFirst ? bendFaults(work, layout.second, later.held) : []),
  );
  return faults;
}
