import { readFileSync, writeFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { planSchema } from '../../src/job/index.ts';
import { thou } from '../../src/measure/index.ts';
import {
  carriageTravel,
  checkRoute,
  describeRouteFault,
  describeWarning,
  routeFor,
  routeSchema,
  routeSheet,
  type Route,
} from '../../src/route/index.ts';
import type { Part } from '../../src/part/index.ts';
import { demoPlan, DEMOS } from './demos.ts';
import { inventedPart, MACHINES, type Invented } from './invented.ts';

const PARTS = (
  JSON.parse(readFileSync(new URL('parts.json', import.meta.url), 'utf8')) as { readonly parts: readonly Invented[] }
).parts;
const MADE = PARTS.filter(({ faults }) => faults === undefined);
const REFUSED = PARTS.filter(({ faults }) => faults !== undefined);

function made(part: Part, tool: Invented['tool']): Route {
  const route = routeFor(part, MACHINES, tool ?? 'high-speed-steel');
  if (!route.ok) throw new Error(route.error.map((fault) => describeRouteFault(fault, part)).join(' '));
  return route.value;
}

/** Compares a sheet with the one that was read and approved; UPDATE_GOLDEN=1 writes it, and the difference is reviewed. */
function golden(name: string, sheet: string): void {
  const file = new URL(`golden/${name}.txt`, import.meta.url);
  if (process.env['UPDATE_GOLDEN'] === '1') writeFileSync(file, sheet);
  expect(sheet).toBe(readFileSync(file, 'utf8'));
}

/** What every route must keep to, whatever the part. */
function expectSound(part: Part, route: Route): void {
  expect(checkRoute(part, MACHINES, route).map((warning) => describeWarning(warning, part.unit))).toEqual([]);
  const plan = { id: 'plan', title: 'Plan', invented: true, part, machines: [...MACHINES], route };
  expect(planSchema.parse(z.encode(planSchema, plan))).toEqual(plan);
  for (const { kind, note, feature, target, stop } of route.operations) {
    // Nothing finished is gripped without a word about it.
    if (kind === 'dial-in') expect(note).toContain('over copper shim');
    if (stop !== null) expect(stop.distance).toBeGreaterThan(0);
    if (kind === 'rough' && target !== null && feature !== null) {
      const finish = route.operations.find((operation) => operation.kind === 'finish' && operation.feature === feature);
      expect(target.low).toBeGreaterThan(finish?.target?.high ?? Number.NaN);
    }
  }
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
    const route = made(part, invented.tool);
    expectSound(part, route);
    golden(`parts/${invented.id}`, routeSheet(part, MACHINES, route));
  });

  test.each(REFUSED)('$id cannot be made: $faults', ({ faults, ...invented }) => {
    const part = inventedPart(invented);
    const route = routeFor(part, MACHINES, 'high-speed-steel');
    if (route.ok) throw new Error('a route was made');
    expect(route.error.map((fault) => ('feature' in fault ? `${fault.key} ${fault.feature}` : fault.key))).toEqual(faults);
    for (const fault of route.error) {
      const sentence = describeRouteFault(fault, part);
      // What is in the way, and what would help: two sentences at least.
      expect(sentence.split('. ').length).toBeGreaterThanOrEqual(2);
      expect(sentence).not.toMatch(/undefined|NaN|on\d/);
    }
  });

  test('what is not there is said: no lathe, no mill, a square bar, nothing concentric', () => {
    const part = inventedPart(MADE.find(({ id }) => id === 'pinned-cam') as Invented);
    const keys = (changed: Part, machines: typeof MACHINES): string[] => {
      const route = routeFor(changed, machines, 'carbide');
      return route.ok ? [] : route.error.map((fault) => fault.key);
    };
    expect(keys(part, [])).toEqual(['no-lathe', 'no-mill']);
    expect(keys(part, MACHINES.slice(0, 1))).toEqual(['no-mill']);
    expect(keys({ ...part, stock: { ...part.stock, form: 'square' } }, MACHINES)).toEqual(['stock-form']);
    expect(keys({ ...part, turned: part.turned.slice(0, 1), milled: [] }, MACHINES)).toEqual(['nothing-concentric']);
    expect(keys(part, MACHINES)).toEqual([]);
  });
});

