import { minus, plus, thou, zero, type Length } from '../../measure/index.ts';
import type { Mate, Part } from '../../part/index.ts';
import { ALLOWANCES } from './allowances.ts';
import type { Step, Work } from './draft.ts';
import { boreOf, widthOf } from './fitOf.ts';
import { shouldersOf, type Bar, type Side } from './layout.ts';
import { finishSteps, isFine, lengthStep, roughAim, roughStep, threadStep } from './sideSteps.ts';

export const hasWidth = (part: Part, bar: Bar | undefined): boolean => bar !== undefined && widthOf(part, bar.feature) !== null;

/** The mates that the diameters and lengths of some bars depend on, each once. */
export function measureSteps(part: Part, bars: readonly Bar[], measured: Set<string>): Step[] {
  const mates = bars
    .flatMap(({ feature }) => [boreOf(part, feature), widthOf(part, feature)])
    .filter((mate): mate is Mate => mate !== null);
  return mates.flatMap((mate): Step[] => {
    if (measured.has(mate.id)) return [];
    measured.add(mate.id);
    const bore = mate.kind === 'bore';
    // Only far enough off to be a slip: a mate is never what the drawing says, so the window is wide.
    const around = { low: minus(mate.nominal, thou(10)), aim: mate.nominal, high: plus(mate.nominal, thou(10)) };
    return [
      {
        id: `measure-${mate.id}`,
        kind: 'measure-mate',
        title: `Measure the ${mate.say}`,
        say: `Measure the ${mate.say}`,
        feature: mate.id,
        target: { quantity: bore ? 'bore' : 'width', ...around, from: null, fit: null },
        instrument: bore ? 'telescoping-gauge' : 'micrometer',
        note: bore ? 'Both ends and the middle, along and across. The smallest counts.' : null,
        minutes: 4,
      },
    ];
  });
}

type SideWork = {
  readonly side: Side;
  /** The bar that the side is turned from. */
  readonly from: Length;
  readonly zero: string;
  /** Left on the end until it is faced to length. */
  readonly onEnd: Length;
};

/** The concentric diameters of one side: roughed from the pivot outward, then finished in the same order, with their lengths. */
export function turnedSteps(work: Work, { side, from, zero: face, onEnd }: SideWork): Step[] {
  const { part } = work;
  const shoulders = shouldersOf(side);
  const placed = side.map((bar, index) => ({ bar, index, shoulder: plus(shoulders[index] ?? zero, onEnd) }));
  const concentric = placed.filter(({ bar }) => bar.offset === 0);
  const roughed: Step[] = [];
  const finished: Step[] = [];
  const left = new Map<string, Length>();
  let zone = from;
  for (const { bar, shoulder } of concentric) {
    const rough =
      isFine(bar) || bar.feature.kind === 'thread' ? roughStep(work, bar, zone, { from: face, distance: shoulder }) : null;
    if (rough !== null) {
      roughed.push(rough);
      zone = roughAim(bar);
    }
    left.set(bar.feature.id, zone);
    if (rough === null && !isFine(bar) && bar.feature.kind !== 'thread') {
      // A wide window is turned in one go among the rough cuts, so that the bar is down for what lies outboard.
      roughed.push(...finishSteps(work, bar, zone, { from: face, distance: shoulder }));
      zone = bar.diameter;
    }
  }
  for (const { bar, index, shoulder } of concentric) {
    if (!isFine(bar) && bar.feature.kind !== 'thread') continue;
    // The shoulder of a bar is the outboard face of the one inboard of it, which may have to hold a width.
    const inboard = side[index - 1];
    const faced = inboard !== undefined && inboard.offset === 0 && hasWidth(part, inboard) ? ALLOWANCES.shoulderToLength : zero;
    finished.push(
      ...finishSteps(work, bar, left.get(bar.feature.id) ?? from, { from: face, distance: minus(shoulder, faced) }),
    );
    if (faced > 0 && inboard !== undefined) finished.push(lengthStep(work, inboard, faced, 'shoulder', []));
  }
  return [...roughed, ...finished];
}

/** The single-point threads of a side, once its end is faced. */
export function threadSteps(work: Work, side: Side): Step[] {
  const shoulders = shouldersOf(side);
  return side
    .map((bar, index) => threadStep(work, bar, { from: 'finished end', distance: shoulders[index] ?? bar.length }))
    .filter((step): step is Step => step !== null);
}

export const edges = (setup: string, end: string): Step => ({
  id: `edges-broken-${setup}`,
  kind: 'chamfer',
  title: `Break the edges of the ${end}`,
  say: 'Break the edges',
  note: 'File left-handed, or a chamfering tool.',
});
