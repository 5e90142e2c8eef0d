import { dividedBy, minus, nanometres, plus, zero, type Length } from '../../measure/index.ts';
import { ALLOWANCES, BOUNDS } from './allowances.ts';
import { facingCut, speedWhy } from './cuts.ts';
import { clearOfJaws, closedBy, standingAfterFirst, standingAfterSecond } from './datums.ts';
import { bare, inSentence, type Held, type Holding, type Step, type Work } from './draft.ts';
import { chamferSteps, recessSteps } from './edges.ts';
import { endSteps } from './endSteps.ts';
import { centreStays, centreStep } from './firstEnd.ts';
import { heldFor } from './held.ts';
import { holeIn, isThinRound } from './holes.ts';
import { trueGrip, type Grip } from './holding.ts';
import {
  acrossCorners,
  gripOn,
  indicatedOn,
  isAsStock,
  isDelicate,
  lengthOf,
  otherEnd,
  type Bar,
  type Layout,
} from './layout.ts';
import { measureShafts, measureSteps } from './measuring.ts';
import { lengthStep, TAILSTOCK_AWAY } from './sideSteps.ts';
import { edges, threadSteps, turnedSteps } from './sides.ts';
import { comesOffBar } from './stockLength.ts';
import { coneSteps } from './taperStep.ts';

/** What the later set-ups need to know of each other. */
export type SecondEnd = {
  /** What is held, finished, from the first end. */
  readonly grip: Bar;
  /** The bar that the second side is turned from. */
  readonly from: Length;
  /** Facing alone can wait for the offset set-up; anything concentric needs the work to run true first. */
  readonly trueFirst: boolean;
  /** Faces the second end, last of all lengths. */
  readonly length: Step;
  readonly held: Held;
  readonly why: string | null;
};

const OTHER_END_HELD =
  'Its other end is in the chuck: read between the jaws, or take the part out to read it and dial it in again.';

/** The largest diameter that goes into the chuck behind what is held. */
export function behindGrip({ first }: Layout, grip: Bar): Length {
  const at = first.indexOf(grip);
  return nanometres(Math.max(0, ...first.slice(at + 1).map(({ needs }) => needs)));
}

/** What is held and turned in the later set-ups, decided once for all of them. */
export function secondEndOf(work: Work, layout: Layout, offBar: boolean): SecondEnd {
  const { part } = work;
  const { secondEnd: over, clean } = ALLOWANCES[part.unit];
  const { pivot, first, second } = layout;
  const end = otherEnd(layout.firstEnd);
  const offsets = second.filter(({ offset }) => offset > 0);
  const ends = part.ends.filter((feature) => feature.end === end);
  const onPivot = part.edges.some((edge) => edge.on === pivot.feature.id && edge.at === end);
  const cone = pivot.feature.kind === 'taper' && pivot.feature.smallEnd === end;
  const trueFirst = offsets.length === 0 || second.length > offsets.length || ends.length > 0 || onPivot || cone;
  const grip = gripOn(first, pivot, BOUNDS.grip) ?? pivot;
  const standing = grip === pivot ? zero : plus(lengthOf(first.slice(0, first.indexOf(grip))), pivot.length);
  const out = plus(plus(lengthOf(second), standing), over);
  const { held, why } =
    second.length > 0
      ? heldFor(work, second, out, [pivot.diameter], layout.firstEnd)
      : // Facing alone pushes along the axis, and a centre would be in its way.
        { held: { bending: 'chuck', out, supported: false, slender: false, drilled: layout.firstEnd } as const, why: null };
  const closed = closedBy(
    part,
    end,
    (second.at(-1) ?? pivot).feature,
    trueFirst ? standingAfterSecond(part, layout) : standingAfterFirst(part, layout),
  );
  return {
    grip,
    from: offBar && !isAsStock(part, pivot) ? pivot.diameter : acrossCorners(part),
    trueFirst,
    length: lengthStep(
      work,
      second.at(-1) ?? pivot,
      second.length === 0 ? plus(over, clean) : over,
      'end',
      trueFirst ? [] : ['eccentric'],
      [
        ...(held.supported && trueFirst ? [TAILSTOCK_AWAY] : []),
        ...(clearOfJaws(part, closed.feature, grip.feature, end) ? [] : [OTHER_END_HELD]),
      ],
      closed,
    ),
    held,
    why,
  };
}

/**
 * What facing the second end clean leaves, as the calipers show it over the whole length; where a blank is much longer it is sawn
 * off first.
 */
export function overLength({ part, lathe }: Work, layout: Layout): string {
  const { secondEnd: over, sawn, worthSawing } = ALLOWANCES[part.unit];
  const left = plus(layout.total, over);
  const excess = minus(minus(part.stock.length, sawn), left);
  const saw = !comesOffBar(part, lathe.machine, layout) && excess > worthSawing;
  return `Leave it ${bare(left, part.unit)} long: ${bare(over, part.unit)} over.${saw ? ` It is about ${bare(excess, part.unit)} too long: saw most of that off, spindle stopped.` : ''}`;
}

