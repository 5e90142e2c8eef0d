/** How long a route takes to compute: 100 invented parts of 25, 50, 100 and 200 turned features, median and worst. */
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

const machines = [
  machineSchema.parse({
    id: 'lathe',
    name: 'Engine lathe (invented)',
    crossSlide: { division: '0.02mm', perTurn: '4mm', reads: 'radius' },
    carriage: { division: '0.1mm', perTurn: '18mm' },
    spindleSpeeds: [70, 105, 150, 220, 280, 340, 430, 560, 750, 1100],
  }),
];

/** A part that steps down from a collar on both sides, each step .1 to .3 mm less than the one before. */
function partOf(features: number, draw: (below: number) => number): Part {
  const side = (count: number, name: string): unknown[] => {
    let across = 120;
    return Array.from({ length: count }, (_, index) => {
      across -= 0.1 + draw(20) / 100;
      const limits = { low: `${across.toFixed(2)}mm`, high: `${(across + 0.02).toFixed(2)}mm` };
      const plain = { kind: 'journal', id: `${name}-${index}`, name: `Journal ${name} ${index}`, mate: null };
      return { ...plain, diameter: limits, length: { low: '2mm', high: `2.${draw(9) + 1}mm` } };
    });
  };
  const left = side(Math.floor((features - 1) / 2), 'left').reverse();
  const right = side(features - 1 - left.length, 'right');
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
    stock: { form: 'round', size: '125mm', length: '900mm', material: 'steel' },
    mates: [],
    turned: [...left, collar, ...right],
    ends: [],
    milled: [],
  });
}

const median = (times: readonly number[]): number => [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? 0;

process.stdout.write('features  operations  route ms median  worst  with checks ms median\n');
for (const features of [25, 50, 100, 200]) {
  const draw = drawer(features);
  const routing: number[] = [];
  const checking: number[] = [];
  let operations = 0;
  for (let count = 0; count < 100; count += 1) {
    const part = partOf(features, draw);
    const start = performance.now();
    const route = routeFor(part, machines, 'high-speed-steel');
    const routed = performance.now();
    if (!route.ok) throw new Error(JSON.stringify(route.error));
    const warnings = checkRoute(part, machines, route.value);
    const checked = performance.now();
    if (warnings.length > 0) throw new Error(JSON.stringify(warnings[0]));
    operations = route.value.operations.length;
    routing.push(routed - start);
    checking.push(checked - start);
  }
  const cells = [String(features).padStart(8), String(operations).padStart(10), median(routing).toFixed(2).padStart(15)];
  process.stdout.write(
    `${[
      ...cells,
      Math.max(...routing)
        .toFixed(2)
        .padStart(5),
      median(checking).toFixed(2).padStart(21),
    ].join('  ')}\n`,
  );
}
