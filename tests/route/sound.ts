import { expect } from 'vitest';
import { z } from 'zod';
import { planSchema } from '../../src/job/index.ts';
import type { Machine, Part } from '../../src/part/index.ts';
import {
  checkRoute,
  describeRouteFault,
  describeWarning,
  divisionBelow,
  nearestDivision,
  passesOf,
  routeFor,
  type Route,
} from '../../src/route/index.ts';
import { MACHINES, type Invented } from './invented.ts';

/** The route of a part that can be made. */
export function made(part: Part, tool: Invented['tool'], machines: readonly Machine[] = MACHINES): Route {
  const route = routeFor(part, machines, tool ?? 'high-speed-steel');
  if (!route.ok) throw new Error(route.error.map((fault) => describeRouteFault(fault, part)).join(' '));
  return route.value;
}

/** The low limit of the diameter that a cut leaves for good, where the operation shapes a turned feature. */
function finishOf(part: Part, feature: string | null): number | null {
  const turned = part.turned.find((candidate) => candidate.id === feature);
  if (turned === undefined) return null;
  return turned.kind === 'thread'
    ? turned.major.low
    : turned.kind === 'taper'
      ? turned.small - (turned.diameter.high - turned.diameter.low)
      : turned.diameter.low;
}

/**
 * The size that is left where a hand sets the divisions that the sheet says, and no more: the nearest for a rough cut, the one
 * below for each of the last two.
 */
function setByHand(
  { setup, target, ...operation }: Route['operations'][number],
  machines: readonly Machine[],
  route: Route,
): number {
  const machine = machines.find(({ id }) => id === route.setups.find((held) => held.id === setup)?.machine);
  if (machine === undefined) throw new Error('an operation on no machine');
  const onDiameter = machine.crossSlide.reads === 'diameter' ? 1 : 2;
  return passesOf({ setup, target, ...operation }).reduce(
    (size, { kind, depth, count }) =>
      size - (kind === 'rough' ? nearestDivision : divisionBelow)(depth, machine) * count * onDiameter,
    Number(target?.from),
  );
}

/** What every route must keep to, whatever the part. */
export function expectSound(part: Part, route: Route, machines: readonly Machine[] = MACHINES): void {
  expect(checkRoute(part, machines, route).map((warning) => describeWarning(warning, part.unit))).toEqual([]);
  const plan = { id: 'plan', title: 'Plan', invented: true, part, machines: [...machines], route };
  expect(planSchema.parse(z.encode(planSchema, plan))).toEqual(plan);
  const speeds = new Map(machines.map(({ id, spindleSpeeds }) => [id, spindleSpeeds]));
  for (const operation of route.operations) {
    const { kind, note, feature, target, stop, cut, setup } = operation;
    // Nothing finished is gripped without a word about it.
    if (kind === 'dial-in') expect(note).toMatch(/over copper shim|in a collet/);
    if (stop !== null) expect(stop.distance).toBeGreaterThan(0);
    if (kind === 'rough' && target !== null && feature !== null) {
      const finish = route.operations.find((other) => other.kind === 'finish' && other.feature === feature);
      expect(target.low).toBeGreaterThan(finish?.target?.high ?? Number.NaN);
    }
    // No pass, and not only no operation, goes below the finish; the last one arrives at the aim.
    const passes = passesOf(operation);
    const finish = target?.quantity === 'diameter' ? finishOf(part, feature) : null;
    for (const { leaves, depth, count } of passes) {
      if (finish !== null) expect(leaves).toBeGreaterThanOrEqual(finish);
      expect(depth).toBeGreaterThanOrEqual(0);
      expect(count).toBeGreaterThan(0);
    }
    if (passes.length > 0) expect(passes.at(-1)?.leaves).toBe(target?.aim);
    if (finish !== null && target?.from != null && kind !== 'taper')
      expect(setByHand(operation, machines, route)).toBeGreaterThanOrEqual(finish);
    const machine = route.setups.find(({ id }) => id === setup)?.machine ?? '';
    if (cut !== null) expect(speeds.get(machine)).toContain(cut.speedRpm);
    const feeds = machines.find(({ id }) => id === machine)?.feeds ?? [];
    // A thread is fed by its pitch; every other feed is one that the machine has, where it has its own.
    if (cut?.feedPerTurn != null && kind !== 'thread' && feeds.length > 0) expect(feeds).toContain(cut.feedPerTurn);
  }
}