/** How the second end is held true; null where nothing is turned there but offset journals, or no chuck takes it. */
export function secondGrip(work: Work, layout: Layout, { grip, held }: SecondEnd): Grip | null {
  return trueGrip(work.part, work.lathe.machine, grip, behindGrip(layout, grip), held.supported);
}

/** What a hole under the jaws that leaves a thin wall means for how they are tightened; nothing where there is none. */
function thinUnderJaws({ part }: Work, { firstEnd }: Layout, grip: Bar): string {
  const hole = holeIn(part, grip.feature.id, firstEnd);
  if (hole === null) return '';
  const wall = dividedBy(minus(grip.diameter, hole.across), 2, 'floor');
  return isThinRound(hole.across, wall)
    ? ` The wall under the jaws is only ${bare(wall, part.unit)}: a plug in the bore, or jaws no tighter than facing wants.`
    : '';
}

/** The set-up of the second end, held true on something finished; null where only offset journals are on it. */
export function secondEnd(
  work: Work,
  layout: Layout,
  later: SecondEnd,
  chuck: Grip | null,
  measured: Set<string>,
): Holding | null {
  const { grip, from, trueFirst, length, held, why } = later;
  if (!trueFirst || chuck === null) return null;
  const { part, lathe } = work;
  const { secondEnd: over, trueWithin, leastStop } = ALLOWANCES[part.unit];
  const { pivot, second } = layout;
  const end = otherEnd(layout.firstEnd);
  const ends = part.ends.filter((feature) => feature.end === end);
  const wanted = ends.some(({ kind }) => kind === 'centre');
  const centred = !wanted && held.supported;
  const name = inSentence(grip.feature);
  const facing = facingCut(lathe, from, []);
  // With nothing to turn at this end, one facing brings it to length.
  const faceOnly = second.length === 0;
  const early = wanted && held.supported;
  const steps: Step[] = [
    {
      id: 'dial-in-true',
      kind: 'dial-in',
      title: 'Turn end for end, dial in true',
      say: 'Turn end for end, dial in true',
      feature: grip.feature.id,
      target: {
        quantity: 'indicator',
        low: zero,
        high: trueWithin,
        aim: zero,
        from: null,
        datum: null,
        fit: null,
      },
      instrument: 'indicator',
      caution: 'chuck-key',
      note:
        chuck.by === 'collet'
          ? `Held on the finished ${name} in a collet; the indicator only checks it.`
          : `Held on the finished ${name} over copper shim, jaws tight and the indicator read again after; indicator on ${indicatedOn(layout, grip)}.${thinUnderJaws(work, layout, grip)}`,
      before: [
        'Spindle out of gear, turned by hand.',
        isDelicate(grip)
          ? `The ${name} clean, no burr ${chuck.by === 'collet' ? 'on it' : 'under the shim'}.`
          : 'Burrs off, jaws clean.',
      ],
      minutes: 12,
    },
    ...(faceOnly
      ? []
      : [
          {
            id: 'face-second-end',
            kind: 'face' as const,
            title: `Face the second end clean${centred ? ' and centre it' : ''}`,
            say: 'Face the second end',
            cut: facing,
            note: `${overLength(work, layout)}${early ? ' The centre goes in that much deeper.' : held.supported ? ' Then bring the tailstock up.' : ''}`,
            why: [speedWhy(lathe, from, [], facing.speedRpm)],
            minutes: 6,
          },
        ]),
    ...(early ? centreStep(work, end) : []),
    ...measureSteps(part, second, measured),
    ...turnedSteps(work, {
      side: second,
      from,
      largest: pivot,
      zero: 'second end',
      end,
      onEnd: over,
      held,
    }),
    length,
    ...(early ? [] : centreStep(work, end)),
    ...(pivot.feature.kind === 'taper' && pivot.feature.smallEnd === end
      ? coneSteps(work, held, pivot, { from: 'finished end', distance: plus(lengthOf(second), pivot.length) })
      : []),
    ...recessSteps(
      work,
      pivot,
      { from: 'finished end', distance: plus(lengthOf(second), second.length === 0 ? leastStop : zero) },
      end,
    ),
    ...chamferSteps(work, pivot, end),
    ...threadSteps(work, second, held),
    ...measureShafts(part, ends, measured),
    ...endSteps(work, ends, held.supported),
    edges('second-end', 'second end'),
  ];
  return {
    setup: {
      id: 'second-end',
      machine: lathe.machine.id,
      title: 'Second end',
      say: `Second end, ${chuck.say}`,
      holding: chuck.holding,
      why: [...chuck.why, ...(why === null ? [] : [why]), ...centreStays(held, ends)],
      alternatives: [...chuck.alternatives],
    },
    steps,
  };
}
