import { minus, plus, type Length } from '../../measure/index.ts';
import { fitLimits, mateSize, type Limits, type Mate, type MateReading, type Part, type TurnedFeature } from '../../part/index.ts';

/** Readings of mates, by the ids of the mates, in place of those that the part holds. */
export type MateReadings = Readonly<Record<string, readonly MateReading[]>>;

/** How far the size of a mate moved from one state of it to another, or null where it did not. */
function moveOf(before: Mate | undefined, after: Mate | undefined): Length | null {
  if (before === undefined || after === undefined || before === after) return null;
  const move = minus(mateSize(after), mateSize(before));
  return move === 0 ? null : move;
}

const shifted = ({ low, high }: Limits, by: Length | null): Limits =>
  by === null ? { low, high } : { low: plus(low, by), high: plus(high, by) };

/**
 * The part with its mates measured again. A diameter with a fit follows from the readings; limits without one keep their
 * clearance to the bore, and a length keeps its end play to the width that it holds. A bearing without a fit is taken at its
 * nominal size, as its maker guarantees it. Exact; mates that the part does not have are left aside.
 */
export function remeasured(part: Part, readings: MateReadings): Part {
  const before = new Map(part.mates.map((mate) => [mate.id, mate]));
  const mates = part.mates.map((mate): Mate => {
    const read = Object.hasOwn(readings, mate.id) ? readings[mate.id] : undefined;
    return read === undefined || read.length === 0 ? mate : { ...mate, readings: [...read] };
  });
  const after = new Map(mates.map((mate) => [mate.id, mate]));
  const turned = part.turned.map((feature): TurnedFeature => {
    if (feature.kind === 'thread') return feature;
    const length = shifted(feature.length, moveOf(before.get(feature.between ?? ''), after.get(feature.between ?? '')));
    if (feature.kind !== 'journal' && feature.kind !== 'offset-journal') return { ...feature, length };
    const [was, is] = [before.get(feature.mate ?? ''), after.get(feature.mate ?? '')];
    if (was === is || is === undefined) return { ...feature, length };
    const fitted = feature.fit === null ? null : fitLimits(feature.fit, is);
    const moved = feature.fit === null && is.kind !== 'bore' ? null : moveOf(was, is);
    // A reading that is too rough for the fit still moves the window; the checks of the part say that it is too rough.
    return { ...feature, length, diameter: fitted?.ok === true ? fitted.value : shifted(feature.diameter, moved) };
  });
  return { ...part, mates, turned };
}
