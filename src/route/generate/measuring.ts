import { formatAmount, formatSize, magnitude, minus, plus, type Length } from '../../measure/index.ts';
import { mateSize, type EndFeature, type Mate, type Part } from '../../part/index.ts';
import { boreShape, type BoreShape } from '../../trade/index.ts';
import { ALLOWANCES } from './allowances.ts';
import type { Step } from './draft.ts';
import { boreOf, shaftOf, widthOf } from './fitOf.ts';
import type { Bar } from './layout.ts';

/** How the readings of a mate are taken, each place by place and direction by direction. */
const HOW: Readonly<Record<Mate['kind'], string | null>> = {
  bore: 'Both ends and the middle, along and across. The smallest counts.',
  shaft: 'Both ends and the middle, two ways across. The largest counts.',
  width: 'At three places round. The largest counts.',
  bearing: null,
  'outer-ring': null,
  bolt: null,
};

/**
 * The mates that the diameters and lengths of some bars depend on, each once; one that was measured at the desk is measured
 * once more.
 */
export function measureSteps(part: Part, bars: readonly Bar[], measured: Set<string>): Step[] {
  return measuring(
    part,
    bars.flatMap(({ feature }) => [boreOf(part, feature), widthOf(part, feature)]),
    measured,
  );
}

/** The shafts that the bored holes of an end depend on. */
export const measureShafts = (part: Part, ends: readonly EndFeature[], measured: Set<string>): Step[] =>
  measuring(
    part,
    ends.map((end) => shaftOf(part, end)),
    measured,
  );

function measuring(part: Part, wanted: readonly (Mate | null)[], measured: Set<string>): Step[] {
  const mates = wanted.filter((mate): mate is Mate => mate !== null);
  return mates.flatMap((mate): Step[] => {
    if (measured.has(mate.id)) return [];
    measured.add(mate.id);
    const bore = mate.kind === 'bore';
    // Only far enough off to be a slip: a mate is never what the drawing says, so the window is wide.
    const size = mateSize(mate);
    const { mateOff } = ALLOWANCES[part.unit];
    const around = { low: minus(size, mateOff), aim: size, high: plus(size, mateOff) };
    const shape = boreShape(mate.readings);
    const known = shape === null ? null : knownOf(shape, part.unit);
    return [
      {
        id: `measure-${mate.id}`,
        kind: 'measure-mate',
        title: `Measure the ${mate.say}`,
        say: `Measure the ${mate.say}`,
        feature: mate.id,
        target: { quantity: bore ? 'bore' : 'width', ...around, from: null, datum: null, fit: null },
        instrument: bore ? 'telescoping-gauge' : 'micrometer',
        note: [HOW[mate.kind], known].filter((text) => text !== null).join(' ') || null,
        before: ['The mate is clean, without burrs, and as warm as the work.'],
        why: ['What is turned to it is worked out from this reading, not from the drawing.'],
        minutes: 4,
      },
    ];
  });
}

/** What the readings at the desk said, in words. */
function knownOf({ smallest, largest, outOfRound, taper }: BoreShape, unit: Part['unit']): string {
  const amount = (length: Length): string => formatAmount(magnitude(length), unit);
  const round = outOfRound === null || outOfRound === 0 ? '' : `, out of round by ${amount(outOfRound)}`;
  const cone = taper === null || taper === 0 ? '' : `, the far end ${amount(taper)} ${taper > 0 ? 'larger' : 'smaller'}`;
  return `At the desk: ${formatSize(smallest, unit)} to ${formatSize(largest, unit)}${round}${cone}.`;
}
