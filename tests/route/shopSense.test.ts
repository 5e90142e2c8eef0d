import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { INSTRUMENTS, millimetres, parseLength, thou } from '../../src/measure/index.ts';
import { passesOf, routeFor, routeSheet, type Operation, type Route } from '../../src/route/index.ts';
import { holeIn } from '../../src/route/generate/holes.ts';
import { springOf } from '../../src/route/generate/sideSteps.ts';
import { inventedPart, machinesOf, type Invented } from './invented.ts';

// What a machinist would catch on the sheet: each of these was wrong once.

const { parts } = JSON.parse(readFileSync(new URL('parts.json', import.meta.url), 'utf8')) as {
  readonly parts: readonly Invented[];
};
const MADE = parts.filter(({ faults }) => faults === undefined);

function routed(one: Invented): Route {
  const route = routeFor(inventedPart(one), machinesOf(one), one.tool ?? 'high-speed-steel');
  if (!route.ok) throw new Error(JSON.stringify(route.error));
  return route.value;
}
const called = (id: string): Invented => {
  const found = parts.find((part) => part.id === id);
  if (found === undefined) throw new Error(`no part is called ${id}`);
  return found;
};
const step = (route: Route, id: string): Operation => {
  const found = route.operations.find((operation) => operation.id === id);
  if (found === undefined) throw new Error(`no step is called ${id}`);
  return found;
};
const place = (route: Route, id: string): number => route.operations.indexOf(step(route, id));

describe('clear of the chuck', () => {
  test.each(MADE)('$id: no tool stops within a fifth of an inch of the jaws', (one) => {
    const route = routed(one);
    const { title, note } = step(route, 'grip-first-end');
    const drawn = /(?:Grip the \w+|draw the \w+ out to) ([\d.]+)/.exec(
      `${title} ${note ?? ''} ${route.operations.find(({ kind }) => kind === 'centre')?.note ?? ''}`,
    );
    if (drawn?.[1] === undefined) return;
    const out = parseLength(drawn[1], one.unit);
    if (!out.ok) throw new Error(drawn[1]);
    for (const { stop, setup } of route.operations)
      if (setup === 'first-end' && stop?.from === 'faced end') expect(stop.distance).toBeLessThanOrEqual(out.value - thou(200));
  });

  test('what stands out more than three diameters is held short to be faced and centred', () => {
    const { title, note } = step(routed(called('long-spindle')), 'grip-first-end');
    expect(title).toMatch(/^Grip the bar short/);
    expect(note).toMatch(/draw the bar out to 5\.9375 and bring the tailstock up/);
    expect(step(routed(called('square-blank')), 'grip-first-end').title).toMatch(/^Grip the bar \d/);
  });
});

describe('threads', () => {
  test('stop two pitches short of a shoulder without relief, and say so', () => {
    const thread = step(routed(called('screw-end')), 'thread-on3');
    expect(thread.stop?.distance).toBe(millimetres(20 - 2 * 1.75));
    expect(thread.note).toContain('3.50 mm short of the shoulder');
    // .6134·1.75 = 1.0735 on the radius; along a compound at 29.5 degrees 1.0735/cos 29.5° = 1.2334 (computed).
    expect(thread.alternatives[0]).toContain('1.233 mm in all');
  });

  test('run into a relief where there is one, and over what is cut away later where the thread is the largest of all', () => {
    expect(step(routed(called('relieved-stud')), 'thread-on4').stop?.distance).toBe(millimetres(18.5));
    const largest = routed(called('thread-is-largest'));
    expect(step(largest, 'thread-on2').stop?.distance).toBe(millimetres(50));
    expect(step(largest, 'dial-in-true').note).toContain('indicator on it, beside the jaws');
  });

  test('a blind hole says which taps its room wants, and how well the thread holds', () => {
    // 18 deep for 14 of M6x1: four pitches below, a plug tap has four and wants one to spare.
    const { why } = step(routed(called('tapped-both')), 'tap-end1');
    expect(why.join(' ')).toContain('4.0 threads of room: start with a plug tap, and finish with a bottoming tap');
    expect(why.join(' ')).toContain('2.3 diameters deep; 1.5 is enough in aluminium');
  });
});

