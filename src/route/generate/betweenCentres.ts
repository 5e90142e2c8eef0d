import { nanometres, plus, zero } from '../../measure/index.ts';
import type { Machine, Part } from '../../part/index.ts';
import { ALLOWANCES, BOUNDS } from './allowances.ts';
import { facingCut, speedWhy } from './cuts.ts';
import { overallOf, wholeLength } from './datums.ts';
import { bare, inSentence, target, type Holding, type Step, type Work } from './draft.ts';
import { chamferSteps, recessSteps } from './edges.ts';
import { centreStep, pivotSteps, pivotThread } from './firstEnd.ts';
import { heldBetweenCentres } from './held.ts';
import { acrossCorners, isAsStock, lengthOf, otherEnd, type Layout } from './layout.ts';
import { measureSteps } from './measuring.ts';
import { edges, threadSteps, turnedSteps } from './sides.ts';
import { coneSteps } from './taperStep.ts';

/**
 * True where a part is turned between centres: it asks for a centre in both ends, has nothing else in them and nothing off its
 * axis, comes as a blank, and the machine takes its length.
 */
export function turnsBetweenCentres(
  part: Part,
  lathe: Machine,
  { first, second, pivot, total }: Layout,
  offBar: boolean,
): boolean {
  const centred = (end: 'left' | 'right'): boolean =>
    part.ends.some((feature) => feature.kind === 'centre' && feature.end === end);
  const concentric = [...first, pivot, ...second].every(({ offset }) => offset === 0);
  const only = part.ends.every(({ kind }) => kind === 'centre');
  return (
    !offBar &&
    centred('left') &&
    centred('right') &&
    only &&
    concentric &&
    lathe.betweenCentres !== null &&
    total <= lathe.betweenCentres
  );
}

/** True where a driving dog finds room: on the raw stock of the second side, and then on what is finished of the first. */
export const dogHolds = ({ first, second, pivot }: Layout): boolean =>
  lengthOf(second) >= BOUNDS.dog && (lengthOf(first) >= BOUNDS.dog || pivot.length >= BOUNDS.dog);

/**
 * The set-ups of a part between centres: both ends faced to length and centred, then one side and the other with a driving dog.
 */
