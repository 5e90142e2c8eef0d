import {
  dividedBy,
  larger,
  magnitude,
  minus,
  nanometres,
  plus,
  roundedQuotient,
  roundedTo,
  smaller,
  times,
  zero,
  type Length,
} from '../measure/index.ts';
import type { Machine } from '../part/index.ts';
import { infeeds } from '../trade/index.ts';
import type { Operation, Target } from './operation.ts';

/** Passes of one kind, one after the other: so many of a depth on the radius, and the size that they leave. */
export type PassGroup = {
  readonly kind: 'rough' | 'last' | 'spring';
  readonly count: number;
  /** How far the tool moves for each; nothing for a spring pass. */
  readonly depth: Length;
  /** The size after the last of them; the whole infeed at a thread. */
  readonly leaves: Length;
};

/** A hand-wheel: whole turns, whole divisions, and what is left beyond the last of them, under one division. */
export type DialReading = { readonly turns: number; readonly divisions: number; readonly beyond: Length };

/** A travel on a dial, down to the division below it. Exact: turns, divisions and the rest add up to the travel. */
export function dialReading(travel: Length, dial: { readonly division: Length; readonly perTurn: Length }): DialReading {
  const turns = Math.floor(travel / dial.perTurn);
  const over = minus(travel, times(dial.perTurn, turns));
  const divisions = Math.floor(over / dial.division);
  return { turns, divisions, beyond: minus(over, times(dial.division, divisions)) };
}

/** About so deep is a pass of a single-point thread at the first: four thou, a tenth of a millimetre. Common practice. */
const THREAD_PASS = nanometres(100_000);

/** The infeeds of a thread, pass by pass, on the radius; the last is the spring pass at full depth. */
export function threadInfeeds({ kind, cut }: Operation): readonly Length[] {
  if (kind !== 'thread' || cut?.depthOnRadius == null) return [];
  return infeeds(cut.depthOnRadius, Math.max(4, roundedQuotient(cut.depthOnRadius, THREAD_PASS, 'ceiling')), cut.spring ? 1 : 0);
}

/** How much of a target's size one unit of the tool's travel takes: two across, one along. */
const across = ({ quantity }: Target): 1 | 2 => (quantity === 'diameter' || quantity === 'hole' ? 2 : 1);

/**
 * The passes of an operation, in their order: rough passes of the cut's depth, the last of them taking what is left before the
 * two
 * equal last ones, and a spring pass. They follow from target and cut alone, so they are right after either is edited or the
 * mate is
 * measured. None where nothing is taken or no depth is given.
 */
export function passesOf({ target, cut }: Operation): readonly PassGroup[] {
  if (target === null || target.from === null || cut === null || cut.depthOnRadius === null) return [];
  const whole = magnitude(minus(target.from, target.aim));
  const radial = dividedBy(whole, across(target), 'ceiling');
  if (radial <= 0) return [];
  const smallerNow = target.aim < target.from;
  const after = (taken: Length): Length => {
    const amount = smaller(times(taken, across(target)), whole);
    return smallerNow ? minus(target.from ?? zero, amount) : plus(target.from ?? zero, amount);
  };
  const last = cut.last === null ? zero : smaller(cut.last, dividedBy(radial, 2, 'ceiling'));
  const rough = larger(minus(radial, times(last, 2)), zero);
  const groups: PassGroup[] = [];
  const full = Math.floor(rough / cut.depthOnRadius);
  const rest = minus(rough, times(cut.depthOnRadius, full));
  if (full > 0)
    groups.push({ kind: 'rough', count: full, depth: cut.depthOnRadius, leaves: after(times(cut.depthOnRadius, full)) });
  if (rest > 0) groups.push({ kind: 'rough', count: 1, depth: rest, leaves: after(rough) });
  if (last > 0) groups.push({ kind: 'last', count: 2, depth: last, leaves: target.aim });
  if (cut.spring) groups.push({ kind: 'spring', count: 1, depth: zero, leaves: target.aim });
  return groups;
}

/** A depth on the radius as the cross-slide dial shows it: doubled where the dial reads the diameter. */
export const crossSlideReading = (depthOnRadius: Length, { crossSlide }: Machine): DialReading =>
  dialReading(crossSlide.reads === 'diameter' ? times(depthOnRadius, 2) : depthOnRadius, crossSlide);

/** The same down to a whole division: what a hand can set without taking more than it was told. */
export const divisionBelow = (depthOnRadius: Length, { crossSlide }: Machine): Length =>
  roundedTo(crossSlide.reads === 'diameter' ? times(depthOnRadius, 2) : depthOnRadius, crossSlide.division, 'floor');

/** The same to the nearest division, half away from zero: for a rough cut, which may be so much over or under. */
export const nearestDivision = (depthOnRadius: Length, { crossSlide }: Machine): Length =>
  roundedTo(crossSlide.reads === 'diameter' ? times(depthOnRadius, 2) : depthOnRadius, crossSlide.division, 'half-away');

/** What an operation asks of the hand-wheels: each pass and the whole on the cross slide, and the carriage stop. */
export type DialWork = {
  readonly passes: readonly (PassGroup & { readonly dial: DialReading })[];
  readonly whole: DialReading | null;
  readonly stop: DialReading | null;
};

/** An operation on the dials of its machine. */
export function dialWork(operation: Operation, machine: Machine): DialWork {
  const passes = passesOf(operation).map((group) => ({ ...group, dial: crossSlideReading(group.depth, machine) }));
  const { target, stop } = operation;
  const turned = target !== null && target.from !== null && across(target) === 2 && passes.length > 0;
  const radial = turned ? dividedBy(magnitude(minus(target.from ?? zero, target.aim)), 2, 'ceiling') : null;
  return {
    passes,
    whole: radial === null ? null : crossSlideReading(radial, machine),
    stop: stop === null || machine.carriage === null ? null : dialReading(stop.distance, machine.carriage),
  };
}
