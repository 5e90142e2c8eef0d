import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { inches, minus, plus, thou, type Length } from '../../src/measure/index.ts';
import type { Part } from '../../src/part/index.ts';
import {
  applyEdit,
  applyEdits,
  changesBetween,
  checkRoute,
  describeChange,
  describeEditFault,
  keepMeasuring,
  operationSchema,
  readEditedPartFile,
  reapply,
  remeasured,
  routeEditSchema,
  routeFor,
  unedited,
  type EditFault,
  type EditedRoute,
  type Route,
  type RouteEdit,
} from '../../src/route/index.ts';
import { demoJson, demoPlan, DEMOS, type Demo } from './demos.ts';
import { MACHINES } from './invented.ts';
import { ids, step } from './steps.ts';

function made(part: Part, machines = MACHINES): Route {
  const route = routeFor(part, machines, 'high-speed-steel');
  if (!route.ok) throw new Error(`${part.id} cannot be made`);
  return route.value;
}

const inch = demoPlan('inch');
const base = made(inch.part, inch.machines);
const edits = (...written: readonly unknown[]): RouteEdit[] => written.map((edit) => routeEditSchema.parse(edit));

function applied(route: Route, ...written: readonly unknown[]): EditedRoute {
  const result = applyEdits(route, edits(...written));
  if (!result.ok) throw new Error(describeEditFault(result.error.fault, route, 'inch'));
  return result.value;
}

function refused(route: Route, ...written: readonly unknown[]): EditFault {
  const result = applyEdits(route, edits(...written));
  if (result.ok) throw new Error('the edit was applied');
  return result.error.fault;
}

const FITTED = 'finish-arm-journal';
const ROUGH = 'rough-arm-journal';

const demoJsonPart = (demo: Demo): unknown => (demoJson(demo) as { readonly part: unknown }).part;
const demoMachines = (demo: Demo): unknown => (demoJson(demo) as { readonly machines: unknown }).machines;

const changedFields = (before: Route, after: Route): string[] =>
  changesBetween(before, after).map((change) =>
    change.change === 'value' ? `${change.operation} ${change.field}` : `${change.operation} ${change.change}`,
  );

const probe = (id: string, setup: string): unknown =>
  z.encode(operationSchema, { ...step(base, 'edges-broken-first-end'), id, setup, title: 'Wipe it down', say: 'Wipe it down' });

describe('one edit', () => {
  test('a change of the aim rewrites the title, and what goes on from it starts there', () => {
    const before = step(base, FITTED);
    const aim = plus(before.target?.aim ?? inches(0), thou(0.1));
    const { route } = applied(base, { edit: 'change', operation: FITTED, numbers: { aim: `${aim / 1e6}mm` } });
    expect(step(route, FITTED).target?.aim).toBe(aim);
    expect(step(route, FITTED).title).toContain('1.0011');
    expect(step(route, 'file-arm-journal').target?.from).toBe(aim);
    expect(changedFields(base, route)).toEqual([`${FITTED} title`, `${FITTED} target.aim`, 'file-arm-journal target.from']);
  });

  test('a change of a limit of a fit keeps the fit, so that the window still moves with the mate', () => {
    const { route } = applied(base, { edit: 'change', operation: 'file-arm-journal', numbers: { low: '0.9982in' } });
    const target = step(route, 'file-arm-journal').target;
    expect(target?.low).toBe(inches(0.9982));
    expect(target?.fit?.mostClearance).toBe(thou(1.8));
    expect(target?.fit?.leastClearance).toBe(thou(1));
  });

  test('speed, feed, depth, stop and time', () => {
    const numbers = { speedRpm: 220, feedPerTurn: '0.006in', depthOnRadius: '0.030in', stop: '2.5in', minutes: 9 };
    const { route } = applied(base, { edit: 'change', operation: ROUGH, numbers });
    const rough = step(route, ROUGH);
    expect(rough.cut).toMatchObject({ speedRpm: 220, feedPerTurn: inches(0.006), depthOnRadius: inches(0.03) });
    expect([rough.stop?.distance, rough.minutes]).toEqual([inches(2.5), 9]);
  });

  test('a split cuts to the size first and goes on from it', () => {
    const whole = step(base, ROUGH);
    const { route } = applied(base, { edit: 'split', operation: ROUGH, at: '1.15in', second: 'rough-again' });
    const at = ids(route).indexOf(ROUGH);
    expect(ids(route)[at + 1]).toBe('rough-again');
    const [first, second] = [step(route, ROUGH), step(route, 'rough-again')];
    expect([first.target?.from, first.target?.aim, second.target?.from, second.target?.aim]).toEqual([
      whole.target?.from,
      inches(1.15),
      inches(1.15),
      whole.target?.aim,
    ]);
    expect(first.title).toContain('1.150');
    expect(checkRoute(inch.part, inch.machines, route)).toEqual(checkRoute(inch.part, inch.machines, base));
  });

  test('a skipped operation stays in the route, marked', () => {
    const { route, skipped } = applied(base, { edit: 'skip', operation: 'edges-broken-first-end' });
    expect(ids(route)).toEqual(ids(base));
    expect(skipped).toEqual(['edges-broken-first-end']);
  });

  test('a note takes the place of the note that is there; a word of its own can be added as an operation', () => {
    const { route } = applied(
      base,
      { edit: 'note', operation: ROUGH, note: 'The left-hand tool.' },
      { edit: 'add', after: ROUGH, operation: probe('wipe', 'first-end') },
      { edit: 'note', operation: 'wipe', note: null },
    );
    expect(step(route, ROUGH).note).toBe('The left-hand tool.');
    expect(ids(route)[ids(route).indexOf(ROUGH) + 1]).toBe('wipe');
    expect(step(route, 'wipe').note).toBeNull();
  });

  test('a move counts as one', () => {
    const { route } = applied(base, { edit: 'move', operation: 'measure-wheel-hub', after: 'rough-bearing-seat' });
    expect(changedFields(base, route)).toEqual(['measure-wheel-hub moved']);
    expect(ids(route)).toEqual(expect.arrayContaining(ids(base)));
  });
});

