import { minus, plus, smaller, zero, type Length } from '../../measure/index.ts';
import type { Part } from '../../part/index.ts';
import { ALLOWANCES } from './allowances.ts';
import type { Held, Step, Work } from './draft.ts';
import { chamferSteps, recessSteps } from './edges.ts';
import { widthOf } from './fitOf.ts';
import { isFine, necksOf, shouldersOf, type Bar, type Side } from './layout.ts';
import { neckSteps } from './necks.ts';
import { finishAim, finishSteps, lengthStep, placed, roughAim, roughStep, sameCut } from './sideSteps.ts';
import { coneSteps } from './taperStep.ts';
import { threadStep } from './threadStep.ts';

export const hasWidth = (part: Part, bar: Bar | undefined): boolean => bar !== undefined && widthOf(part, bar.feature) !== null;

type SideWork = {
  readonly side: Side;
  /** The bar that the side is turned from, and the largest diameter, which that mostly is. */
  readonly from: Length;
  readonly largest: Bar;
  readonly zero: string;
  /** The end of the part that it is turned from. */
  readonly end: 'left' | 'right';
  /** Left on the end until it is faced to length. */
  readonly onEnd: Length;
  readonly held: Held;
};

type Placed = { readonly bar: Bar; readonly index: number };

/**
 * The trials of mates on a side. A mate goes on from the end, over everything outboard: it is tried once that is smaller than
 * what it is tried on, and not before.
 */
function trialsOf(): {
  /** The steps of a bar without its trial, which waits. */
  readonly without: (place: Placed, steps: readonly Step[]) => Step[];
  /** What a bar measures now. */
  readonly leaves: (place: Placed, size: Length) => void;
  /** A finishing cut to a size has gone over everything outboard of a bar, and the bar itself is done. */
  readonly passes: (place: Placed, size: Length) => void;
  readonly due: () => Step[];
  readonly rest: () => Step[];
} {
  const now = new Map<number, Length>();
  let waiting: (Placed & { readonly step: Step })[] = [];
  const take = (ready: (one: Placed) => boolean): Step[] => {
    const taken = waiting.filter(ready);
    waiting = waiting.filter((one) => !taken.includes(one));
    return taken.map(({ step }) => step);
  };
  return {
    without: (place, steps) => {
      waiting.push(...steps.filter(({ kind }) => kind === 'try-fit').map((step) => ({ ...place, step })));
      return steps.filter(({ kind }) => kind !== 'try-fit');
    },
    leaves: ({ index }, size) => void now.set(index, size),
    passes: ({ bar, index }, size) => {
      for (const [at, was] of now) if (at > index) now.set(at, smaller(was, size));
      now.set(index, bar.diameter);
    },
    due: () => take(({ bar, index }) => [...now].every(([at, size]) => at <= index || size <= bar.diameter)),
    rest: () => take(() => true),
  };
}

/**
 * The concentric diameters of one side: roughed from the pivot outward, then finished in the same order, with their lengths and
 * recesses; necks last. A bar outboard of a neck is turned over the neck too, up to the next shoulder inboard.
 */
