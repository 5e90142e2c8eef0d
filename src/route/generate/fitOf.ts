import { midway, minus, negated, type Instruments, type Length } from '../../measure/index.ts';
import { mateSize, measuredRing, ringOf, type EndFeature, type Mate, type Part, type TurnedFeature } from '../../part/index.ts';
import { HAND_FITS, handClearances, ringSize, type HandFit } from '../../trade/index.ts';
import type { Target } from '../operation.ts';
import type { Work } from './draft.ts';
import { limitsOf } from './layout.ts';

/** The name of the fit by hand whose middle lies nearest to the middle of these clearances at a diameter. */
export function nearestFit(diameter: Length, least: Length, most: Length): HandFit {
  const middle = midway(least, most, 'half-even');
  const off = (fit: HandFit): number => {
    const clearances = handClearances(fit, diameter);
    return Math.abs(midway(clearances.least, clearances.most, 'half-even') - middle);
  };
  return HAND_FITS.reduce((best, fit) => (off(fit) < off(best) ? fit : best));
}

/** The mate that a feature's diameter is turned to: a bore that is measured. A bearing's bore is taken at its nominal size. */
export function boreOf(part: Part, feature: TurnedFeature): Mate | null {
  const id = 'mate' in feature ? feature.mate : null;
  const mate = part.mates.find((candidate) => candidate.id === id);
  return mate?.kind === 'bore' ? mate : null;
}

/** The bearing that a feature is a seat for, by its class. */
function bearingOf(part: Part, feature: TurnedFeature): Mate | null {
  const mate = 'mate' in feature && feature.fit !== null ? part.mates.find(({ id }) => id === feature.mate) : undefined;
  return mate?.kind === 'bearing' ? mate : null;
}

/** What the fit of a diameter is reckoned from: a bore as it is known, a bearing's bore within its maker's tolerance. */
function heldSize({ part, instruments }: Work, feature: TurnedFeature): readonly [mate: Mate, size: Length] | null {
  const bore = boreOf(part, feature);
  if (bore !== null) return [bore, mateSize(bore)];
  const bearing = bearingOf(part, feature);
  const size = bearing === null ? null : ringSize('inner', bearing.nominal, measuredRing(bearing, instruments));
  return bearing === null || size === null || !size.ok ? null : [bearing, size.value];
}

/** The width that a feature's length holds. */
export function widthOf(part: Part, feature: TurnedFeature): Mate | null {
  const id = 'between' in feature ? feature.between : null;
  return part.mates.find((candidate) => candidate.id === id) ?? null;
}

/**
 * The fit of a diameter window to a bore: what the window leaves of the bore as it is known, so that the window moves with one
 * that is measured again. Null where the feature goes into no bore, and no bearing of a class.
 */
export function diameterFit(
  work: Work,
  feature: TurnedFeature,
  window: { readonly low: Length; readonly high: Length },
): Target['fit'] {
  const held = heldSize(work, feature);
  if (held === null) return null;
  const [mate, size] = held;
  const { low, high } = limitsOf(feature);
  return {
    mate: mate.id,
    name: nearestFit(size, minus(size, high), minus(size, low)),
    leastClearance: minus(size, window.high),
    mostClearance: minus(size, window.low),
  };
}

/** What goes into a bored hole: a shaft, or the outer ring of a bearing. */
export function inHole(part: Part, end: EndFeature): Mate | null {
  const id = end.kind === 'bored-hole' ? end.mate : null;
  return part.mates.find((candidate) => candidate.id === id) ?? null;
}

/** The shaft that a bored hole is fitted to; it is measured before the hole is bored. A bearing is taken at its nominal size. */
export function shaftOf(part: Part, end: EndFeature): Mate | null {
  const mate = inHole(part, end);
  return mate?.kind === 'shaft' ? mate : null;
}

/** The size of what goes into a bored hole: as it is known, an outer ring within its maker's tolerance. */
export function inHoleSize(mate: Mate, instruments: Instruments): Length {
  const ring = ringOf(mate);
  const size = ring === null ? null : ringSize(ring, mate.nominal, measuredRing(mate, instruments));
  return size?.ok === true ? size.value : mateSize(mate);
}

/** The fit of a bore's window to what goes into it, so that the window moves with one that is measured again. */
export function holeFit({ part, instruments }: Work, end: EndFeature): Target['fit'] {
  const mate = inHole(part, end);
  if (mate === null || end.kind !== 'bored-hole' || (ringOf(mate) !== null && end.fit === null)) return null;
  const size = inHoleSize(mate, instruments);
  const [leastClearance, mostClearance] = [minus(end.diameter.low, size), minus(end.diameter.high, size)];
  return { mate: mate.id, name: nearestFit(size, leastClearance, mostClearance), leastClearance, mostClearance };
}

/** The fit of a length window to the width that it holds: end play. */
export function lengthFit(part: Part, feature: TurnedFeature): Target['fit'] {
  const mate = widthOf(part, feature);
  if (mate === null) return null;
  const { low, high } = feature.length;
  return {
    mate: mate.id,
    name: 'run',
    leastClearance: negated(minus(mateSize(mate), low)),
    mostClearance: negated(minus(mateSize(mate), high)),
  };
}
