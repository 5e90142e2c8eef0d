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

/** The place of the largest concentric feature, from which both sides are turned outward. */
function pivotOf({ turned }: Part): number {
  const across = turned.map((one) =>
    one.kind === 'offset-journal'
      ? 0
      : one.kind === 'thread'
        ? one.major.high + one.major.low
        : one.diameter.high + one.diameter.low,
  );
  return across.indexOf(Math.max(...across));
}

/**
 * What a bar measures just before a step: what the last cut of its own left, or what a finishing cut inboard of it did on its
 * way, whichever is less. Null where nothing has been cut there in this set-up.
 */
function sizeBefore(part: Part, { operations }: Route, at: number, feature: string): number | null {
  const order = part.turned.map(({ id }) => id);
  const [own, pivot] = [order.indexOf(feature), pivotOf(part)];
  const sizes = operations.slice(0, at).flatMap(({ kind, target, feature: on, setup }) => {
    if (setup !== operations[at]?.setup || target?.quantity !== 'diameter' || on === null) return [];
    const place = order.indexOf(on);
    const mine = on === feature && ['rough', 'finish', 'file'].includes(kind);
    const over = kind === 'finish' && (own > pivot ? place > pivot && place < own : place < pivot && place > own);
    return mine || (over && part.turned[place]?.kind !== 'groove') ? [Number(target.aim)] : [];
  });
  return sizes.length === 0 ? null : Math.min(...sizes);
}

/** A mate goes on from the end: everything outboard of what it is tried on is no larger by then. */
function expectTriable(part: Part, route: Route): void {
  const pivot = pivotOf(part);
  route.operations.forEach(({ kind, feature }, at) => {
    const own = part.turned.findIndex(({ id }) => id === feature);
    const on = part.turned[own];
    if (kind !== 'try-fit' || on === undefined || on.kind === 'thread' || own === pivot) return;
    // From the end inward, without what is a neck: what lies outboard of that has gone over it.
    const fromEnd = own > pivot ? part.turned.slice(own + 1).reverse() : part.turned.slice(0, own);
    const across = (one: (typeof fromEnd)[number]): number => (one.kind === 'thread' ? one.major.high : one.diameter.high);
    const outboard = fromEnd.filter((one, index) => fromEnd.slice(0, index).every((further) => across(further) <= across(one)));
    for (const one of outboard) {
      const size = one.kind === 'offset-journal' || one.kind === 'groove' ? null : sizeBefore(part, route, at, one.id);
      if (size !== null) expect(size).toBeLessThanOrEqual(on.diameter.high);
    }
  });
}

/** What every route must keep to, whatever the part. */
export function expectSound(part: Part, route: Route, machines: readonly Machine[] = MACHINES): void {
  expect(checkRoute(part, machines, route).map((warning) => describeWarning(warning, part.unit))).toEqual([]);
  const plan = { id: 'plan', title: 'Plan', invented: true, part, machines: [...machines], route };
  expect(planSchema.parse(z.encode(planSchema, plan))).toEqual(plan);
  const speeds = new Map(machines.map(({ id, spindleSpeeds }) => [id, spindleSpeeds]));
  expectTriable(part, route);
  for (const { why } of route.setups) expect(why.length).toBeGreaterThan(0);
  // A length that names its datum is read once, within the limits of the drawing, and said with its datum.
  for (const { id, datum } of part.turned) {
    const read = route.operations.filter(({ kind, feature }) => kind === 'length' && feature === id);
    if (datum === null) continue;
    expect(read.map(({ target }) => [target?.low, target?.high, target?.datum])).toEqual([
      [datum.length.low, datum.length.high, datum.from.replace('-', ' ')],
    ]);
    // Between centres the whole length comes first, whatever it is counted from.
    if (read[0]?.id !== 'face-to-length') expect(read[0]?.say).toContain(`from the ${datum.from.replace('-', ' ')}`);
  }
  for (const operation of route.operations) {
    // Every recommendation says why: a speed above all.
    if (operation.cut !== null) expect(operation.why.join(' ')).toMatch(/Speed: /);
    const { kind, note, feature, target, stop, cut, setup } = operation;
    // Nothing finished is gripped without a word about it.
    if (kind === 'dial-in') expect(note).toMatch(/over copper shim|in a collet/);
    if (operation.id === 'dog-second') expect(note).toMatch(/Brass under|split nut|split sleeve/);
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