describe('what makes no sense is refused with its reason', () => {
  const second = 'dial-in-cam';
  test.each<[string, unknown, EditFault['key']]>([
    ['an operation that is not there', { edit: 'skip', operation: 'nothing' }, 'no-such-operation'],
    ['after one that is not there', { edit: 'move', operation: ROUGH, after: 'nothing' }, 'no-such-operation'],
    [
      'added after one that is not there',
      { edit: 'add', after: 'nothing', operation: probe('a', 'first-end') },
      'no-such-operation',
    ],
    ['an id that is taken', { edit: 'add', after: ROUGH, operation: probe(FITTED, 'first-end') }, 'id-taken'],
    ['a split into an id that is taken', { edit: 'split', operation: ROUGH, at: '1.15in', second: FITTED }, 'id-taken'],
    ['a set-up that is not there', { edit: 'add', after: ROUGH, operation: probe('a', 'nowhere') }, 'no-such-setup'],
    ['a set-up in the middle of another', { edit: 'add', after: ROUGH, operation: probe('a', 'mill') }, 'other-setup'],
    ['moved into another set-up', { edit: 'move', operation: 'tap-keeper-thread', after: 'rough-cam' }, 'after-what-needs-it'],
    ['where it is already', { edit: 'move', operation: FITTED, after: 'rough-bearing-seat' }, 'already-there'],
    ['finish before rough', { edit: 'move', operation: FITTED, after: 'grip-first-end' }, 'before-what-it-needs'],
    ['file before finish', { edit: 'move', operation: 'file-arm-journal', after: 'rough-bearing-seat' }, 'before-what-it-needs'],
    ['rough after finish', { edit: 'move', operation: ROUGH, after: FITTED }, 'after-what-needs-it'],
    ['turned before its mate is measured', { edit: 'move', operation: 'measure-arm-bore', after: FITTED }, 'after-what-needs-it'],
    [
      'tapped before drilled',
      { edit: 'move', operation: 'tap-keeper-thread', after: 'length-bearing-seat' },
      'before-what-it-needs',
    ],
    ['before the work is held', { edit: 'move', operation: 'finish-collar', after: null }, 'before-what-it-needs'],
    ['anything after parting off', { edit: 'move', operation: 'part-off', after: ROUGH }, 'before-what-it-needs'],
    [
      'milled before its edges are found',
      { edit: 'move', operation: 'edges-pin-pocket', after: 'mill-pin-pocket' },
      'after-what-needs-it',
    ],
    ['the holding skipped', { edit: 'skip', operation: second }, 'holds-the-work'],
    ['a split of what takes nothing', { edit: 'split', operation: second, at: '1in', second: 'b' }, 'nothing-to-split'],
    ['a split outside of the cut', { edit: 'split', operation: ROUGH, at: '1in', second: 'b' }, 'split-outside'],
    [
      'a speed where nothing turns',
      { edit: 'change', operation: 'measure-arm-bore', numbers: { speedRpm: 100 } },
      'no-such-number',
    ],
    ['a size where none is wanted', { edit: 'change', operation: 'part-off', numbers: { aim: '1in' } }, 'no-such-number'],
    ['a stop where there is none', { edit: 'change', operation: 'deburr', numbers: { stop: '1in' } }, 'no-such-number'],
    ['an aim outside its window', { edit: 'change', operation: FITTED, numbers: { aim: '1.1in' } }, 'aim-outside'],
  ])('%s', (_, edit, key) => {
    const fault = refused(base, edit);
    expect(fault.key).toBe(key);
    const sentence = describeEditFault(fault, base, 'inch');
    expect(sentence).toMatch(/^[A-Z].*\.$/);
    expect(sentence).not.toMatch(/undefined|NaN/);
  });

  test('what is skipped already, and what is done already', () => {
    const skip = { edit: 'skip', operation: ROUGH };
    expect(refused(base, skip, skip).key).toBe('already-skipped');
    const done = new Set([ROUGH]);
    const keys = edits(
      { edit: 'split', operation: ROUGH, at: '1.15in', second: 'b' },
      { edit: 'move', operation: ROUGH, after: 'grip-first-end' },
      { edit: 'change', operation: ROUGH, numbers: { speedRpm: 90 } },
      skip,
      { edit: 'note', operation: ROUGH, note: 'It rang.' },
    ).map((edit) => {
      const result = applyEdit(unedited(base), edit, done);
      return result.ok ? 'applied' : result.error.key;
    });
    expect(keys).toEqual(['already-done', 'already-done', 'already-done', 'already-done', 'applied']);
  });

  test('an edit that changes nothing is not even read', () => {
    expect(routeEditSchema.safeParse({ edit: 'change', operation: ROUGH, numbers: {} }).success).toBe(false);
  });
});

