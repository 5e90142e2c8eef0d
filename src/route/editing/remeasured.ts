import { INSTRUMENTS, minus, plus, type Instruments, type Length } from '../../measure/index.ts';
import {
  fitLimits,
  mateSize,
  ownLengths,
  ringOf,
  type EndFeature,
  type Limits,
  type Mate,
  type MateReading,
  type Part,
  type TurnedFeature,
} from '../../part/index.ts';
import { HAND_FITS } from '../../trade/index.ts';
import type { Route } from '../route.ts';

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

type Journal = Extract<TurnedFeature, { kind: 'journal' | 'offset-journal' }>;

/**
 * The limits of a diameter whose fit by hand, or seat for a bearing, they followed from before, from the mate as it is now: what
 * the instrument may be off has changed with it. Null where the limits were set otherwise, or the reading is too rough for the
 * fit: then they move.
 */
function followed(
  { fit, diameter }: Pick<Journal, 'diameter'> & { readonly fit: string | null },
  was: Mate,
  is: Mate,
  instruments: Instruments,
): Limits | null {
  if (fit === null || (ringOf(is) === null && !HAND_FITS.some((known) => known === fit))) return null;
  const [before, after] = [fitLimits(fit, was, instruments), fitLimits(fit, is, instruments)];
  if (!before.ok || !after.ok || before.value.low !== diameter.low || before.value.high !== diameter.high) return null;
  return after.value;
}

/** Lengths that are counted from a face stay there when one that holds a width moves: what they leave of the rest follows. */
function chained(turned: readonly TurnedFeature[]): TurnedFeature[] {
  const lengths = ownLengths(turned);
  return turned.map((feature, at) => {
    const own = lengths.ok ? lengths.value[at] : undefined;
    return own === undefined ? feature : { ...feature, length: own };
  });
}

/**
 * The part with its mates measured again. A diameter that follows from a fit by hand follows from the new readings; other limits
 * keep their clearance to the bore, as those of a class do, and a length keeps its end play to the width that it holds. A bearing
 * without a fit is taken at its nominal size, as its maker guarantees it. Exact; mates that the part does not have are left
 * aside.
 */
export function remeasured(part: Part, readings: MateReadings, instruments: Instruments = INSTRUMENTS): Part {
  const before = new Map(part.mates.map((mate) => [mate.id, mate]));
  const mates = part.mates.map((mate): Mate => {
    const read = Object.hasOwn(readings, mate.id) ? readings[mate.id] : undefined;
    return read === undefined || read.length === 0 ? mate : { ...mate, readings: [...read] };
  });
  const after = new Map(mates.map((mate) => [mate.id, mate]));
  const turned = part.turned.map((feature): TurnedFeature => {
    if (feature.kind === 'thread') return feature;
    const by = moveOf(before.get(feature.between ?? ''), after.get(feature.between ?? ''));
    const length = shifted(feature.length, by);
    const datum = feature.datum === null ? null : { ...feature.datum, length: shifted(feature.datum.length, by) };
    if (feature.kind !== 'journal' && feature.kind !== 'offset-journal') return { ...feature, length, datum };
    const [was, is] = [before.get(feature.mate ?? ''), after.get(feature.mate ?? '')];
    if (was === is || was === undefined || is === undefined) return { ...feature, length, datum };
    const anew = followed(feature, was, is, instruments);
    const moved = feature.fit === null && is.kind !== 'bore' ? null : moveOf(was, is);
    return { ...feature, length, datum, diameter: anew ?? shifted(feature.diameter, moved) };
  });
  const ends = part.ends.map((end): EndFeature => {
    const [was, is] = end.kind === 'bored-hole' ? [before.get(end.mate ?? ''), after.get(end.mate ?? '')] : [];
    if (end.kind !== 'bored-hole' || was === is || was === undefined || is === undefined) return end;
    return { ...end, diameter: followed(end, was, is, instruments) ?? shifted(end.diameter, moveOf(was, is)) };
  });
  return { ...part, mates, turned: chained(turned), ends };
}

/**
 * A route that was generated anew, with the operations back in it that measure a mate: what a mate was measured at stays in the
 * route, though a part that holds the reading already would not ask for it. `before` is the generated route from before.
 */
export function keepMeasuring(anew: Route, before: Route): Route {
  let { operations } = anew;
  before.operations.forEach((operation, index) => {
    const there = operations.some(({ id }) => id === operation.id);
    if (operation.kind !== 'measure-mate' || there || !anew.setups.some(({ id }) => id === operation.setup)) return;
    const earlier = before.operations.slice(0, index).map(({ id }) => id);
    const at = operations.findLastIndex(({ id }) => earlier.includes(id)) + 1;
    operations = [...operations.slice(0, at), operation, ...operations.slice(at)];
  });
  return { ...anew, operations };
}
