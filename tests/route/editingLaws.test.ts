import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { inches, plus, type Length } from '../../src/measure/index.ts';
import { mateSize } from '../../src/part/index.ts';
import {
  applyEdit,
  applyEdits,
  changesBetween,
  keepMeasuring,
  reapply,
  remeasured,
  routeEditSchema,
  routeFor,
  routeSchema,
  unedited,
  type EditedRoute,
  type Operation,
  type Route,
  type RouteEdit,
} from '../../src/route/index.ts';
import { inventedPart, MACHINES, type Invented } from './invented.ts';
import { ids, step } from './steps.ts';

const { parts: PARTS } = JSON.parse(readFileSync(new URL('parts.json', import.meta.url), 'utf8')) as {
  readonly parts: readonly Invented[];
};

/** Edits by numbers, so that any draw means something on any route; most apply, the rest are refused. */
const draws = fc.array(fc.record({ kind: fc.nat(5), at: fc.nat(), to: fc.nat(), part: fc.integer({ min: 1, max: 99 }) }), {
  maxLength: 8,
});

function drawn(
  edited: EditedRoute,
  { kind, at, to, part }: { kind: number; at: number; to: number; part: number },
  count: number,
): RouteEdit {
  const { operations } = edited.route;
  const operation = operations[at % operations.length] as Operation;
  const after = to % (operations.length + 1) === 0 ? null : (operations[(to % (operations.length + 1)) - 1]?.id ?? null);
  const { target, id } = operation;
  const [from, aim] = [target?.from ?? inches(1), target?.aim ?? inches(0.5)];
  switch (kind) {
    case 0:
      return { edit: 'move', operation: id, after };
    case 1:
      return {
        edit: 'split',
        operation: id,
        at: (aim + Math.round(((from - aim) * part) / 100)) as Length,
        second: `part-${count}`,
        mateSize: null,
      };
    case 2:
      return { edit: 'skip', operation: id };
    case 3:
      return { edit: 'note', operation: id, note: `Note ${count}` };
    case 4:
      return { edit: 'add', after: id, operation: { ...operation, id: `added-${count}`, target: null, stop: null } };
    default:
      return { edit: 'change', operation: id, numbers: { aim: (aim + part * 100) as Length }, mateSize: null };
  }
}

function drawnOn(route: Route, all: readonly { kind: number; at: number; to: number; part: number }[]): EditedRoute {
  return all.reduce<EditedRoute>((edited, draw, count) => {
    const next = applyEdit(edited, drawn(edited, draw, count));
    return next.ok ? next.value : edited;
  }, unedited(route));
}

/** The invented parts that these two machines can make. */
const routed = PARTS.flatMap((invented) => {
  const part = inventedPart(invented);
  const route = routeFor(part, MACHINES, 'high-speed-steel');
  return route.ok ? [{ part, route: route.value }] : [];
});
const anyMade = fc.constantFrom(...routed);

describe('laws of edits', () => {
  test('no operation is lost, no id stands twice, and the route still reads (seed 4701)', () => {
    let applications = 0;
    fc.assert(
      fc.property(anyMade, draws, ({ route }, all) => {
        const edited = drawnOn(route, all);
        applications += edited.edits.length;
        expect(ids(edited.route)).toEqual(expect.arrayContaining(ids(route)));
        expect(new Set(ids(edited.route)).size).toBe(edited.route.operations.length);
        expect(routeSchema.parse(z.encode(routeSchema, edited.route))).toEqual(edited.route);
      }),
      { seed: 4701 },
    );
    // Most draws must have meant something, or the law says nothing.
    expect(applications).toBeGreaterThan(100);
  });

  test('edits survive the file, and applied again they give the same route (seed 4702)', () => {
    fc.assert(
      fc.property(anyMade, draws, ({ route }, all) => {
        const edited = drawnOn(route, all);
        const stored = edited.edits.map((edit) => routeEditSchema.parse(z.encode(routeEditSchema, edit)));
        expect(stored).toEqual(edited.edits);
        const again = applyEdits(route, stored);
        expect(again.ok && again.value).toEqual(edited);
        expect(reapply(route, stored)).toEqual({ edited, leftOver: [] });
      }),
      { seed: 4702 },
    );
  });

  test('every prefix of the edits is a state that undo comes back to exactly (seed 4703)', () => {
    fc.assert(
      fc.property(anyMade, draws, ({ route }, all) => {
        let edited = unedited(route);
        all.forEach((draw, count) => {
          const next = applyEdit(edited, drawn(edited, draw, count));
          if (!next.ok) return;
          expect(reapply(route, next.value.edits.slice(0, -1)).edited).toEqual(edited);
          edited = next.value;
        });
      }),
      { seed: 4703 },
    );
  });

  test('a mate measured again keeps the edits, and a fitted size that a hand set keeps its clearance (seed 4704)', () => {
    let seen = 0;
    fc.assert(
      fc.property(anyMade, draws, fc.integer({ min: -20_000, max: 20_000 }), ({ part, route }, all, by) => {
        const mate = part.mates.find(({ kind }) => kind === 'bore');
        fc.pre(by !== 0);
        if (mate === undefined) return;
        const edited = drawnOn(route, all);
        const size = plus(mateSize(mate), by as Length);
        const read = { value: size, place: 'middle', across: 'one-way', instrument: 'micrometer' } as const;
        const moved = routeFor(remeasured(part, { [mate.id]: [read] }), MACHINES, 'high-speed-steel');
        if (!moved.ok) return;
        // Two journals of nearly one size may change places as neck and shoulder: then it is another route.
        if (String(ids(moved.value)) !== String(ids(route))) return;
        const again = reapply(keepMeasuring(moved.value, route), edited.edits);
        expect(again.leftOver).toEqual([]);
        expect(ids(again.edited.route)).toEqual(ids(edited.route));
        expect(again.edited.skipped).toEqual(edited.skipped);
        for (const operation of edited.route.operations) {
          const after = step(again.edited.route, operation.id);
          if (edited.edits.some((edit) => edit.edit === 'note' && edit.operation === operation.id))
            expect(after.note).toBe(operation.note);
          if (operation.target?.fit?.mate !== mate.id || operation.target.quantity !== 'diameter') continue;
          seen += 1;
          expect(after.target?.aim).toBe(plus(operation.target.aim, by as Length));
          expect(after.target?.fit).toEqual(operation.target.fit);
        }
      }),
      { seed: 4704 },
    );
    expect(seen).toBeGreaterThan(20);
  });

  test('what changed is nothing between equal routes, and is told of every operation that differs (seed 4705)', () => {
    fc.assert(
      fc.property(anyMade, draws, ({ route }, all) => {
        expect(changesBetween(route, structuredClone(route))).toEqual([]);
        const { route: after } = drawnOn(route, all);
        const told = new Set(changesBetween(route, after).map(({ operation }) => operation));
        const was = new Map(route.operations.map((operation) => [operation.id, operation]));
        for (const operation of after.operations) {
          const old = was.get(operation.id);
          if (old === undefined || JSON.stringify(old) !== JSON.stringify(operation)) expect(told).toContain(operation.id);
        }
      }),
      { seed: 4705 },
    );
  });
});