const bore = (part: Part, size: Length): Part =>
  remeasured(part, { 'arm-bore': [{ value: size, place: 'middle', across: 'one-way', instrument: 'micrometer' }] });

describe('a mate measured again', () => {
  const smaller = bore(inch.part, inches(0.9994));
  const after = keepMeasuring(made(smaller, inch.machines), base);

  test('changes only what depends on it, and says what', () => {
    const touched = new Set(changesBetween(base, after).map(({ operation }) => operation));
    // What is roughed next may start from where the journal was roughed to.
    expect(['rough-bearing-seat']).toEqual(expect.arrayContaining([...touched].filter((id) => !id.includes('arm'))));
    const lines = changesBetween(base, after).map((change) => describeChange(change, 'inch'));
    expect(lines).toContain('File the arm journal to .9979: size to aim at .9985 in, now .9979 in');
    expect(lines.join('\n')).not.toMatch(/undefined|NaN|\[object/);
  });

  test('keeps a hand-set clearance', () => {
    const hand = { edit: 'change', operation: 'file-arm-journal', numbers: { aim: '0.9987in', low: '0.9983in' } };
    const edited = applied(base, hand);
    const again = reapply(after, edited.edits);
    expect(again.leftOver).toEqual([]);
    const [was, is] = [step(edited.route, 'file-arm-journal').target, step(again.edited.route, 'file-arm-journal').target];
    expect(is?.aim).toBe(minus(was?.aim ?? inches(0), thou(0.6)));
    expect(is?.low).toBe(minus(was?.low ?? inches(0), thou(0.6)));
    expect(is?.fit).toEqual(was?.fit);
  });

  test("an operation of one's own that is fitted to it moves with it", () => {
    const own = { ...step(base, 'file-arm-journal'), id: 'polish-after', title: 'Polish', say: 'Polish' };
    const edited = applied(base, { edit: 'add', after: 'file-arm-journal', operation: z.encode(operationSchema, own) });
    const again = reapply(after, edited.edits).edited.route;
    expect(step(again, 'polish-after').target?.aim).toBe(minus(own.target?.aim ?? inches(0), thou(0.6)));
  });

  test('an edit of an operation that is gone is left over and told, and nothing else is lost', () => {
    const edited = applied(base, { edit: 'skip', operation: ROUGH }, { edit: 'note', operation: FITTED, note: 'Slowly.' });
    const less: Part = { ...inch.part, stock: { ...inch.part.stock, size: inch.part.stock.size } };
    const without = { ...made(less, inch.machines), operations: base.operations.filter(({ id }) => id !== ROUGH) };
    const again = reapply(without, edited.edits);
    expect(again.leftOver.map(({ fault }) => fault.key)).toEqual(['no-such-operation']);
    expect(step(again.edited.route, FITTED).note).toBe('Slowly.');
  });
});

describe('edits in a part file', () => {
  test.each(DEMOS)('demo:%s: a part file reads with edits and without', (demo) => {
    const { part, machines } = demoPlan(demo);
    const plain = {
      format: 'swarfside-part',
      version: 1,
      invented: true,
      part: demoJsonPart(demo),
      machines: demoMachines(demo),
    };
    const without = readEditedPartFile(JSON.stringify(plain));
    expect(without.ok && without.value.edits).toEqual([]);
    expect(without.ok && without.value.part).toEqual(part);
    expect(without.ok && without.value.machines).toEqual(machines);
    const one = { edit: 'skip', operation: 'deburr' };
    const with_ = readEditedPartFile(JSON.stringify({ ...plain, edits: [one] }));
    expect(with_.ok && with_.value.edits).toEqual([one]);
    const wrong = readEditedPartFile(JSON.stringify({ ...plain, edits: [{ edit: 'explode', operation: 'deburr' }] }));
    expect(wrong.ok ? null : wrong.error.path).toEqual(['edits', 0, 'edit']);
  });
});
