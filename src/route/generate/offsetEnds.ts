import { minus, plus, times, zero, type Length } from '../../measure/index.ts';
import { ALLOWANCES, BOUNDS } from './allowances.ts';
import { facingCut, speedWhy } from './cuts.ts';
import { bare, inSentence, type Held, type Holding, type Step, type Work } from './draft.ts';
import { chamferSteps, recessSteps } from './edges.ts';
import { offsetGrip, type Grip } from './holding.ts';
import { gripOn, indicatedOn, isAsStock, necksOf, shouldersOf, type Bar, type Layout, type Side } from './layout.ts';
import { overLength, type SecondEnd } from './secondEnd.ts';
import { measureSteps } from './measuring.ts';
import { finishSteps, offCentreLimit, roughAim, roughStep } from './sideSteps.ts';
import { edges } from './sides.ts';

/** The offset journals in the order in which they are turned: those of the second end first. */
export const throwsOf = ({ first, second }: Layout): readonly Bar[] => [...second, ...first].filter(({ offset }) => offset > 0);

/** What an offset journal is held by. */
export const heldForOffset = ({ pivot, first, second }: Layout, { grip }: SecondEnd, bar: Bar): Bar =>
  first.includes(bar) ? (gripOn(second, pivot, BOUNDS.grip) ?? pivot) : grip;

/** The chuck of each offset journal; null where there is none for it. */
export const offsetGripOf = (work: Work, layout: Layout, later: SecondEnd, bar: Bar): Grip | null =>
  offsetGrip(work.part, work.lathe.machine, heldForOffset(layout, later, bar), bar.offset, bare(bar.offset, work.part.unit));

function offsetSteps(
  work: Work,
  held: Held,
  side: Side,
  bar: Bar,
  from: Length,
  face: string,
  onEnd: Length,
  total: Length,
): Step[] {
  const index = side.indexOf(bar);
  const shoulder = { from: face, distance: plus(shouldersOf(side)[index] ?? zero, onEnd) };
  // About the offset axis the bar first meets the tool at twice the throw over its own diameter.
  const swept = plus(from, times(bar.offset, 2));
  const most = offCentreLimit(work, bar, from, total);
  const rough = roughStep(work, held, bar, swept, shoulder, [], most);
  return [
    ...(rough === null ? [] : [rough]),
    ...finishSteps(work, held, bar, rough === null ? swept : roughAim(work, bar), shoulder, [], most),
    ...recessSteps(work, bar, shoulder),
    ...chamferSteps(work, bar),
  ];
}

/** Where the high spot of a throw points against the one that was turned first, in words. */
function inLine(bar: Bar, throws: readonly Bar[]): string {
  const [other] = throws;
  if (other === undefined || other === bar || other.feature.kind !== 'offset-journal' || bar.feature.kind !== 'offset-journal')
    return '';
  const turned = (((bar.feature.direction - other.feature.direction) % 360) + 360) % 360;
  const name = inSentence(other.feature);
  return turned === 0
    ? ` High spot in line with the ${name}.`
    : ` High spot ${String(turned)} degrees clockwise from that of the ${name}, seen from the left end.`;
}

/** Faces the second end where it is never held true: what is measured from it starts from a clean face. */
function faceClean(work: Work, layout: Layout, across: Length): Step {
  const { lathe } = work;
  const cut = facingCut(lathe, across, ['eccentric']);
  return {
    id: 'face-second-end',
    kind: 'face',
    title: 'Face the second end clean',
    say: 'Face the second end',
    cut,
    caution: 'out-of-balance',
    note: overLength(work, layout),
    why: [speedWhy(lathe, across, ['eccentric'], cut.speedRpm)],
    minutes: 6,
  };
}

/** The set-ups of the offset journals, one for each, after everything concentric: held on something finished, over shim. */
export function offsetEnds(work: Work, layout: Layout, later: SecondEnd, measured: Set<string>): Holding[] {
  const { part, lathe } = work;
  const { pivot, first, second, total } = layout;
  const { from, trueFirst, length } = later;
  const offsets = second.filter(({ offset }) => offset > 0);
  const throws = throwsOf(layout);
  const { secondEnd: left, trueWithin } = ALLOWANCES[part.unit];
  return throws.flatMap((bar, index): Holding[] => {
    const chuck = offsetGripOf(work, layout, later, bar);
    if (chuck === null) return [];
    const onFirst = first.includes(bar);
    const side = onFirst ? first : second;
    const before = throws[index - 1];
    // What was free before: the end of the throw before, else the second end where it was held true, else the first.
    const turnsRound = onFirst !== (before === undefined ? !trueFirst : first.includes(before));
    const grip = heldForOffset(layout, later, bar);
    const face = onFirst ? 'first end' : 'second end';
    const onEnd = onFirst || trueFirst ? zero : left;
    const necks = necksOf(side);
    const inboard =
      side
        .slice(0, side.indexOf(bar))
        .filter(({ offset }, at) => offset === 0 && necks[at] === false)
        .at(-1)?.diameter ?? (onFirst && !isAsStock(part, pivot) ? pivot.diameter : from);
    // Nothing can steady it off its own axis, so it stands out of the chuck alone.
    const held: Held = { bending: 'chuck', out: later.held.out, supported: false, slender: false, drilled: null };
    const steps: Step[] = [
      {
        id: `dial-in-${bar.feature.id}`,
        kind: 'dial-in',
        title: `Dial in the ${inSentence(bar.feature)}: ${bare(times(bar.offset, 2), part.unit)} on the indicator`,
        say: `Dial in the offset of the ${inSentence(bar.feature)}`,
        feature: bar.feature.id,
        target: {
          quantity: 'indicator',
          low: minus(times(bar.offset, 2), trueWithin),
          high: plus(times(bar.offset, 2), trueWithin),
          aim: times(bar.offset, 2),
          from: null,
          datum: null,
          fit: null,
        },
        instrument: 'indicator',
        caution: 'chuck-key',
        note: `The indicator shows twice the throw. Held on the finished ${inSentence(grip.feature)} over copper shim, read again once the jaws are tight; indicator on ${indicatedOn(layout, grip)}.${inLine(bar, throws)}`,
        before: [
          ...(turnsRound ? ['The part turned end for end.'] : []),
          'Spindle out of gear, turned by hand: everything clears the bed and the tool.',
        ],
        minutes: 15,
      },
      ...(!trueFirst && bar === offsets[0] ? [faceClean(work, layout, from)] : []),
      ...measureSteps(part, [bar], measured),
      ...offsetSteps(work, held, side, bar, inboard, face, onEnd, total),
      ...(!trueFirst && bar === offsets.at(-1) ? [length, edges(`offset-${bar.feature.id}`, 'second end', true)] : []),
    ];
    return [
      {
        setup: {
          id: `offset-${bar.feature.id}`,
          machine: lathe.machine.id,
          title: `Offset: ${inSentence(bar.feature)}`,
          say: chuck.say,
          holding: chuck.holding,
          why: [...chuck.why, 'Off centre comes after everything concentric: once it is cut, the work no longer runs true.'],
          alternatives: [...chuck.alternatives],
        },
        steps,
      },
    ];
  });
}
