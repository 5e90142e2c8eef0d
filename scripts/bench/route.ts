/**
 * How long a route takes to compute: 100 invented parts of 25, 50, 100 and 200 features, median and worst; once all of them
 * turned
 * steps, once everything that a part can have.
 */
import { performance } from 'node:perf_hooks';
import { machineSchema, partSchema, type Part } from '../../src/part/index.ts';
import { checkRoute, routeFor } from '../../src/route/index.ts';

/** Small numbers that are the same on every run (a linear congruential step; quality does not matter here). */
function drawer(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (state * 1_103_515_245 + 12_345) % 2_147_483_648;
    return state % below;
  };
}
type Draw = ReturnType<typeof drawer>;

const machines = [
  {
    id: 'lathe',
    name: 'Engine lathe (invented)',
    carriage: { division: '0.1mm', perTurn: '18mm' },
    spindleSpeeds: [70, 105, 150, 220, 280, 340, 430, 560, 750, 1100],
    feeds: ['0.05mm', '0.08mm', '0.12mm', '0.2mm', '0.25mm'],
    powerKw: 1.5,
    tools: ['turning', 'facing', 'parting', 'grooving', 'threading', 'boring', 'drilling', 'tapping', 'follow-rest'],
  },
  { id: 'mill', name: 'Knee mill (invented)', carriage: null, spindleSpeeds: [90, 150, 240, 400, 650, 1050, 1700, 2600] },
].map((machine) => machineSchema.parse({ crossSlide: { division: '0.02mm', perTurn: '4mm', reads: 'radius' }, ...machine }));

type Json = Readonly<Record<string, unknown>>;
const mm = (value: number): string => `${value.toFixed(2)}mm`;

/**
 * A side that steps down from a collar, each step .1 to .3 mm less than the one before, from the collar outward. With `all`,
 * every
 * sixth step is a groove or a neck and every ninth a cone.
 */
function side(count: number, name: 'left' | 'right', draw: Draw, all: boolean): Json[] {
  let across = 120;
  return Array.from({ length: count }, (_, index): Json => {
    const id = `${name}-${index}`;
    const called = `Step ${name} ${index}`;
    const length = { low: '3mm', high: `3.${draw(9) + 1}mm` };
    // Something larger has to stand outboard of a recess, so the outermost steps are plain.
    const closed = index + 2 < count;
    if (all && closed && index % 6 === 2) {
      const deep = across - 8;
      return index % 12 === 2
        ? { kind: 'groove', id, name: called, diameter: { low: mm(deep), high: mm(deep + 0.1) }, length }
        : { kind: 'journal', id, name: called, diameter: { low: mm(deep), high: mm(deep + 0.02) }, length, mate: null };
    }
    across -= 0.1 + draw(20) / 100;
    if (all && index % 9 === 5) {
      const large = across;
      across -= 0.2;
      return {
        kind: 'taper',
        id,
        name: called,
        diameter: { low: mm(large), high: mm(large + 0.02) },
        small: mm(across),
        smallEnd: name,
        length,
      };
    }
    return {
      kind: 'journal',
      id,
      name: called,
      diameter: { low: mm(across), high: mm(across + 0.02) },
      length,
      mate: null,
      roughness: all && index % 4 === 0 ? 1.6 : null,
    };
  });
}

/**
 * A part of so many features: half of them turned where everything is asked for, a third edges, the rest in its ends and sides.
 */
