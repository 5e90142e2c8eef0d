import { readFileSync, writeFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { planSchema } from '../../src/job/index.ts';
import { nanometres, thou, type Length } from '../../src/measure/index.ts';
import { describeFileProblem, readBy } from '../../src/part/index.ts';
import {
  CAUTIONS,
  cautionKeyField,
  checkRoute,
  DEFERS_TO,
  describeWarning,
  routeSheet,
  STOP_FIRST,
  windowOf,
  type Target,
  type Warning,
} from '../../src/route/index.ts';
import { changed, demoJson, demoPlan, DEMOS, type Demo } from './demos.ts';

const read = (name: string): unknown => JSON.parse(readFileSync(new URL(name, import.meta.url), 'utf8'));

type Change = { readonly demo?: Demo; readonly op?: string; readonly set: (string | number)[]; readonly to?: unknown };

/** The plan's JSON with the change of a case made; an operation is found by its id. */
function withChange({ demo, op, set, to }: Change): unknown {
  const json = demoJson(demo ?? 'inch');
  if (op === undefined) return changed(json, set, to);
  const operations = (json as { readonly route: { readonly operations: readonly { readonly id: string }[] } }).route.operations;
  const index = operations.findIndex((operation) => operation.id === op);
  if (index < 0) throw new Error(`the demo has no operation "${op}"`);
  return changed(json, ['route', 'operations', index, ...set], to);
}

const short = (warning: Warning): string =>
  [warning.key, 'operation' in warning ? warning.operation : 'feature' in warning ? warning.feature : ''].join(' ').trim();

describe('the demos', () => {
  test.each(DEMOS)('demo:%s gives no warning', (demo) => {
    const { part, machines, route } = demoPlan(demo);
    expect(checkRoute(part, machines, route).map((warning) => describeWarning(warning, part.unit))).toEqual([]);
  });

  test.each(DEMOS)('demo:%s is invented and says so, and has 16 to 25 operations', (demo) => {
    const plan = demoPlan(demo);
    expect(plan.invented).toBe(true);
    expect(`${plan.title} ${plan.part.name}`).toMatch(/invented.*invented/);
    expect(plan.route.operations.length).toBeGreaterThanOrEqual(16);
    expect(plan.route.operations.length).toBeLessThanOrEqual(25);
  });

  test.each(DEMOS)('the first operation of demo:%s awaits nothing and the second a diameter', (demo) => {
    const [first, second] = demoPlan(demo).route.operations;
    expect(first?.target).toBeNull();
    expect(second?.target?.quantity).toBe('diameter');
  });

  test.each(DEMOS)('demo:%s turns concentric before offset, and largest first, among the first cuts of an end', (demo) => {
    const { part, route } = demoPlan(demo);
    const offset = new Set(part.turned.filter((feature) => feature.kind === 'offset-journal').map((feature) => feature.id));
    const firstCuts = new Map<string, number>();
    for (const { setup, feature, target } of route.operations)
      if (feature !== null && target?.quantity === 'diameter' && !firstCuts.has(`${setup} ${feature}`))
        firstCuts.set(`${setup} ${feature}`, target.aim);
    for (const setup of new Set(route.operations.map((operation) => operation.setup))) {
      const sizes = [...firstCuts].filter(([key]) => key.startsWith(`${setup} `));
      const concentric = sizes.filter(([key]) => !offset.has(key.split(' ')[1] ?? '')).map(([, aim]) => aim);
      expect(concentric).toEqual([...concentric].sort((a, b) => b - a));
      const firstOffset = sizes.findIndex(([key]) => offset.has(key.split(' ')[1] ?? ''));
      if (firstOffset >= 0) expect(firstOffset).toBe(concentric.length);
    }
  });

  // A change of the sheet is meant to be read before it is blessed: UPDATE_GOLDEN=1 writes it, and the difference is reviewed.
  test.each(DEMOS)('demo:%s has the route sheet that was read and approved', (demo) => {
    const { part, machines, route } = demoPlan(demo);
    const golden = new URL(`golden/demo-${demo}.txt`, import.meta.url);
    const sheet = routeSheet(part, machines, route);
    if (process.env['UPDATE_GOLDEN'] === '1') writeFileSync(golden, sheet);
    expect(sheet).toBe(readFileSync(golden, 'utf8'));
  });
});

describe('checks', () => {
  test.each(read('warned.json') as (Change & { readonly warns: readonly string[] })[])(
    '$op $set to $to warns $warns',
    (change) => {
      const { part, machines, route } = planSchema.parse(withChange(change));
      const warnings = checkRoute(part, machines, route);
      expect(warnings.map(short)).toEqual(change.warns);
      for (const warning of warnings) expect(describeWarning(warning, part.unit)).toMatch(/\S/);
      if (warnings.length > 0)
        expect(routeSheet(part, machines, route)).toContain(
          `To look at:\n- ${describeWarning(warnings[0] as Warning, part.unit)}`,
        );
    },
  );

  test('every kind of warning but none stands in the table', () => {
    const seen = new Set(
      (read('warned.json') as { readonly warns: readonly string[] }[]).flatMap(({ warns }) =>
        warns.map((text) => text.split(' ')[0]),
      ),
    );
    expect([...seen].sort()).toEqual([
      'below-finish',
      'caution-missing',
      'feed-not-on-machine',
      'from-disagrees',
      'mate-measured-late',
      'never-finished',
      'never-worked',
      'no-instrument',
      'not-a-feature',
      'nothing-to-take',
      'offset-outside-stock',
      'speed-not-on-machine',
      'stock-too-short',
      'stock-too-thin',
    ]);
  });
});

describe('opening a plan', () => {
  test.each(read('broken.json') as (Change & { readonly place: string; readonly says: string })[])(
    '$op $set to $to names the operation',
    (broken) => {
      const plan = readBy(planSchema, withChange(broken));
      if (plan.ok) throw new Error('the broken plan was opened');
      expect(plan.error.place).toBe(broken.place);
      expect(plan.error.says).toContain(broken.says);
      expect(describeFileProblem(plan.error)).toContain(broken.place);
    },
  );

  test('a set-up on a machine that is not there is named', () => {
    const plan = readBy(planSchema, withChange({ set: ['route', 'setups', 1, 'machine'], to: 'shaper' }));
    expect(plan.ok ? null : describeFileProblem(plan.error)).toBe(
      'set-up "Second end: tracking cam", route.setups[1].machine: no machine is called "shaper"',
    );
  });
});

describe('a window that moves with its mate', () => {
  const target = (quantity: Target['quantity'], least: number, most: number): Target => ({
    quantity,
    low: thou(998),
    high: thou(999),
    aim: thou(998.6),
    from: null,
    datum: null,
    fit: { mate: 'arm-bore', name: 'slide', leastClearance: thou(least), mostClearance: thou(most) },
  });

  test('a journal is the bore less the clearance; a length between faces is the width and the clearance', () => {
    expect(windowOf(target('diameter', 1, 2), thou(1001.5))).toEqual({
      low: thou(999.5),
      high: thou(1000.5),
      aim: thou(1000.1),
    });
    expect(windowOf(target('length', 4, 5), thou(1600))).toEqual({ low: thou(1604), high: thou(1605), aim: thou(1604.6) });
    expect(windowOf(target('diameter', -3, -2), thou(1000))).toEqual({ low: thou(1002), high: thou(1003), aim: thou(1002.6) });
  });

  test('it stands still without a fit and before the mate is measured', () => {
    const still = { low: thou(998), high: thou(999), aim: thou(998.6) };
    expect(windowOf(target('diameter', 1, 2), null)).toEqual(still);
    expect(windowOf({ ...target('diameter', 1, 2), fit: null }, thou(1010))).toEqual(still);
  });

  test('the static window of every fitted operation of the demos is that of the nominal mate', () => {
    for (const demo of DEMOS) {
      const { part, route } = demoPlan(demo);
      const fitted = route.operations.filter((operation) => (operation.target?.fit ?? null) !== null);
      expect(fitted.length).toBeGreaterThan(3);
      for (const { target: wanted } of fitted) {
        const nominal = part.mates.find((mate) => mate.id === wanted?.fit?.mate)?.nominal;
        expect(windowOf(wanted as Target, nominal as Length)).toEqual({
          low: wanted?.low,
          high: wanted?.high,
          aim: wanted?.aim,
        });
      }
    }
  });

  test('a mate larger by so much moves all three by so much (seed 4102)', () => {
    const length = fc.integer({ min: -1_000_000, max: 1_000_000 }).map(nanometres);
    fc.assert(
      fc.property(fc.constantFrom('diameter', 'length', 'depth' as const), length, length, (quantity, first, more) => {
        const one = windowOf(target(quantity, 1, 2), first);
        const two = windowOf(target(quantity, 1, 2), nanometres(first + more));
        expect([two.low - one.low, two.high - one.high, two.aim - one.aim]).toEqual([more + 0, more + 0, more + 0]);
      }),
      { seed: 4102 },
    );
  });
});

describe('cautions', () => {
  test.each(cautionKeyField.options)('%s is short to hear, has a source and gives no number', (key) => {
    const { shown, say, source } = CAUTIONS[key];
    expect(say.split(/\s+/).length).toBeLessThanOrEqual(12);
    expect(shown.length).toBeLessThanOrEqual(200);
    expect(source).toMatch(/\S/);
    expect(`${shown}${say}`).not.toMatch(/\d/);
  });

  test('they defer to manual, local rules and instruction, and a reading starts with the spindle stopped', () => {
    for (const words of ['manual', 'local rules', 'qualified instruction', 'no safety device'])
      expect(DEFERS_TO).toContain(words);
    expect(STOP_FIRST.say).toMatch(/^Spindle stopped/);
  });
});