/** A part that can be made: steps down from a collar on both sides, in whole hundredths of a millimetre. */
const steps = fc.array(
  fc.record({
    less: fc.integer({ min: 30, max: 300 }),
    long: fc.integer({ min: 1000, max: 2000 }),
    fine: fc.boolean(),
    fit: fc.boolean(),
    hand: fc.constantFrom('', 'filed', 'polished'),
  }),
  { maxLength: 5 },
);
const anyPart = fc
  .record({
    left: steps,
    right: steps,
    collar: fc.integer({ min: 4000, max: 6000 }),
    long: fc.integer({ min: 3100, max: 4000 }),
    bar: fc.boolean(),
    cam: fc.option(fc.integer({ min: 100, max: 400 })),
    unit: fc.constantFrom('inch', 'millimetre' as const),
  })
  .map(({ left, right, collar, long, bar, cam, unit }): { readonly invented: Invented } => {
    const mm = (hundredths: number): string => String(hundredths / 100);
    const outward = (side: typeof left): string[] => {
      let across = collar;
      return side.map(({ less, long: length, fine, fit, hand }) => {
        across -= less;
        return `journal ${mm(across)}~${fine ? 0.01 : 0.1} ${mm(length)}~0.1${fit && fine ? ` bore:${mm(across + 3)}` : ''}${fine && hand !== '' ? ` ${hand}` : ''}`;
      });
    };
    const onLeft = outward(left);
    // The cam is outermost on the left, inside what lies behind it, and long enough to be worth it.
    const smallest = collar - left.reduce((sum, { less }) => sum + less, 0);
    if (cam !== null) onLeft.push(`offset ${mm(smallest - 2 * cam - 50)}~0.01 12~0.1 throw:${mm(cam)}`);
    const total = [...left, ...right].reduce((sum, { long: length }) => sum + length, long) + (cam === null ? 0 : 1200);
    const stock = `${mm(collar + 300)} ${mm(total + (bar || left.length === 0 || right.length === 0 || cam !== null ? 9000 : 200))} steel`;
    const turned = [...onLeft.reverse(), `collar ${mm(collar)}~0.1 ${mm(long)}~0.1`, ...outward(right)].join('; ');
    // The numbers are millimetres; only the unit in which the part is shown is drawn.
    return {
      invented: { id: 'drawn', unit: 'millimetre', stock, turned, tool: unit === 'inch' ? 'carbide' : 'high-speed-steel' },
    };
  });

describe('laws of computed routes', () => {
  test('every step-down part gets a sound route (seed 4401)', () => {
    fc.assert(
      fc.property(anyPart, ({ invented }) => {
        const part = inventedPart(invented);
        expectSound(part, made(part, invented.tool));
      }),
      { seed: 4401 },
    );
  });

  test('removing a feature never lengthens the route (seed 4402)', () => {
    fc.assert(
      fc.property(anyPart, fc.nat(), ({ invented }, pick) => {
        const lines = invented.turned.split('; ');
        const removable = lines.map((line, index) => ({ line, index })).filter(({ line }) => !line.startsWith('collar'));
        fc.pre(removable.length > 0);
        const out = removable[pick % removable.length]?.index ?? 0;
        const less = { ...invented, turned: lines.filter((_, index) => index !== out).join('; ') };
        const route = routeFor(inventedPart(less), MACHINES, 'high-speed-steel');
        if (!route.ok) return;
        expect(route.value.operations.length).toBeLessThanOrEqual(
          made(inventedPart(invented), 'high-speed-steel').operations.length,
        );
      }),
      { seed: 4402 },
    );
  });

  test('shown in inches or in millimetres, the same part has the same route to the nanometre (seed 4403)', () => {
    // What is shown is in the unit of the part; what is measured, stopped at and dialled is not.
    const numbers = ({ operations }: Route): unknown[] =>
      operations.map(({ id, setup, kind, feature, target, instrument, cut, stop, caution, minutes }) => ({
        id,
        setup,
        kind,
        feature,
        target,
        instrument,
        stop,
        caution,
        minutes,
        cut: cut === null ? null : [cut.speedRpm, cut.feedPerTurn, cut.depthOnRadius],
      }));
    fc.assert(
      fc.property(anyPart, ({ invented }) => {
        const part = inventedPart(invented);
        const inch = made({ ...part, unit: 'inch' }, invented.tool);
        const metric = made({ ...part, unit: 'millimetre' }, invented.tool);
        expect(numbers(inch)).toEqual(numbers(metric));
        expect(routeSchema.parse(z.encode(routeSchema, inch))).toEqual(inch);
      }),
      { seed: 4403 },
    );
  });

  test('mirrored end for end, the part takes the same cuts (seed 4404)', () => {
    fc.assert(
      fc.property(anyPart, ({ invented }) => {
        const part = inventedPart(invented);
        const mirror: Part = { ...part, turned: [...part.turned].reverse() };
        const sides = [
          part.turned.findIndex(({ kind }) => kind === 'collar'),
          mirror.turned.findIndex(({ kind }) => kind === 'collar'),
        ];
        // Two sides of one length are told apart by left and right only, so they may change places.
        fc.pre(sides[0] !== sides[1] || part.turned.some(({ kind }) => kind === 'offset-journal'));
        expect(made(mirror, invented.tool).operations.length).toBe(made(part, invented.tool).operations.length);
      }),
      { seed: 4404 },
    );
  });
});

describe('carriage travel', () => {
  test.each([
    [thou(2624), 3, 22],
    [thou(800), 1, 0],
    [thou(794), 0, 79],
    [thou(796), 1, 0],
    [thou(4), 0, 0],
    [thou(5), 0, 1],
  ])('%d nm is %d turns and %d divisions of .010 in, .800 a turn', (distance, turns, divisions) => {
    expect(carriageTravel(distance, { division: thou(10), perTurn: thou(800) })).toEqual({ turns, divisions });
  });
});
