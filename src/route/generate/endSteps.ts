import { plus, scaled, thou, zero, type Length } from '../../measure/index.ts';
import type { EndFeature, MilledFeature } from '../../part/index.ts';
import { parseThread, turnsFor } from '../../trade/index.ts';
import { drillingCut, millingCut } from './cuts.ts';
import type { Target } from '../operation.ts';
import { bare, inSentence, target, type Step, type Work } from './draft.ts';

const depthTarget = (depth: Length, spread: Length): Target =>
  target('depth', { low: plus(depth, scaled(spread, -1, 'half-even')), aim: depth, high: plus(depth, spread) }, zero, null);

/** Drilling and tapping of one end, after everything on it is turned. Centres are made when the end is faced. */
export function endSteps({ part, lathe }: Work, ends: readonly EndFeature[]): Step[] {
  return ends.flatMap((end): Step[] => {
    if (end.kind === 'centre') return [];
    const thread = parseThread(end.designation);
    const turns = thread.ok ? `, ${Math.round(2 * turnsFor(thread.value, end.threadDepth)) / 2} turns` : '';
    return [
      {
        id: `drill-${end.id}`,
        kind: 'drill',
        title: `Drill ${bare(end.drill, part.unit)} for ${end.designation}, ${bare(end.drillDepth, part.unit)} deep`,
        say: `Drill for the ${inSentence(end)}`,
        feature: end.id,
        target: depthTarget(end.drillDepth, thou(20)),
        instrument: 'depth-micrometer',
        cut: drillingCut(lathe, end.drill),
        caution: 'drilling',
        note: 'Tailstock centre out. Centre drill first where there is no centre.',
        minutes: 5,
      },
      {
        id: `tap-${end.id}`,
        kind: 'tap',
        title: `Tap ${end.designation}, ${bare(end.threadDepth, part.unit)} deep`,
        say: `Tap the ${inSentence(end)}`,
        feature: end.id,
        caution: 'tapping',
        note: `Spindle stopped, tap square on the tailstock centre${turns} from the first thread.`,
        minutes: 6,
      },
    ];
  });
}

function cutterOf(feature: MilledFeature): Length {
  switch (feature.kind) {
    case 'pin-pocket':
      return feature.diameter;
    case 'keyway':
      return feature.width;
    case 'flat':
      return thou(500);
  }
}

/** What is milled: the high spot is found first where something is timed to it, then the edges, then each feature. */
export function millSteps({ part, mill }: Work): Step[] {
  if (mill === null || part.milled.length === 0) return [];
  const steps: Step[] = [];
  for (const feature of part.milled) {
    const timed = feature.kind === 'pin-pocket' ? part.turned.find((candidate) => candidate.id === feature.timedTo) : undefined;
    if (timed !== undefined)
      steps.push({
        id: `high-spot-${feature.id}`,
        kind: 'find-high-spot',
        title: `Find the high spot of the ${inSentence(timed)} and turn it up`,
        say: `Find the high spot of the ${inSentence(timed)}`,
        feature: timed.id,
        instrument: 'indicator',
        note: timed.kind === 'offset-journal' ? `Low to high is ${bare(plus(timed.throw, timed.throw), part.unit)}.` : null,
        minutes: 8,
      });
    const on = part.turned.find((candidate) => candidate.id === feature.on);
    steps.push(
      {
        id: `edges-${feature.id}`,
        kind: 'find-edge',
        title: `Find the edges for the ${inSentence(feature)}`,
        say: 'Find the edges',
        feature: on?.id ?? null,
        instrument: 'readout',
        note: 'A face for the length, then both sides for the centre. Half the tip of the finder is taken off at each.',
        minutes: 6,
      },
      {
        id: `mill-${feature.id}`,
        kind: 'mill',
        title: `Mill the ${inSentence(feature)}, ${bare(feature.depth, part.unit)} deep`,
        say: `Mill the ${inSentence(feature)}`,
        feature: feature.id,
        target: depthTarget(feature.depth, thou(3)),
        instrument: 'readout',
        cut: millingCut(mill, cutterOf(feature)),
        caution: 'milling',
        minutes: 10,
      },
    );
  }
  return steps;
}