export function turnedSteps(work: Work, { side, from, largest, zero: face, end, onEnd, held }: SideWork): Step[] {
  const { part } = work;
  const shoulders = shouldersOf(side);
  const necks = necksOf(side);
  const places = side.map((bar, index) => {
    let reach = index;
    while (bar.offset === 0 && necks[index] === false && necks[reach - 1] === true) reach -= 1;
    const at = (which: number): Length => plus(shoulders[which] ?? zero, onEnd);
    return { bar, index, neck: necks[index] === true, inboard: side[reach - 1], shoulder: at(index), reach: at(reach) };
  });
  const concentric = places.filter(({ bar, neck }) => bar.offset === 0 && !neck);
  const roughed: Step[] = [];
  const finished: Step[] = [];
  const left = new Map<string, Length>();
  /** The finishing cuts so far: each goes in from the end, and leaves nothing outboard of it larger than its own size. */
  const cuts: { readonly bar: Bar; readonly index: number; readonly to: Length }[] = [];
  /** Finishes a bar as far as its reach, then what belongs to its shoulder; `faced` is left on that shoulder. */
  const finish = ({ bar, index, shoulder, reach }: (typeof places)[number], start: Length, faced: Length): Step[] => {
    const stop = placed(
      bar,
      { from: face, distance: minus(reach, faced) },
      onEnd === 0 && faced === 0 && reach === shoulder ? end : null,
    );
    const aim = finishAim(work, bar);
    const over = cuts
      .filter((cut) => cut.index < index)
      .reduce<(typeof cuts)[number] | null>((least, cut) => (least === null || cut.to < least.to ? cut : least), null);
    cuts.push({ bar, index, to: aim });
    const now = over === null ? start : smaller(start, over.to);
    return [
      ...(now <= aim ? sameCut(work, held, bar, over?.bar ?? largest, now) : finishSteps(work, held, bar, now, stop)),
      ...recessSteps(work, bar, { from: face, distance: shoulder }),
    ];
  };
  const trials = trialsOf();
  let zone = from;
  // What the finishing cuts of the bars so far will leave of what lies outboard of them.
  let leaves = from;
  for (const place of concentric) {
    const { bar, reach } = place;
    const later = isFine(bar) || bar.feature.kind === 'thread';
    // A rough cut to more than that would take nothing that stays.
    const rough =
      later && roughAim(work, bar) < leaves ? roughStep(work, held, bar, zone, { from: face, distance: reach }) : null;
    leaves = smaller(leaves, finishAim(work, bar));
    if (rough !== null) {
      roughed.push(rough);
      zone = roughAim(work, bar);
    }
    left.set(bar.feature.id, zone);
    if (!later) {
      // A wide window is turned in one go among the rough cuts, so that the bar is down for what lies outboard.
      roughed.push(...trials.without(place, finish(place, zone, zero)));
      zone = bar.diameter;
    }
    trials.leaves(place, zone);
  }
  for (const place of concentric) {
    const { bar, inboard } = place;
    if (!isFine(bar) && bar.feature.kind !== 'thread') continue;
    // The shoulder of a bar is the outboard face of the one inboard of it, which may have to hold a width.
    const faced =
      inboard !== undefined && inboard.offset === 0 && hasWidth(part, inboard) ? ALLOWANCES[part.unit].shoulderToLength : zero;
    finished.push(...trials.without(place, finish(place, left.get(bar.feature.id) ?? from, faced)));
    trials.passes(place, finishAim(work, bar));
    finished.push(...trials.due());
    if (faced > 0 && inboard !== undefined) finished.push(lengthStep(work, inboard, faced, 'shoulder', []));
  }
  finished.push(...trials.rest());
  // From the end inward, so that the work between chuck and tool is still whole.
  const recessed = [...places].reverse().flatMap(({ bar, neck, index, shoulder }): Step[] => {
    if (!neck) return [];
    // What was turned over it: the next bar outboard that is no neck, unless that turns off centre; else what lies inboard.
    const beyond = places.find((other) => other.index > index && !other.neck);
    const covers =
      beyond !== undefined && beyond.bar.offset === 0 ? beyond : concentric.filter((other) => other.index < index).at(-1);
    const place = { from: face, distance: shoulder };
    return [...neckSteps(work, held, bar, covers?.bar.diameter ?? from, place), ...recessSteps(work, bar, place)];
  });
  return [...roughed, ...finished, ...recessed];
}

/**
 * The cones, chamfers and single-point threads of a side, once its end is faced: facing would change the small end of a cone,
 * and a
 * thread starts in its chamfer.
 */
export function threadSteps(work: Work, side: Side, held: Held): Step[] {
  const shoulders = shouldersOf(side);
  const concentric = side.filter(({ offset }) => offset === 0);
  return [
    ...side.flatMap((bar, index) =>
      coneSteps(work, held, bar, { from: 'finished end', distance: shoulders[index] ?? bar.length }),
    ),
    ...concentric.flatMap((bar) => chamferSteps(work, bar)),
    ...side
      .map((bar, index) =>
        threadStep(
          work,
          held,
          bar,
          { from: 'finished end', distance: shoulders[index] ?? bar.length },
          side[index - 1] ?? 'largest',
        ),
      )
      .filter((step): step is Step => step !== null),
  ];
}

/** Breaks the edges of an end. Where the work turns off its axis no hand goes near it while it turns. */
export const edges = (setup: string, end: string, offCentre = false): Step => ({
  id: `edges-broken-${setup}`,
  kind: 'chamfer',
  title: `Break the edges of the ${end}`,
  say: 'Break the edges',
  caution: offCentre ? 'out-of-balance' : 'lathe-filing',
  note: offCentre
    ? 'With a chamfering tool; or with a file and the spindle stopped, never on work that swings.'
    : 'With a chamfering tool, or a file held left-handed.',
});
