import {
  asDiameter,
  celsius,
  instrumentsOf,
  larger,
  minus,
  radiusOf,
  smaller,
  type Diameter,
  type Instruments,
  type Length,
} from '../measure/index.ts';
import { ringOf, type Machine, type Mate } from '../part/index.ts';
import { windowOf as targetWindow, type MeasuredQuantity, type Operation, type SizeWindow } from '../route/index.ts';
import { EXPANSIONS, ringSize, sizeAtReference, type BearingRing } from '../trade/index.ts';
import { coldReading } from './cold.ts';
import { inOrder, newest } from './history.ts';
import { progressOf } from './fold.ts';
import type { JobState, Reading } from './state.ts';

export const operationOf = (state: JobState, id: string): Operation | null =>
  state.plan.route.operations.find((operation) => operation.id === id) ?? null;

export const openOperation = (state: JobState): Operation | null => (state.open === null ? null : operationOf(state, state.open));

/** What is believed of the instruments of the job. */
export const instrumentsHere = ({ plan }: JobState): Instruments => instrumentsOf(plan.instruments ?? []);

/** What a reading may be off by: with the instrument that was named, else with that of its step, else with a caliper. */
export const mayBeOff = ({ value, instrument }: Reading, operation: Operation, instruments: Instruments): Length =>
  instruments[instrument ?? operation.instrument ?? 'caliper'].permissibleError(value);

/** The machine that an operation is done on. The schema has made sure that it is there. */
export function machineOf(state: JobState, operation: Operation): Machine | null {
  const setup = state.plan.route.setups.find((candidate) => candidate.id === operation.setup);
  return state.plan.machines.find((machine) => machine.id === setup?.machine) ?? null;
}

/**
 * A reading of a mate at 20 °C (ISO 1), by the temperature that was said where it was measured; as it was read where none was.
 * What a mate is made of is not known: it is taken for steel, 1 µm off per 25 mm and 10 K for anything that expands by a
 * third more.
 */
function coldMate(state: JobState, { operation, value }: Reading): Length {
  const warmth = operationOf(state, operation)?.kind === 'measure-mate' ? progressOf(state, operation).celsius : null;
  return warmth === null ? value : sizeAtReference(value, EXPANSIONS.steel, celsius(warmth, 'half-even'), 'half-even');
}

/** The smallest and largest standing readings of a mate at 20 °C, or null before it is measured. */
export function measuredMate(
  state: JobState,
  mate: string,
): {
  readonly least: Length;
  readonly most: Length;
  readonly count: number;
  readonly instrument: Reading['instrument'];
} | null {
  const readings = inOrder(state.mates[mate] ?? null);
  const first = readings[0];
  if (first === undefined) return null;
  let least = coldMate(state, first);
  let most = least;
  for (const reading of readings) {
    const value = coldMate(state, reading);
    least = smaller(least, value);
    most = larger(most, value);
  }
  return { least, most, count: readings.length, instrument: readings.at(-1)?.instrument ?? null };
}

/**
 * The ring of a bearing that a seat holds: as it was measured, the tightest place of it and as far as that says more than its
 * maker does; else the middle of its tolerance.
 */
export function bearingRing(
  ring: BearingRing,
  { nominal }: Mate,
  measured: { readonly least: Length; readonly most: Length; readonly instrument: Reading['instrument'] } | null,
  instruments: Instruments,
): Length {
  const tightest = measured === null ? null : ring === 'inner' ? measured.least : measured.most;
  const read =
    tightest === null
      ? null
      : { size: tightest, uncertainty: instruments[measured?.instrument ?? 'caliper'].permissibleError(tightest) };
  const size = ringSize(ring, nominal, read);
  return size.ok ? size.value : nominal;
}

/**
 * The window of an operation, moved with its mate as it was really measured: a journal must pass the tightest place of its
 * bore, and a length between faces must hold the widest place of its mate. Before that the plan's own window stands.
 */
export function windowOf(state: JobState, operation: Operation): SizeWindow | null {
  const target = operation.target;
  if (target === null) return null;
  const mate = target.fit === null ? null : measuredMate(state, target.fit.mate);
  const fitted = state.plan.part.mates.find(({ id }) => id === target.fit?.mate);
  const ring = fitted === undefined ? null : ringOf(fitted);
  if (fitted !== undefined && ring !== null && mate !== null)
    return targetWindow(target, bearingRing(ring, fitted, mate, instrumentsHere(state)));
  const between = target.quantity === 'length' || target.quantity === 'depth' || target.quantity === 'hole';
  return targetWindow(target, mate === null ? null : between ? mate.most : mate.least);
}

/** Which way metal taken moves the number: a journal gets smaller, a hole deeper; an indicator is only set. */
export type Direction = 'shrinks' | 'grows' | 'set';

export function directionOf(quantity: MeasuredQuantity): Direction {
  switch (quantity) {
    case 'diameter':
    case 'length':
      return 'shrinks';
    case 'depth':
    case 'hole':
      return 'grows';
    case 'indicator':
    case 'bore':
    case 'width':
      return 'set';
  }
}

/** Where a size stands to its window: in it, with metal still to take, past it, or (where nothing is taken) beside it. */
export type Standing = 'in-window' | 'more-to-take' | 'past' | 'beside';

export function standingOf(value: Length, window: SizeWindow, direction: Direction): Standing {
  if (value >= window.low && value <= window.high) return 'in-window';
  switch (direction) {
    case 'shrinks':
      return value > window.high ? 'more-to-take' : 'past';
    case 'grows':
      return value < window.low ? 'more-to-take' : 'past';
    case 'set':
      return 'beside';
  }
}

/** The latest standing reading of the quantity that an operation awaits. */
export function lastReading(state: JobState, operation: Operation): Reading | null {
  const wanted = operation.target?.quantity;
  const readings = inOrder(progressOf(state, operation.id).readings).filter((reading) => reading.quantity === wanted);
  return readings.at(-1) ?? null;
}

/** The latest standing reading of the quantity that an operation awaits, brought to 20 °C. */
export function lastSize(state: JobState, operation: Operation): Length | null {
  const last = lastReading(state, operation);
  return last === null ? null : coldReading(state, last);
}

/** The size as it is now: the latest reading at 20 °C, or, of an indicator, the high reading less the low one. */
export function sizeNow(state: JobState, operation: Operation): Length | null {
  const { low, high } = progressOf(state, operation.id).indicator;
  if (operation.target?.quantity === 'indicator' && low !== null && high !== null) return minus(high, low);
  return lastSize(state, operation);
}

/** The latest standing reading of any quantity at an operation. */
export const anyLastReading = (state: JobState, operation: Operation): Reading | null =>
  newest(progressOf(state, operation.id).readings);

/**
 * What an amount on the part is on the hand-wheel: halved for a diameter where the cross-slide dial reads the radius. Half a
 * nanometre is rounded toward zero, so that a dial is never told more than there is.
 */
export function onDial(amount: Length, quantity: MeasuredQuantity, machine: Machine | null): Length {
  if ((quantity !== 'diameter' && quantity !== 'hole') || machine?.crossSlide.reads !== 'radius') return amount;
  const across: Diameter = asDiameter(amount);
  return radiusOf(across, 'toward-zero');
}