describe('lands of one size', () => {
  const route = routed(called('two-lands'));
  test('are finished in one cut, filed each, and the bore is tried once all that it goes over is down', () => {
    const far = step(route, 'finish-on4');
    expect(far).toMatchObject({ cut: null, stop: null });
    expect(far.target?.from).toBeNull();
    expect(passesOf(far)).toEqual([]);
    expect(far.target?.aim).toBe(step(route, 'finish-on2').target?.aim);
    for (const before of ['file-on2', 'file-on4', 'finish-on5'])
      expect(place(route, 'try-on2')).toBeGreaterThan(place(route, before));
  });
  test('what lies outboard starts from what that cut left, without a rough cut that would take nothing', () => {
    expect(route.operations.some(({ id }) => id === 'rough-on5')).toBe(false);
    expect(step(route, 'finish-on5').target?.from).toBe(step(route, 'finish-on2').target?.aim);
  });
  test('a flat wider than the cutter is cut side by side, to its edges', () => {
    const { coordinates } = step(route, 'mill-cut1');
    const reach = Math.max(...coordinates.map(({ y }) => y)) + thou(250);
    // 2·√(21·4) = 18.330 wide (computed).
    expect(reach).toBe(Math.ceil(millimetres(18.330303) / 2));
    expect(step(route, 'mill-cut1').note).toContain('From its bottom to the far side of the journal 4: 21.00.');
  });
});

describe('off centre', () => {
  const route = routed(called('crank-pin'));
  test('no hand goes near work that swings, and the first cuts are on one side', () => {
    const edges = step(route, 'edges-broken-offset-on1');
    expect(edges.caution).toBe('out-of-balance');
    expect(edges.note).toContain('spindle stopped');
    expect(step(route, 'rough-on1').note).toContain('cuts on one side only');
  });
});

describe('by material', () => {
  test.each([
    ['iron-roller', /cutting oil|light oil/i],
    ['bored-hub', /cutting oil/i],
  ] as const)('%s is cut dry', (id, oil) => {
    const one = called(id);
    expect(routeSheet(inventedPart(one), machinesOf(one), routed(one))).not.toMatch(oil);
  });
  test('a drill in brass has its lips dubbed', () => {
    expect(step(routed(called('bored-hub')), 'drill-end1').cut?.note).toContain('dubbed flat');
  });
  test('a drill of an inch shop has its name', () => {
    expect(step(routed(called('tapped-spindle')), 'drill-end1').title).toBe('Drill #7 (.201) for 1/4-20, .900 deep');
  });
});

describe('what is pressed on', () => {
  test('gets its lead while it is still held', () => {
    expect(step(routed(called('shrunk-hub')), 'finish-on2').note).toContain('Give its end a lead while it is held');
  });
});

describe('hollow work', () => {
  const shaft = (hole: string): ReturnType<typeof inventedPart> =>
    inventedPart({
      id: 'hollow',
      unit: 'millimetre',
      stock: '30 170 steel',
      turned: 'journal 12~0.002 34~0.1; collar 28~0.1 20~0.1; journal 20~0.1 45~0.1',
      ends: hole,
    });

  test('a hole is in what it reaches into, through it or not, by the end that it comes from', () => {
    expect(holeIn(shaft('right drilled 7 20'), 'on1')).toBeNull();
    // From the right: 45 and 20 deep before the journal on the left begins.
    expect(holeIn(shaft('right drilled 7 65'), 'on1')).toBeNull();
    expect(holeIn(shaft('right drilled 7 90'), 'on1')).toEqual({ across: millimetres(7), through: false });
    expect(holeIn(shaft('right drilled 7 90'), 'on2')).toEqual({ across: millimetres(7), through: true });
    expect(holeIn(shaft('right drilled 7 90'), 'on1', 'left')).toBeNull();
    expect(holeIn(shaft('left centre'), 'on1')).toBeNull();
  });

  test('what is drilled from the end that is done makes the other end bend more (computed: 1/(1 - (7/12)⁴))', () => {
    const part = shaft('right drilled 7 90');
    const [lathe] = machinesOf({});
    const [feature] = part.turned;
    if (lathe === undefined || feature === undefined) throw new Error('nothing to turn');
    const work = {
      part,
      lathe: { machine: lathe, material: 'low-carbon-steel', tool: 'high-speed-steel', unit: part.unit },
      mill: null,
      instruments: INSTRUMENTS,
    } as const;
    const bar = { feature, diameter: millimetres(12), length: millimetres(34), offset: millimetres(0), needs: millimetres(12) };
    const held = { bending: 'chuck', out: millimetres(120) } as const;
    const [solid, hollow] = ([null, 'right'] as const).map((drilled) =>
      springOf(work, bar, { ...held, drilled }, millimetres(0)),
    );
    expect(Number(hollow) / Number(solid)).toBeCloseTo(1 / (1 - (7 / 12) ** 4), 3);
  });
});

