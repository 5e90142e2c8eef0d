import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { thou } from '../../src/measure/index.ts';
import { carriageTravel, checkRoute, describeRouteFault, routeFor, routeSheet } from '../../src/route/index.ts';
import type { Part } from '../../src/part/index.ts';
import { demoPlan, DEMOS } from './demos.ts';
import { inventedPart, machinesOf, MACHINES, type Invented } from './invented.ts';
import { expectSound, made } from './sound.ts';

const PARTS = (
  JSON.parse(readFileSync(new URL('parts.json', import.meta.url), 'utf8')) as { readonly parts: readonly Invented[] }
).parts;
const MADE = PARTS.filter(({ faults }) => faults === undefined);
const REFUSED = PARTS.filter(({ faults }) => faults !== undefined);

/** Compares a sheet with the one that was read and approved; UPDATE_GOLDEN=1 writes it, and the difference is reviewed. */
function golden(name: string, sheet: string): void {
  const file = new URL(`golden/${name}.txt`, import.meta.url);
  if (process.env['UPDATE_GOLDEN'] === '1') writeFileSync(file, sheet);
  expect(sheet).toBe(readFileSync(file, 'utf8'));
}

describe('routes that are computed', () => {
  test('there are twenty parts that can be made and five that cannot', () => {
    expect(MADE.length).toBeGreaterThanOrEqual(20);
    expect(REFUSED.length).toBeGreaterThanOrEqual(5);
  });

  test.each(DEMOS)('demo:%s', (demo) => {
    const { part, machines } = demoPlan(demo);
    const route = routeFor(part, machines, demo === 'inch' ? 'high-speed-steel' : 'carbide');
    if (!route.ok) throw new Error('the demo cannot be made');
    expect(checkRoute(part, machines, route.value)).toEqual([]);
    golden(`demo-${demo}-computed`, routeSheet(part, machines, route.value));
  });

  test.each(MADE)('$id', (invented) => {
    const part = inventedPart(invented);
    const machines = machinesOf(invented);
    const route = made(part, invented.tool, machines);
    expectSound(part, route, machines);
    golden(`parts/${invented.id}`, routeSheet(part, machines, route));
  });

  test.each(REFUSED)('$id cannot be made: $faults', ({ faults, ...invented }) => {
    const part = inventedPart(invented);
    const route = routeFor(part, machinesOf(invented), 'high-speed-steel');
    if (route.ok) throw new Error('a route was made');
    expect(route.error.map((fault) => ('feature' in fault ? `${fault.key} ${fault.feature}` : fault.key))).toEqual(faults);
    for (const fault of route.error) {
      const sentence = describeRouteFault(fault, part);
      // What is in the way, and what would help: two sentences at least.
      expect(sentence.split('. ').length).toBeGreaterThanOrEqual(2);
      expect(sentence).not.toMatch(/undefined|NaN|on\d/);
    }
  });

  test('what is not there is said: no lathe, no mill, nothing concentric', () => {
    const part = inventedPart(MADE.find(({ id }) => id === 'pinned-cam') as Invented);
    const keys = (changed: Part, machines: typeof MACHINES): string[] => {
      const route = routeFor(changed, machines, 'carbide');
      return route.ok ? [] : route.error.map((fault) => fault.key);
    };
    expect(keys(part, [])).toEqual(['no-lathe', 'no-mill']);
    expect(keys(part, MACHINES.slice(0, 1))).toEqual(['no-mill']);
    expect(keys({ ...part, turned: part.turned.slice(0, 1), milled: [] }, MACHINES)).toEqual(['nothing-concentric']);
    expect(keys(part, MACHINES)).toEqual([]);
  });
});

describe('carriage travel', () => {
  test.each([
    [thou(2624), 3, 22, 4],
    [thou(800), 1, 0, 0],
    [thou(794), 0, 79, 4],
    [thou(796), 0, 79, 6],
    [thou(4), 0, 0, 4],
    [thou(5), 0, 0, 5],
  ])('%d nm is %d turns, %d divisions of .010 in, .800 a turn, and %d thou', (distance, turns, divisions, rest) => {
    const travel = carriageTravel(distance, { division: thou(10), perTurn: thou(800) });
    expect(travel).toEqual({ turns, divisions, rest: thou(rest) });
  });
});
