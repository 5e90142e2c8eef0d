import { degrees, minus, nanometres, plus, toDegrees } from '../../measure/index.ts';
import { compoundAngle } from '../../trade/index.ts';
import { ALLOWANCES, BOUNDS } from './allowances.ts';
import { finishCut, onTheDial } from './cuts.ts';
import { bare, inSentence, target, type Held, type Step, type Work } from './draft.ts';
import type { Bar } from './layout.ts';
import { ready, reductionsFor, type Place } from './sideSteps.ts';
import { coneOf, otherWays, perTravel, setOverOf, taperMethod, taperText, type TaperMethod } from './taperMethod.ts';

/** The cone of a taper, after it was turned straight to its large end; none where the machine has no way to it. */
export function coneSteps(work: Work, held: Held, bar: Bar, place: Place): Step[] {
  const { part, lathe } = work;
  const { feature } = bar;
  const cone = coneOf(bar);
  const way = cone === null ? null : taperMethod(part, lathe.machine, cone, held.bending === 'between-centres');
  if (feature.kind !== 'taper' || cone === null || way === null) return [];
  const spread = nanometres(Math.ceil(minus(feature.diameter.high, feature.diameter.low) / 2));
  const { cut, why } = finishCut(lathe, bar.diameter, feature.small, reductionsFor(bar, held), feature.roughness);
  const size = (length: typeof bar.length): string => bare(length, part.unit);
  // A thousandth of a degree is finer than any scale; the number is the same whatever unit the part is shown in.
  const angle = toDegrees(degrees(Math.round(toDegrees(compoundAngle(cone)) * 1000) / 1000, 'half-even'));
  const shown = angle.toFixed(3);
  const over = size(setOverOf(part, cone));
  const set: Readonly<Record<TaperMethod, { readonly before: string; readonly why: string; readonly feed: string }>> = {
    compound: {
      before: `Compound at ${shown} degrees from the axis, gibs snug, carriage locked. Its scale is coarse: an indicator on a straight bar shows ${perTravel(part, cone, 'compound')}.`,
      why: `The compound stands at half the included angle: atan((D - d) / 2l) = ${shown} degrees.`,
      feed: 'Fed by the compound, by hand, from the small end; the same at each pass.',
    },
    attachment: {
      before: `Taper attachment at ${taperText(part, cone)}, clamped to the bed, its backlash taken out: an indicator on a straight bar shows ${perTravel(part, cone, 'carriage')}.`,
      why: `The attachment is set to the taper itself, (D - d) / l: ${taperText(part, cone)}. The slope is longer than the compound travels.`,
      feed: 'Fed by the carriage, from the small end; infeed by the compound where the cross slide is freed.',
    },
    'set-over': {
      before: `Tailstock set over ${over} toward the operator, read on an indicator; the dog free to rock. A light cut, calipers at both ends of the cone, and it is put right by what is wanting.`,
      why: `Set over by L(D - d) / 2l = ${over}, with L from where one centre bears to where the other does. The slope is longer than the compound travels.`,
      feed: 'Fed by the carriage, from the small end.',
    },
  };
  return [
    {
      id: `taper-${feature.id}`,
      kind: 'taper',
      title: `Turn the ${inSentence(feature)}: ${size(bar.diameter)} to ${size(feature.small)} over ${size(bar.length)}`,
      say: `Turn the ${inSentence(feature)}`,
      feature: feature.id,
      target: target(
        'diameter',
        { low: minus(feature.small, spread), aim: feature.small, high: plus(feature.small, spread) },
        bar.diameter,
        null,
      ),
      instrument: spread * 2 <= BOUNDS.fine ? 'micrometer' : 'caliper',
      cut: {
        ...cut,
        feedPerTurn: way === 'compound' ? null : cut.feedPerTurn,
        last: null,
        depthOnRadius: onTheDial(lathe, ALLOWANCES[part.unit].taperPass),
        note: set[way].feed,
      },
      note: `The cone runs out ${size(place.distance)} from the ${place.from}. The size is at the small end. Blue shows whether the angle is right.${way === 'set-over' ? ' Tailstock back to zero before anything else is turned.' : ''}`,
      before: [set[way].before, ...ready(held)],
      why: [set[way].why, ...why],
      alternatives: otherWays(part, lathe.machine, cone, way, shown),
      angle: way === 'compound' ? angle : null,
      minutes: 15,
    },
  ];
}
