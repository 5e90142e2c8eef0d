import {
  formatInch,
  formatMillimetre,
  millimetres,
  nanometres,
  plus,
  roundedTo,
  sixtyFourths,
  times,
  zero,
  type Length,
} from '../../measure/index.ts';
import type { EndFeature } from '../../part/index.ts';
import { centreHoleFor } from '../../trade/index.ts';
import { ALLOWANCES, SLENDER } from './allowances.ts';
import { facingCut, fluid, partingCut, rpmAt, speedWhy } from './cuts.ts';
import { bare, inSentence, type Held, type Holding, type Step, type Work } from './draft.ts';
import { chamferSteps, recessSteps } from './edges.ts';
import { endSteps } from './endSteps.ts';
import { heldFor } from './held.ts';
import type { Grip } from './holding.ts';
import { acrossCorners, isAsStock, isFine, lengthOf, limitsOf, type Bar, type Layout } from './layout.ts';
import { measureShafts, measureSteps } from './measuring.ts';
import { finishSteps, lengthStep, roughAim, roughStep, TAILSTOCK_AWAY, type Place } from './sideSteps.ts';
import { edges, hasWidth, threadSteps, turnedSteps } from './sides.ts';
import { coneSteps } from './taperStep.ts';
import { threadStep } from './threadStep.ts';

/** How far the first end is turned and stands out of the chuck, and how that is kept from bending. */
export type FirstEnd = {
  readonly onEnd: Length;
  /** From the faced end to where the pivot is turned. */
  readonly turned: Length;
  readonly out: Length;
  readonly held: Held;
  readonly why: string | null;
};

/** Decided before anything is held, since the chuck and the faults depend on it. */
export function firstEndOf(work: Work, { pivot, first, second }: Layout, offBar: boolean): FirstEnd {
  const { part } = work;
  const { endToLength, secondEnd, clean, partingWidth, overlap, sawn, jawRoom } = ALLOWANCES[part.unit];
  const outermost = first.at(-1) ?? pivot;
  const onEnd = hasWidth(part, outermost) ? endToLength : zero;
  const beyond = offBar
    ? plus(plus(lengthOf(second), plus(secondEnd, clean)), partingWidth)
    : nanometres(Math.min(lengthOf(second) / 2, overlap));
  const turned = plus(plus(plus(lengthOf(first), pivot.length), onEnd), nanometres(Math.floor(beyond)));
  const out = plus(plus(turned, sawn), jawRoom);
  const { held, why } = heldFor(work, first, out, [part.stock.size, outermost.diameter]);
  return { onEnd, turned, out, held, why };
}

/** The largest diameter, roughed and finished as far as `turned`, with its recesses toward the end that is turned first. */
export function pivotSteps(
  work: Work,
  held: Held,
  pivot: Bar,
  end: 'left' | 'right',
  place: Place,
  measured: Set<string>,
): Step[] {
  const { part } = work;
  if (isAsStock(part, pivot)) return [];
  const from = acrossCorners(part);
  const rough = isFine(pivot)
    ? roughStep(work, held, pivot, from, place, part.stock.form === 'round' ? [] : ['interrupted'])
    : null;
  const interrupted = rough === null && part.stock.form !== 'round' ? (['interrupted'] as const) : [];
  return [
    ...(rough === null ? [] : [rough]),
    ...measureSteps(part, [pivot], measured),
    ...finishSteps(work, held, pivot, rough === null ? from : roughAim(work, pivot), place, interrupted),
    ...recessSteps(work, pivot, place, end),
  ];
}

/** The thread of the largest diameter, from the end that is turned first: it runs out over what is cut away later. */
export function pivotThread(work: Work, { pivot, first }: Layout, held: Held): Step[] {
  const step = threadStep(work, held, pivot, { from: 'finished end', distance: plus(lengthOf(first), pivot.length) }, 'stock');
  return step === null ? [] : [step];
}

/** What a centre that the tailstock needs and the part did not ask for means for the finished end. */
export const centreStays = (held: Held, ends: readonly EndFeature[]): readonly string[] =>
  held.supported && ends.length === 0
    ? ['The centre stays in the finished end. Where it may not, leave so much more on that end and face it off last.']
    : [];

/** The centre hole of an end, by the diameter of the finished work there. */
function centreAt({ part, lathe }: Work, end: 'left' | 'right'): { readonly words: string; readonly across: Length } {
  const feature = end === 'left' ? part.turned[0] : part.turned.at(-1);
  const work = feature === undefined ? part.stock.size : feature.kind === 'taper' ? feature.small : limitsOf(feature).low;
  const { pilot, mouth } = centreHoleFor(work);
  const size = (length: Length): string => (part.unit === 'inch' ? formatInch(length, 2) : formatMillimetre(length, 2));
  const words = `Centre drill with a pilot of about ${size(pilot)}, in until its cone is ${size(mouth)} across. ${fluid(lathe)}.`;
  return { words, across: mouth };
}

/** Drills the centre that the part asks for, or that the tailstock needs, once the end is faced; `then` is done right after. */
export function centreStep(work: Work, end: 'left' | 'right', then = ''): Step[] {
  const { lathe } = work;
  return work.part.ends.flatMap((feature): Step[] => {
    if (feature.kind !== 'centre' || feature.end !== end) return [];
    const { words, across } = centreAt(work, end);
    const steel = { ...lathe, tool: 'high-speed-steel' as const };
    const speedRpm = rpmAt(steel, across, ['drill']);
    return [
      {
        id: `centre-${feature.id}`,
        kind: 'centre',
        title: `Drill the ${inSentence(feature)}`,
        say: 'Drill the centre',
        feature: feature.id,
        cut: {
          tool: 'centre drill, high-speed steel',
          speedRpm,
          feedPerTurn: null,
          depthOnRadius: null,
          last: null,
          spring: false,
          note: words,
        },
        note: then === '' ? null : then,
        before: ['End faced clean, tailstock lined up with the headstock.'],
        why: [speedWhy(steel, across, ['drill'], speedRpm)],
        minutes: 3,
      },
    ];
  });
}