test('a sawn blank that is much too long is sawn, not faced away', () => {
  const one = called('iron-roller');
  expect(step(routed(one), 'face-second-end').note).toMatch(/too long: saw most of that off/);
  expect(step(routed(called('sawn-blank')), 'face-second-end').note).not.toMatch(/saw/);
});

describe('thin walls', () => {
  test('a bore that leaves less than an eighth of it is cut slower, with light passes, and says why', () => {
    const hub = called('bored-hub');
    const thick = step(routed(hub), 'bore-end1');
    const thin = step(routed({ ...hub, turned: hub.turned.replace('journal 35~', 'journal 24.8~') }), 'bore-end1');
    expect(thick.note).not.toContain('wall');
    expect(thick.why.join(' ')).not.toContain('thin wall');
    // (24.79 - 20.032)/2 = 2.379, under an eighth of 20.032 (computed).
    expect(thin.note).toContain('The wall left is only 2.379');
    expect(thin.note).toContain('springs out of round');
    expect(thin.why.join(' ')).toContain('less for the thin wall');
    expect(thin.cut?.speedRpm ?? 0).toBeLessThan(thick.cut?.speedRpm ?? 0);
  });
});

describe('what helps a length that does not come out', () => {
  test.each([
    ['all-from-the-left', 'on1', /^Short of it, face the shoulder back/],
    // Their shoulders look to the right: facing them back makes what lies to their left shorter, and the right end is held.
    ['all-from-the-left', 'on2', /^Over it, the shoulder wants facing back, with the part turned end for end/],
    ['all-from-the-left', 'on3', /^Over it, the shoulder wants facing back, with the part turned end for end/],
    ['faced-lengths', 'on2', /^Over it, face the shoulder back/],
    ['faced-lengths', 'on3', /^Short of it, face the shoulder back/],
  ])('%s, %s', (id, feature, note) => {
    expect(step(routed(called(id)), `read-length-${feature}`).note).toMatch(note);
  });

  test('a shoulder that may go back is read before the facing that counts from it', () => {
    const route = routed(called('faced-lengths'));
    const facing = route.operations.findLastIndex(({ kind }) => kind === 'length' || kind === 'face');
    expect(place(route, 'read-length-on2')).toBeLessThan(facing);
    expect(route.operations[facing]?.title).toMatch(/^Face the end/);
  });
});

describe('the floor of a hole', () => {
  test('says how far a bore goes, and where a point comes through', () => {
    const route = routed(called('thin-sleeve'));
    expect(step(route, 'bore-end1').note).toContain('Its depth: not under 1.240, not over 1.260.');
    // A point of 1.375/2/tan 59° = .41309; .31309 of it lies past the part of 1.500: 1.375·.31309/.41309 = 1.0421 (computed).
    expect(step(route, 'drill-end1').note).toContain('comes through the other end, open 1.0421 across');
    expect(step(routed(called('bearing-housing')), 'drill-end1').note).not.toContain('comes through');
  });
});

describe('a length that is brought in with one end in the chuck', () => {
  const facing = (id: string): Operation => {
    const found = routed(called(id)).operations.findLast(({ kind }) => kind === 'length');
    if (found === undefined) throw new Error(`nothing is faced to length in ${id}`);
    return found;
  };
  // Held on the collar that is faced; held on the journal behind it.
  test.each([
    ['bearing-housing', true],
    ['thin-sleeve', false],
  ])('%s: said %s', (id, said) => {
    expect(facing(id).before.some((line) => line.startsWith('Its other end is in the chuck'))).toBe(said);
  });
});
