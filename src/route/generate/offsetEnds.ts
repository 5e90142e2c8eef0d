import { minus, plus, thou, times, zero, type Length } from '../../measure/index.ts';
import { ALLOWANCES } from './allowances.ts';
import { bare, inSentence, type Holding, type Step, type Work } from './draft.ts';
import { gripOn, isAsStock, shouldersOf, type Bar, type Layout, type Side } from './layout.ts';
import type { SecondEnd } from './secondEnd.ts';
import { finishSteps, roughAim, roughStep } from './sideSteps.ts';
import { edges, measureSteps } from './sides.ts';

/** The offset journals of a side, in the set-up that is dialled in for their throw; one set-up for each throw. */
function offsetSteps(work: Work, side: Side, bar: Bar, from: Length, face: string, onEnd: Length): Step[] {
  const index = side.indexOf(bar);
  const shoulder = { from: face, distance: plus(shouldersOf(side)[index] ?? zero, onEnd) };
  // About the offset axis the bar first meets the tool at twice the throw over its own diameter.
  const swept = plus(from, times(bar.offset, 2));
  const rough = roughStep(work, bar, swept, shoulder);
  return [...(rough === null ? [] : [rough]), ...finishSteps(work, bar, rough === null ? swept : roughAim(bar), shoulder)];
}

/** The set-ups of the offset journals, one for each, after everything concentric: held on something finished, over shim. */
export function offsetEnds(
  work: Work,
  layout: Layout,
  { grip, from, trueFirst, length }: SecondEnd,
  measured: Set<string>,
): Holding[] {
  const { part, lathe } = work;
  const { pivot, first, second } = layout;
  const offsets = second.filter(({ offset }) => offset > 0);
  const throws = [...second, ...first].filter(({ offset }) => offset > 0);
  const inLine = (bar: Bar): string => {
    const other = throws[0];
    return other === undefined || other === bar ? '' : ` High spot in line with the ${inSentence(other.feature)}.`;
  };
  return throws.map((bar): Holding => {
    const onFirst = first.includes(bar);
    const side = onFirst ? first : second;
    const held = onFirst ? (gripOn([...second, pivot], ALLOWANCES.grip) ?? pivot) : grip;
    const face = onFirst ? 'first end' : 'second end';
    const onEnd = onFirst || trueFirst ? zero : ALLOWANCES.secondEnd;
    const inboard =
      side
        .slice(0, side.indexOf(bar))
        .filter(({ offset }) => offset === 0)
        .at(-1)?.diameter ?? (onFirst && !isAsStock(part, pivot) ? pivot.diameter : from);
    const steps: Step[] = [
      {
        id: `dial-in-${bar.feature.id}`,
        kind: 'dial-in',
        title: `Dial in the ${inSentence(bar.feature)}: ${bare(times(bar.offset, 2), part.unit)} on the indicator`,
        say: `Dial in the offset of the ${inSentence(bar.feature)}`,
        feature: bar.feature.id,
        target: {
          quantity: 'indicator',
          low: minus(times(bar.offset, 2), thou(1)),
          high: plus(times(bar.offset, 2), thou(1)),
          aim: times(bar.offset, 2),
          from: null,
          fit: null,
        },
        instrument: 'indicator',
        caution: 'chuck-key',
        note: `The indicator shows twice the throw. Held on the finished ${inSentence(held.feature)} over copper shim.${inLine(bar)}`,
        minutes: 15,
      },
      ...measureSteps(part, [bar], measured),
      ...offsetSteps(work, side, bar, inboard, face, onEnd),
      ...(!trueFirst && bar === offsets.at(-1) ? [length, edges(`offset-${bar.feature.id}`, 'second end')] : []),
    ];
    const holding = `Four-jaw chuck on the ${inSentence(held.feature)} over copper shim, offset ${bare(bar.offset, part.unit)}.`;
    const title = `Offset: ${inSentence(bar.feature)}`;
    return {
      setup: { id: `offset-${bar.feature.id}`, machine: lathe.machine.id, title, say: 'Offset, four jaw', holding },
      steps,
    };
  });
}