/**
 * The first set-up, on the bar or the blank: faced, the pivot turned past the parting line, then the first side from the pivot
 * outward, its lengths, threads and holes; parted off where the stock is long enough to hold it.
 */
export function firstEnd(
  work: Work,
  layout: Layout,
  plan: FirstEnd,
  grip: Grip,
  offBar: boolean,
  measured: Set<string>,
): Holding {
  const { part, lathe } = work;
  const { pivot, first, firstEnd: end, total } = layout;
  const { stock, unit } = part;
  const { onEnd, turned, out, held } = plan;
  const outermost = first.at(-1) ?? pivot;
  const ends = part.ends.filter((feature) => feature.end === end);
  const wanted = ends.some(({ kind }) => kind === 'centre');
  const centred = !wanted && (held.supported || ends.length > 0);
  const asStock = isAsStock(part, pivot);
  const bar = asStock ? stock.size : pivot.diameter;
  const across = acrossCorners(part);
  const shown = bare(roundedTo(out, unit === 'inch' ? sixtyFourths(4) : millimetres(1), 'ceiling'), unit);
  const what = offBar ? 'bar' : 'blank';
  // What stands out far and alone whips when it is faced; it is held short until there is a centre in it.
  const short = held.supported && out > times(stock.size, SLENDER.tailstock);
  const drawn = `Then draw the ${what} out to ${shown} and bring the tailstock up.`;
  const facing = facingCut(lathe, across, stock.form === 'round' ? [] : ['interrupted']);
  const away = held.supported ? [TAILSTOCK_AWAY] : [];
  const steps: Step[] = [
    {
      id: 'grip-first-end',
      kind: 'grip',
      title: `Grip the ${what} ${short ? 'short' : `${shown} out`}, face it${centred ? ' and centre it' : ''}`,
      say: `Grip the ${what}, face it${centred ? ', centre it' : ''}`,
      cut: facing,
      caution: 'chuck-key',
      note: [
        'Clean the face and no more.',
        ...(centred ? [centreAt(work, end).words] : []),
        ...(wanted || !held.supported ? [] : [short ? drawn : 'Then bring the tailstock up.']),
      ].join(' '),
      before: [
        `Stock checked: ${bare(stock.size, unit)} across or a little over, ${bare(stock.length, unit)} long or more, straight.`,
        ...(offBar && lathe.machine.spindleBore !== null ? ['What stands out behind the headstock is covered and held.'] : []),
      ],
      why: [
        speedWhy(lathe, across, stock.form === 'round' ? [] : ['interrupted'], facing.speedRpm),
        ...(short ? [`Held short first: ${shown} out it is over ${SLENDER.tailstock} diameters with nothing to steady it.`] : []),
      ],
      minutes: 8,
    },
    ...centreStep(work, end, !held.supported ? '' : short ? drawn : 'Then bring the tailstock up.'),
    ...pivotSteps(work, held, pivot, end, { from: 'faced end', distance: turned }, measured),
    ...measureSteps(part, first, measured),
    ...turnedSteps(work, { side: first, from: bar, largest: pivot, zero: 'faced end', end, onEnd, held }),
    ...(onEnd > 0 ? [lengthStep(work, outermost, onEnd, 'end', [], away)] : []),
    ...(pivot.feature.kind === 'taper' && pivot.feature.smallEnd === end
      ? coneSteps(work, held, pivot, { from: 'finished end', distance: plus(lengthOf(first), pivot.length) })
      : []),
    ...chamferSteps(work, pivot, end),
    ...threadSteps(work, first, held),
    ...pivotThread(work, layout, held),
    ...measureShafts(part, ends, measured),
    ...endSteps(work, ends, held.supported),
    edges('first-end', 'first end'),
  ];
  if (offBar) {
    const { secondEnd, clean, partingWidth } = ALLOWANCES[unit];
    const left = plus(secondEnd, clean);
    const parted = plus(total, left);
    const cut = partingCut(lathe, bar);
    steps.push({
      id: 'part-off',
      kind: 'part-off',
      title: `Part off at ${bare(parted, unit)} from the finished end`,
      say: 'Part off',
      cut,
      stop: { from: 'finished end', distance: parted },
      caution: 'parting',
      note: `Measured to the side of the tool that looks at the tailstock. ${bare(left, unit)} is left to face the second end.`,
      before: [
        'Tailstock back. Everything on this end is done and its edges broken.',
        `Tool ${bare(partingWidth, unit)} wide or less, on centre, square.`,
      ],
      why: [speedWhy(lathe, bar, ['part'], cut.speedRpm)],
      alternatives: [
        'Groove a little way in and saw the rest off by hand: spindle stopped, out of gear, a board over the bed. Thick work and light lathes want that.',
      ],
      minutes: 6,
    });
  }
  return {
    setup: {
      id: 'first-end',
      machine: lathe.machine.id,
      title: 'First end',
      say: 'First end',
      holding: grip.holding,
      why: [...grip.why, ...(plan.why === null ? [] : [plan.why]), ...centreStays(held, ends)],
      alternatives: [...grip.alternatives],
    },
    steps,
  };
}
