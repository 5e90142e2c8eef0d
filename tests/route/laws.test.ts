import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { nanometres, writeLength, type Length } from '../../src/measure/index.ts';
import {
  edgeFeatureSchema,
  endFeatureSchema,
  mateSchema,
  milledFeatureSchema,
  stockSchema,
  turnedFeatureSchema,
  type Part,
} from '../../src/part/index.ts';
import { dialReading, dialWork, routeFor } from '../../src/route/index.ts';
import { operationKindField } from '../../src/route/operation.ts';
import type { ToolMaterial } from '../../src/trade/index.ts';
import { asInvented, drawnPart, leavable, type Drawn } from './anyPart.ts';
import { inventedPart, machinesOf } from './invented.ts';
import { expectSound } from './sound.ts';

const tool = ({ rest }: Drawn): ToolMaterial => rest.tool ?? 'high-speed-steel';

/** A length that is counted from one side, as it is counted in the part turned round. */
function otherWay(datum: Part['turned'][number]['datum']): typeof datum {
  if (datum === null) return null;
  const from = datum.from.startsWith('left') ? datum.from.replace('left', 'right') : datum.from.replace('right', 'left');
  return { ...datum, from: from as typeof datum.from };
}

describe('laws of computed routes', () => {
  test('every part that gets a route gets a sound one, and most get one (seed 4401)', () => {
    let made = 0;
    let drawn = 0;
    fc.assert(
      fc.property(drawnPart('millimetre'), (one) => {
        const invented = asInvented(one);
        const part = inventedPart(invented);
        const machines = machinesOf(invented);
        const route = routeFor(part, machines, tool(one));
        drawn += 1;
        if (!route.ok) return;
        made += 1;
        expectSound(part, route.value, machines);
      }),
      { seed: 4401, numRuns: 200 },
    );
    expect(made / drawn).toBeGreaterThan(0.5);
  }, 60_000);

  test('the parts that are drawn have every kind of feature, mate and stock, and their routes every kind of step (seed 4401)', () => {
    const reached = new Map<string, number>();
    for (const one of fc.sample(drawnPart('millimetre'), { seed: 4401, numRuns: 400 })) {
      const invented = asInvented(one);
      const part = inventedPart(invented);
      const route = routeFor(part, machinesOf(invented), tool(one));
      if (!route.ok) continue;
      const kinds = [
        ...[...part.turned, ...part.edges, ...part.ends, ...part.milled].map(({ kind }) => kind),
        ...part.mates.map(({ kind }) => `mate ${kind}`),
        `stock ${part.stock.form}`,
        ...route.value.setups.map(({ id }) => `set-up ${id.replace(/-on\d+$/, '')}`),
        ...route.value.operations.map(({ kind }) => `step ${kind}`),
      ];
      for (const kind of new Set(kinds)) reached.set(kind, (reached.get(kind) ?? 0) + 1);
    }
    // Bolts are no mates of a feature, `find-high-spot` wants something timed, `offset` is made by hands: named parts have both.
    const named = new Set(['step find-high-spot', 'step offset', 'mate bolt']);
    const all = [
      ...[turnedFeatureSchema, edgeFeatureSchema, endFeatureSchema, milledFeatureSchema].flatMap(({ options }) =>
        options.map(({ shape }) => shape.kind.value),
      ),
      ...mateSchema.shape.kind.options.map((kind) => `mate ${kind}`),
      ...stockSchema.shape.form.options.map((form) => `stock ${form}`),
      ...operationKindField.options.map((kind) => `step ${kind}`),
      ...['first-end', 'second-end', 'offset', 'mill', 'ends'].map((id) => `set-up ${id}`),
    ].filter((kind) => !named.has(kind));
    // Each in so many of the parts at least that a law would meet it.
    expect(all.filter((kind) => (reached.get(kind) ?? 0) < 4)).toEqual([]);
  }, 60_000);

  test('removing a feature never lengthens the route (seed 4402)', () => {
    let compared = 0;
    fc.assert(
      fc.property(drawnPart('millimetre'), fc.nat(), (one, pick) => {
        const choices = leavable(one);
        const out = choices[pick % Math.max(1, choices.length)];
        fc.pre(out !== undefined);
        const whole = asInvented(one);
        const machines = machinesOf(whole);
        const [before, after] = [whole, asInvented(one, out)].map((invented) =>
          routeFor(inventedPart(invented), machines, tool(one)),
        );
        if (before?.ok !== true || after?.ok !== true) return;
        compared += 1;
        expect(after.value.operations.length).toBeLessThanOrEqual(before.value.operations.length);
      }),
      { seed: 4402, numRuns: 200 },
    );
    expect(compared).toBeGreaterThan(60);
  });

  test('the passes of an operation on its dials add up to the cut, and a stop to its distance (seed 4405)', () => {
    fc.assert(
      fc.property(drawnPart('millimetre'), (one) => {
        const invented = asInvented(one);
        const machines = machinesOf(invented);
        const route = routeFor(inventedPart(invented), machines, tool(one));
        if (!route.ok) return;
        for (const operation of route.value.operations) {
          const setup = route.value.setups.find(({ id }) => id === operation.setup);
          const machine = machines.find(({ id }) => id === setup?.machine);
          if (machine === undefined) throw new Error('a set-up without its machine');
          const { passes, stop } = dialWork(operation, machine);
          const taken = passes.reduce((sum, { depth, count }) => sum + depth * count, 0);
          const { target } = operation;
          if (target !== null && target.from !== null && passes.length > 0) {
            const across = target.quantity === 'diameter' || target.quantity === 'hole' ? 2 : 1;
            // Halves and quarters are rounded up to the nanometre, never down.
            const over = taken * across - Math.abs(target.from - target.aim);
            expect(over).toBeGreaterThanOrEqual(0);
            expect(over).toBeLessThanOrEqual(6);
          }
          if (stop === null || machine.carriage === null) continue;
          const { perTurn, division } = machine.carriage;
          expect(stop.turns * perTurn + stop.divisions * division + stop.beyond).toBe(operation.stop?.distance);
          expect(stop.beyond).toBeLessThan(division);
        }
      }),
      { seed: 4405 },
    );
  });

  test('mirrored end for end, a part of plain steps takes the same cuts (seed 4404)', () => {
    fc.assert(
      fc.property(drawnPart('millimetre'), (one) => {
        const plain = {
          ...one,
          ends: [],
          milled: [],
          edges: [],
          turned: one.turned.filter((line) => !/^(taper|groove)/.test(line)),
        };
        const invented = asInvented(plain);
        const machines = machinesOf(invented);
        const part = inventedPart(invented);
        const turnedRound = part.turned.map((feature) => ({ ...feature, datum: otherWay(feature.datum) }));
        const mirror: Part = { ...part, turned: turnedRound.reverse() };
        const at = ({ turned }: Part): number => turned.findIndex(({ kind }) => kind === 'collar');
        // Of two as large the one more to the left is the largest, which a mirror turns round.
        const across = (line: string | undefined): string | undefined => /([\d.]+)~/.exec(line ?? '')?.[1];
        fc.pre(
          plain.turned.filter((line) => across(line) === across(plain.turned.find((other) => other.startsWith('collar'))))
            .length === 1,
        );
        // Two sides of one length are told apart by left and right only, so they may change places.
        fc.pre(at(part) !== at(mirror) || part.turned.some(({ kind }) => kind === 'offset-journal'));
        const [there, back] = [part, mirror].map((side) => routeFor(side, machines, tool(one)));
        expect(there?.ok).toBe(back?.ok);
        if (there?.ok === true && back?.ok === true) expect(back.value.operations.length).toBe(there.value.operations.length);
      }),
      { seed: 4404 },
    );
  });
});

describe('a travel on a dial', () => {
  test.each([
    ['2.624in', 3, 22, '0.004in'],
    ['0.8in', 1, 0, '0mm'],
    ['0.794in', 0, 79, '0.004in'],
    ['0.009in', 0, 0, '0.009in'],
  ])('%s is %d turns, %d divisions and %s of .010 in, .800 a turn', (travel, turns, divisions, beyond) => {
    const thou = (text: string): Length => nanometres(Math.round(Number.parseFloat(text) * 25_400_000));
    const read = dialReading(thou(travel), { division: thou('0.01in'), perTurn: thou('0.8in') });
    expect([read.turns, read.divisions, writeLength(read.beyond)]).toEqual([turns, divisions, beyond]);
  });
});
