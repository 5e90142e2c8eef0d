import { larger, magnitude, minus, nanometres, NM_PER_THOU, plus, scaled, times, type Length } from '../measure/index.ts';
import { ringOf, type Mate } from '../part/index.ts';
import type { MeasuredQuantity, Operation } from '../route/index.ts';
import { ringTolerance, type BearingRing } from '../trade/index.ts';
import { coldPart } from './cold.ts';
import type { Place } from './intent.ts';
import { mateHere } from './mates.ts';
import type { JobState } from './state.ts';
import type { Doubt } from './talk.ts';
import { directionOf, lastReading, lastSize, standingOf, windowOf } from './window.ts';

/** A part does not grow under the tool: more than this over the last reading is asked about (2 thou; ours). */
const GROWTH_ALLOWED: Length = nanometres(2 * NM_PER_THOU);
/** A drop of less than this since the last reading is never odd, whatever the plan's depth of cut (50 thou; ours). */
const DROP_ALLOWED: Length = nanometres(50 * NM_PER_THOU);
/** So far past a limit it is more likely a slip of the tongue than of the tool (20 thou; ours). */
const FAR_PAST: Length = nanometres(20 * NM_PER_THOU);

/**
 * Why a size should be asked about before it is stored, or null where it is as it should be. The order matters: what cannot
 * be, before what is unlikely, before what would be a pity.
 */
export function doubtOf(
  state: JobState,
  operation: Operation,
  quantity: MeasuredQuantity,
  read: Length,
  place: Place | null,
): Doubt | null {
  const value = quantity === 'bore' || quantity === 'width' ? read : coldPart(state, quantity, read, state.celsius);
  const stock = state.plan.part.stock;
  const limit =
    quantity === 'diameter' || quantity === 'hole'
      ? stock.size
      : quantity === 'length' || quantity === 'depth'
        ? stock.length
        : null;
  if (value < 0 && quantity !== 'indicator') return 'outside-the-stock';
  if (limit !== null && value > limit) return 'outside-the-stock';
  const ring = quantity === 'bore' ? 'inner' : quantity === 'width' ? 'outer' : null;
  if (ring !== null && farFromTheBearing(ring, mateHere(state, operation), value)) return 'far-from-the-target';
  const target = operation.target;
  const window = windowOf(state, operation);
  if (target === null || window === null || target.quantity !== quantity) return null;
  const direction = directionOf(quantity);
  const last = lastSize(state, operation);
  const before = last ?? target.from;
  switch (direction) {
    case 'shrinks': {
      if (before !== null && value > plus(before, growthAllowed(state, operation, place))) return 'bigger-than-it-was';
      if (minus(window.low, value) > FAR_PAST) return 'far-from-the-target';
      if (last !== null && minus(last, value) > dropAllowed(operation)) return 'far-from-the-last';
      return standingOf(value, window, direction) === 'past' ? 'under-the-low-limit' : null;
    }
    case 'grows':
      if (minus(value, window.high) > FAR_PAST) return 'far-from-the-target';
      if (last !== null && minus(last, value) > GROWTH_ALLOWED) return 'far-from-the-last';
      return standingOf(value, window, direction) === 'past' ? 'past-the-high-limit' : null;
    case 'set': {
      // A bore is what it is; only a reading a tenth away from what the plan knows of it is worth a question.
      const reach = larger(scaled(magnitude(window.aim), 0.1, 'half-even'), FAR_PAST);
      return value < minus(window.low, reach) || value > plus(window.high, reach) ? 'far-from-the-target' : null;
    }
  }
}

/** At another end of the work than the last reading a taper shows, which may be as much as is odd for any size. */
function growthAllowed(state: JobState, operation: Operation, place: Place | null): Length {
  const before = lastReading(state, operation)?.place ?? null;
  const elsewhere = place !== null && before !== null && place !== before && place !== 'across' && before !== 'across';
  return elsewhere ? FAR_PAST : GROWTH_ALLOWED;
}

/** The ring of a bearing is what its maker guarantees: 2 thou off that is a slip, or another bearing (ours). */
const BEARING_OFF: Length = nanometres(2 * NM_PER_THOU);

function farFromTheBearing(ring: BearingRing, mate: Mate | null, read: Length): boolean {
  if (mate === null || ringOf(mate) !== ring) return false;
  const tolerance = ringTolerance(ring, mate.nominal);
  if (!tolerance.ok) return false;
  return read > plus(mate.nominal, BEARING_OFF) || read < minus(minus(mate.nominal, tolerance.value), BEARING_OFF);
}

/** Three of the plan's passes, on the diameter, and never less than the least that is odd. */
function dropAllowed(operation: Operation): Length {
  const depth = operation.cut?.depthOnRadius ?? null;
  return depth === null ? DROP_ALLOWED : larger(times(depth, 6), DROP_ALLOWED);
}
