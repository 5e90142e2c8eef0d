import { millimetres, nanometres, plus, roundedTo, sixtyFourths, times, zero } from '../../measure/index.ts';
import { ALLOWANCES, SLENDER } from './allowances.ts';
import { facingCut, partingCut } from './cuts.ts';
import { bare, type Holding, type Step, type Work } from './draft.ts';
import { endSteps } from './endSteps.ts';
import { isAsStock, lengthOf, type Layout } from './layout.ts';
import { finishSteps, isFine, lengthStep, roughAim, roughStep } from './sideSteps.ts';
import { edges, hasWidth, measureSteps, threadSteps, turnedSteps } from './sides.ts';

/**
 * The first set-up, on the bar or the blank: faced, the pivot turned past the parting line, then the first side from the pivot
 * outward, its lengths, threads and holes; parted off where the stock is long enough to hold it.
 */
export function firstEnd(work: Work, layout: Layout, offBar: boolean, measured: Set<string>): Holding {
  const { part, lathe } = work;
  const { pivot, first, second, firstEnd: end, total } = layout;
  const { stock, unit } = part;
  const outermost = first.at(-1) ?? pivot;
  const onEnd = hasWidth(part, outermost) ? ALLOWANCES.endToLength : zero;
  const beyond = offBar
    ? plus(plus(lengthOf(second), ALLOWANCES.secondEnd), ALLOWANCES.partingWidth)
    : nanometres(Math.min(lengthOf(second) / 2, ALLOWANCES.jawRoom));
  const turned = plus(plus(plus(lengthOf(first), pivot.length), onEnd), nanometres(Math.floor(beyond)));
  const out = plus(plus(turned, ALLOWANCES.sawn), offBar ? ALLOWANCES.jawRoom : zero);
  const supported = out > times(stock.size, SLENDER.tailstock) || out > times(outermost.diameter, SLENDER.tailstock);
  const centred = supported || part.ends.some((feature) => feature.end === end);
  const asStock = isAsStock(part, pivot);
  const pivotSteps: Step[] = [];
  if (!asStock) {
    const place = { from: 'faced end', distance: turned };
    const rough = isFine(pivot) ? roughStep(work, pivot, stock.size, place) : null;
    if (rough !== null) pivotSteps.push(rough);
    pivotSteps.push(...measureSteps(part, [pivot], measured));
    pivotSteps.push(...finishSteps(work, pivot, rough === null ? stock.size : roughAim(pivot), place));
  }
  const bar = asStock ? stock.size : pivot.diameter;
  const steps: Step[] = [
    {
      id: 'grip-first-end',
      kind: 'grip',
      title: `Grip the ${offBar ? 'bar' : 'blank'} ${bare(roundedTo(out, unit === 'inch' ? sixtyFourths(8) : millimetres(1), 'ceiling'), unit)} out, face it${centred ? ' and centre it' : ''}`,
      say: `Grip the ${offBar ? 'bar' : 'blank'}, face it${centred ? ', centre it' : ''}`,
      cut: facingCut(lathe, stock.size, []),
      caution: 'chuck-key',
      note: supported ? 'Clean the face and no more, then bring the tailstock up.' : 'Clean the face and no more.',
      minutes: 8,
    },
    ...pivotSteps,
    ...measureSteps(part, first, measured),
    ...turnedSteps(work, { side: first, from: bar, zero: 'faced end', onEnd }),
    ...(onEnd > 0 ? [lengthStep(work, outermost, onEnd, 'end', [])] : []),
    ...threadSteps(work, first),
    ...endSteps(
      work,
      part.ends.filter((feature) => feature.end === end),
    ),
    edges('first-end', 'first end'),
  ];
  if (offBar) {
    const parted = plus(total, ALLOWANCES.secondEnd);
    steps.push({
      id: 'part-off',
      kind: 'part-off',
      title: `Part off at ${bare(parted, unit)} from the finished end`,
      say: 'Part off',
      cut: partingCut(lathe, bar),
      stop: { from: 'finished end', distance: parted },
      caution: 'parting',
      note: `Tailstock back. ${bare(ALLOWANCES.secondEnd, unit)} is left to face the second end.`,
      minutes: 6,
    });
  }
  const holding = `Three-jaw chuck on the ${offBar ? 'bar' : 'blank'}${supported ? ', tailstock centre in the end' : ''}.`;
  return { setup: { id: 'first-end', machine: lathe.machine.id, title: 'First end', say: 'First end', holding }, steps };
}
