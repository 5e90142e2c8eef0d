import { minus, nanometres, plus, thou, type Length } from '../../measure/index.ts';
import { ALLOWANCES } from './allowances.ts';
import { finishCut } from './cuts.ts';
import { bare, inSentence, target, type Held, type Step, type Work } from './draft.ts';
import type { Bar } from './layout.ts';
import { ready, reductionsFor, type Place } from './sideSteps.ts';

/** The cone of a taper, after it was turned to its large end: by the compound, set to half the included angle. */
export function taperStep(work: Work, held: Held, bar: Bar, place: Place, angle: number, setOver: Length): Step | null {
  if (bar.feature.kind !== 'taper') return null;
  const { part, lathe } = work;
  const { feature } = bar;
  const spread = nanometres(Math.ceil(minus(feature.diameter.high, feature.diameter.low) / 2));
  const { cut, why } = finishCut(lathe, bar.diameter, feature.small, reductionsFor(bar, held), feature.roughness);
  const size = (length: Length): string => bare(length, part.unit);
  const degrees = angle.toFixed(3);
  return {
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
    instrument: spread * 2 <= ALLOWANCES.fine ? 'micrometer' : 'caliper',
    cut: {
      ...cut,
      feedPerTurn: null,
      last: null,
      depthOnRadius: thou(10),
      note: 'Fed by the compound, by hand, from the small end; the same at each pass.',
    },
    note: `The cone runs out ${size(place.distance)} from the ${place.from}. The size is at the small end. Blue shows whether the angle is right.`,
    before: [`Compound at ${degrees} degrees from the axis, gibs snug, carriage locked.`, ...ready(held)],
    why: [
      `The compound stands at half the included angle: atan((D - d) / 2l) = ${degrees} degrees.`,
      `Between centres the tailstock set over ${size(setOver)} does the same over the whole work.`,
      ...why,
    ],
    angle,
    minutes: 15,
  };
}