export function betweenCentres(work: Work, layout: Layout, measured: Set<string>): Holding[] {
  const { part, lathe } = work;
  const { pivot, first, second, firstEnd: end, total } = layout;
  const other = otherEnd(end);
  const { stock, unit } = part;
  const across = acrossCorners(part);
  const facing = facingCut(lathe, across, stock.form === 'round' ? [] : ['interrupted']);
  const why = [speedWhy(lathe, across, stock.form === 'round' ? [] : ['interrupted'], facing.speedRpm)];
  const held = heldBetweenCentres([...first, pivot, ...second], total);
  const whole = wholeLength(part);
  const machine = lathe.machine.id;
  const faced: Step[] = [
    {
      id: 'grip-first-end',
      kind: 'grip',
      title: 'Grip the blank short and face it',
      say: 'Grip the blank, face it',
      cut: facing,
      caution: 'chuck-key',
      note: 'Clean the face and no more.',
      why,
      before: [`Stock checked: ${bare(stock.size, unit)} across, ${bare(stock.length, unit)} long or more, straight.`],
      minutes: 6,
    },
    ...centreStep(work, end),
    {
      id: 'face-to-length',
      kind: 'length',
      title: `Turn end for end, face to ${bare(total, unit)} long`,
      say: 'Turn end for end, face to length',
      ...(whole === null ? {} : { feature: whole.feature.id }),
      target: {
        ...target('length', { ...overallOf(part), aim: total }, stock.length, null),
        datum: whole?.datum ?? null,
      },
      instrument: 'caliper',
      cut: facing,
      caution: 'chuck-key',
      note: 'The whole length first: between centres the ends are not reached again.',
      why,
      minutes: 8,
    },
    ...centreStep(work, other),
  ];
  const beyond = nanometres(Math.floor(Math.min(lengthOf(second) / 2, ALLOWANCES[part.unit].jawRoom)));
  const turned = plus(plus(lengthOf(first), pivot.length), beyond);
  const from = isAsStock(part, pivot) ? stock.size : pivot.diameter;
  const dog = (id: 'first' | 'second', on: string, note: string): Step => ({
    id: `dog-${id}`,
    kind: 'grip',
    title: `Dog on the ${on}, between centres`,
    say: 'Between centres, with the dog',
    caution: 'chuck-key',
    note,
    before: [
      'Headstock centre clean and true, tailstock lined up: a test cut at both ends agrees.',
      'Tail of the dog free in its slot.',
    ],
    minutes: 6,
  });
  const outer = first.at(-1) ?? pivot;
  const onFirst: Step[] = [
    dog('first', 'raw end', 'The dog on what is turned later.'),
    ...pivotSteps(work, held, pivot, end, { from: 'first end', distance: turned }, measured),
    ...measureSteps(part, first, measured),
    ...turnedSteps(work, { side: first, from, largest: pivot, zero: 'first end', end, onEnd: zero, held }),
    ...(pivot.feature.kind === 'taper' && pivot.feature.smallEnd === end
      ? coneSteps(work, held, pivot, { from: 'finished end', distance: plus(lengthOf(first), pivot.length) })
      : []),
    ...chamferSteps(work, pivot, end),
    ...threadSteps(work, first, held),
    ...pivotThread(work, layout, held),
    edges('first-end', 'first end'),
  ];
  const onSecond: Step[] = [
    dog(
      'second',
      inSentence(outer.feature),
      outer.feature.kind === 'thread'
        ? `A split nut under the dog: the ${inSentence(outer.feature)} is finished.`
        : outer.feature.kind === 'taper'
          ? `A split sleeve of the same taper under the dog: on a cone it slips, and the ${inSentence(outer.feature)} is finished.`
          : `Brass under the screw of the dog: the ${inSentence(outer.feature)} is finished.`,
    ),
    ...measureSteps(part, second, measured),
    ...turnedSteps(work, {
      side: second,
      largest: pivot,
      from: isAsStock(part, pivot) ? stock.size : acrossCorners(part),
      zero: 'second end',
      end: other,
      onEnd: zero,
      held,
    }),
    ...(pivot.feature.kind === 'taper' && pivot.feature.smallEnd === other
      ? coneSteps(work, held, pivot, { from: 'second end', distance: plus(lengthOf(second), pivot.length) })
      : []),
    ...(second.length === 0 ? [] : recessSteps(work, pivot, { from: 'second end', distance: lengthOf(second) }, other)),
    ...chamferSteps(work, pivot, other),
    ...threadSteps(work, second, held),
    edges('second-end', 'second end'),
  ];
  const reason =
    'The part asks for a centre in both ends: between them every diameter runs true to every other, however often it is turned round.';
  const slender = held.slender
    ? [
        `It is ${(total / Math.min(...[...first, pivot, ...second].map(({ diameter }) => diameter))).toFixed(1)} times as long as it is thin: cut slower, and bring a rest up where there is one.`,
      ]
    : [];
  const alternatives = [`Three-jaw chuck and tailstock for the first end, then a chuck on something finished over shim.`];
  return [
    {
      setup: {
        id: 'ends',
        machine,
        title: 'Both ends',
        say: 'Both ends',
        holding: 'Three-jaw chuck on the blank, held short.',
        why: ['Faced and centred here, everything else is turned between the centres.'],
        alternatives: [],
      },
      steps: faced,
    },
    {
      setup: {
        id: 'first-end',
        machine,
        title: 'First end',
        say: 'First end, between centres',
        holding: 'Between centres, driven by a dog on the raw end.',
        why: [reason, ...slender],
        alternatives,
      },
      steps: onFirst,
    },
    {
      setup: {
        id: 'second-end',
        machine,
        title: 'Second end',
        say: 'Second end, between centres',
        holding: `Between centres, driven by a dog on the ${inSentence(outer.feature)}, which is kept from marks.`,
        why: [reason],
        alternatives: [],
      },
      steps: onSecond,
    },
  ];
}
