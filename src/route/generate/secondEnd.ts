import { nanometres, plus, thou, times, zero, type Length } from '../../measure/index.ts';
import { ALLOWANCES, SLENDER } from './allowances.ts';
import { facingCut } from './cuts.ts';
import { bare, inSentence, type Holding, type Step, type Work } from './draft.ts';
import { endSteps } from './endSteps.ts';
import { gripOn, isAsStock, lengthOf, type Bar, type Layout } from './layout.ts';
import { lengthStep } from './sideSteps.ts';
import { edges, measureSteps, threadSteps, turnedSteps } from './sides.ts';

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
};

const otherEnd = ({ firstEnd }: Layout): 'left' | 'right' => (firstEnd === 'right' ? 'left' : 'right');

/** What is held and turned in the later set-ups, decided once for all of them. */
export function secondEndOf(work: Work, layout: Layout, offBar: boolean): SecondEnd {
  const { part } = work;
  const { pivot, first, second } = layout;
  const offsets = second.filter(({ offset }) => offset > 0);
  const ends = part.ends.filter((feature) => feature.end === otherEnd(layout));
  const trueFirst = offsets.length === 0 || second.length > offsets.length || ends.length > 0;
  return {
    grip: gripOn([...first, pivot], ALLOWANCES.grip) ?? pivot,
    from: offBar && !isAsStock(part, pivot) ? pivot.diameter : part.stock.size,
    trueFirst,
    length: lengthStep(work, second.at(-1) ?? pivot, ALLOWANCES.secondEnd, 'end', trueFirst ? [] : ['eccentric']),
  };
}

/** The set-up of the second end, held true on something finished, over shim; null where only offset journals are on it. */
export function secondEnd(
  work: Work,
  layout: Layout,
  { grip, from, trueFirst, length }: SecondEnd,
  measured: Set<string>,
): Holding | null {
  if (!trueFirst) return null;
  const { part, lathe } = work;
  const { pivot, second } = layout;
  const ends = part.ends.filter((feature) => feature.end === otherEnd(layout));
  const overhang = plus(plus(lengthOf(second), pivot.length), ALLOWANCES.secondEnd);
  const thinnest = nanometres(Math.min(...[...second, pivot].map(({ diameter }) => diameter)));
  const supported = overhang > times(thinnest, SLENDER.tailstock);
  const shim = `${inSentence(grip.feature)} over copper shim`;
  const steps: Step[] = [
    {
      id: 'dial-in-true',
      kind: 'dial-in',
      title: 'Turn end for end, dial in true',
      say: 'Turn end for end, dial in true',
      feature: grip.feature.id,
      target: { quantity: 'indicator', low: zero, high: thou(1), aim: zero, from: null, fit: null },
      instrument: 'indicator',
      caution: 'chuck-key',
      note: `Held on the finished ${shim}, jaws just tight.`,
      minutes: 12,
    },
    {
      id: 'face-second-end',
      kind: 'face',
      title: `Face the second end clean${supported || ends.length > 0 ? ' and centre it' : ''}`,
      say: 'Face the second end',
      cut: facingCut(lathe, from, []),
      note: `Leave ${bare(ALLOWANCES.secondEnd, part.unit)} over length.${supported ? ' Then bring the tailstock up.' : ''}`,
      minutes: 6,
    },
    ...measureSteps(part, second, measured),
    ...turnedSteps(work, { side: second, from, zero: 'second end', onEnd: ALLOWANCES.secondEnd }),
    length,
    ...threadSteps(work, second),
    ...endSteps(work, ends),
    edges('second-end', 'second end'),
  ];
  const holding = `Four-jaw chuck on the ${shim}, dialled true${supported ? ', tailstock centre' : ''}.`;
  return {
    setup: { id: 'second-end', machine: lathe.machine.id, title: 'Second end', say: 'Second end, four jaw', holding },
    steps,
  };
}
