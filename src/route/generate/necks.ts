import { formatAmount, minus, plus, smaller, times, type Length } from '../../measure/index.ts';
import { ALLOWANCES } from './allowances.ts';
import { deepestPass, finishCut, groovingCut, minutesOf, speedWhy } from './cuts.ts';
import { bare, inSentence, target, type Held, type Step, type Work } from './draft.ts';
import { diameterFit } from './fitOf.ts';
import { isFine, limitsOf, type Bar } from './layout.ts';
import { finishSteps, roughAim, TAILSTOCK_UP, type Place } from './sideSteps.ts';

/**
 * Up to so many widths of the usual grooving tool a neck is plunged from end to end; a longer one is turned between two
 * plunges.
 */
const PLUNGED = 3;

/** How wide a tool a recess takes. */
export const grooveTool = ({ part }: Work, width: Length): Length => smaller(ALLOWANCES[part.unit].grooveTool, width);

/**
 * The steps of a recess between two larger diameters: a groove or a short neck is plunged, a long neck plunged at both of its
 * shoulders over size and then turned between them. `from` is what stands there, `inboard` the shoulder nearer the chuck.
 */
export function neckSteps(work: Work, held: Held, bar: Bar, from: Length, inboard: Place): Step[] {
  const { part, lathe } = work;
  const { feature } = bar;
  const name = inSentence(feature);
  const size = (length: Length): string => bare(length, part.unit);
  const width = grooveTool(work, bar.length);
  const round = feature.kind === 'groove' && feature.form === 'round';
  const reductions = held.slender ? (['long'] as const) : [];
  const cut = groovingCut(lathe, from, width, reductions, round);
  const outboard = minus(inboard.distance, bar.length);
  const where = `From ${size(outboard)} to ${size(inboard.distance)} from the ${inboard.from}.`;
  const why = [
    speedWhy(lathe, from, ['part', ...reductions], cut.speedRpm),
    'It stands between larger diameters, so a turning tool cannot get at it from the end; it is cut last, while the work is stiff.',
  ];
  const before = held.bending === 'chuck-and-tailstock' ? [TAILSTOCK_UP] : [];
  const { low, high } = limitsOf(feature);
  if (bar.length <= times(width, PLUNGED)) {
    const window = { low, aim: bar.diameter, high };
    return [
      {
        id: `${feature.kind === 'groove' ? 'groove' : 'finish'}-${feature.id}`,
        kind: feature.kind === 'groove' ? 'groove' : 'finish',
        title: `Cut the ${name} to ${size(bar.diameter)}, ${size(bar.length)} wide`,
        say: `Cut the ${name}`,
        feature: feature.id,
        target: target('diameter', window, from, diameterFit(work, feature, window)),
        instrument: isFine(bar) ? 'micrometer' : 'caliper',
        cut,
        stop: inboard,
        note: `${where}${bar.length > width ? ' Plunge side by side, each a little over the last, then once along the bottom.' : ''}`,
        before,
        why,
        minutes: 8,
      },
    ];
  }
  const aim = roughAim(work, bar);
  const { roughSpread } = ALLOWANCES[part.unit];
  const plunge: Step = {
    id: `rough-${feature.id}`,
    kind: 'rough',
    title: `Plunge both shoulders of the ${name} to ${size(aim)}`,
    say: `Plunge the shoulders of the ${name}`,
    feature: feature.id,
    target: target('diameter', { low: minus(aim, roughSpread), aim, high: plus(aim, roughSpread) }, from, null),
    instrument: 'caliper',
    cut,
    stop: inboard,
    note: `${where} Then take out what stands between them with a turning tool, no deeper than ${formatAmount(deepestPass(lathe, from, cut.speedRpm).depth, part.unit)} a pass.`,
    before,
    why,
    minutes: minutesOf(finishCut(lathe, from, aim, reductions, null).cut, bar.length, 4) + 5,
  };
  const finish = finishSteps(work, held, bar, aim, inboard);
  return [
    plunge,
    ...finish.map((step) =>
      step.kind === 'finish'
        ? { ...step, note: `${step.note ?? ''} Into both corners with a right and a left hand tool.`.trim() }
        : step,
    ),
  ];
}