function partOf(features: number, draw: Draw, all: boolean): Part {
  const turned = all ? Math.ceil(features / 2) : features;
  const left = side(Math.floor((turned - 1) / 2), 'left', draw, all);
  const right = side(turned - 1 - left.length, 'right', draw, all);
  const plain = [...left, ...right].filter(({ kind }) => kind === 'journal');
  const onLeft = new Set(left);
  const edges = !all
    ? []
    : Array.from({ length: Math.floor(features / 3) }, (_, index): Json => {
        const on = plain[index % plain.length] ?? {};
        const [outboard, inboard] = onLeft.has(on) ? ['left', 'right'] : ['right', 'left'];
        const base = { id: `edge-${index}`, name: `Edge ${index}`, on: on['id'] };
        return index < plain.length
          ? { kind: 'chamfer', ...base, at: outboard, size: '0.3mm' }
          : { kind: 'undercut', ...base, at: inboard, width: '1.5mm', depth: '0.2mm' };
      });
  const ends: Json[] = !all
    ? []
    : [
        { kind: 'centre', id: 'left-centre', name: 'Left centre', end: 'left' },
        {
          kind: 'tapped-hole',
          id: 'left-thread',
          name: 'Left thread',
          end: 'left',
          designation: 'M8x1.25',
          drill: '6.8mm',
          drillDepth: '25mm',
          threadDepth: '18mm',
        },
        {
          kind: 'bored-hole',
          id: 'right-bore',
          name: 'Right bore',
          end: 'right',
          diameter: { low: '20mm', high: '20.02mm' },
          depth: { low: '14mm', high: '14.2mm' },
          drill: '18mm',
          drillDepth: '18mm',
        },
      ];
  const milled = !all
    ? []
    : Array.from({ length: Math.max(0, features - turned - edges.length - ends.length) }, (_, index): Json => {
        const base = { id: `cut-${index}`, name: `Cut ${index}`, on: 'collar', angle: draw(360), along: mm(10 + draw(40)) };
        return index % 2 === 0
          ? { kind: 'cross-hole', ...base, diameter: '5mm', depth: '8mm' }
          : { kind: 'keyway', ...base, width: '6mm', depth: '3mm', length: '15mm' };
      });
  const collar = {
    kind: 'collar',
    id: 'collar',
    name: 'Collar',
    diameter: { low: '120mm', high: '120.2mm' },
    length: { low: '65mm', high: '65.2mm' },
  };
  return partSchema.parse({
    id: 'drawn',
    name: 'Drawn (invented)',
    unit: 'millimetre',
    stock: { form: 'round', size: '125mm', length: '1300mm', material: 'steel' },
    mates: [],
    turned: [...left.reverse(), collar, ...right],
    edges,
    ends,
    milled,
  });
}

const median = (times: readonly number[]): number => [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? 0;

for (const all of [false, true]) {
  process.stdout.write(all ? '\neverything that a part can have\n' : 'turned steps\n');
  process.stdout.write('features  operations  route ms median   worst  with checks ms median  processor ms a route\n');
  for (const features of [25, 50, 100, 200]) {
    const draw = drawer(features);
    const routing: number[] = [];
    const checking: number[] = [];
    let operations = 0;
    let busy = 0;
    // The first are not counted: the compiler is still at work on them.
    for (let count = -20; count < 100; count += 1) {
      const part = partOf(features, draw, all);
      const before = process.cpuUsage();
      const start = performance.now();
      const route = routeFor(part, machines, 'high-speed-steel');
      const routed = performance.now();
      const used = process.cpuUsage(before);
      if (!route.ok) throw new Error(JSON.stringify(route.error));
      const warnings = checkRoute(part, machines, route.value);
      const checked = performance.now();
      if (warnings.length > 0) throw new Error(JSON.stringify(warnings[0]));
      operations = route.value.operations.length;
      if (count < 0) continue;
      // A shared machine stops a run for others; the processor's own time tells how much of the wait was work.
      busy += (used.user + used.system) / 1000;
      routing.push(routed - start);
      checking.push(checked - start);
    }
    const cells = [String(features).padStart(8), String(operations).padStart(10), median(routing).toFixed(2).padStart(15)];
    process.stdout.write(
      `${[
        ...cells,
        Math.max(...routing)
          .toFixed(2)
          .padStart(6),
        median(checking).toFixed(2).padStart(21),
        (busy / 100).toFixed(2).padStart(20),
      ].join('  ')}\n`,
    );
  }
}
