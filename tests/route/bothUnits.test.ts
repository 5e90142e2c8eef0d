import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import type { DisplayUnit, Length } from '../../src/measure/index.ts';
import { machineSchema, PART_VERSION, partFileSchema, readPartFile, type Machine, type Part } from '../../src/part/index.ts';
import { ALLOWANCES, routeFor, routeSchema, type Operation, type Route } from '../../src/route/index.ts';
import { layoutOf } from '../../src/route/generate/layout.ts';
import { comesOffBar } from '../../src/route/generate/stockLength.ts';
import type { ToolMaterial } from '../../src/trade/index.ts';
import { asInvented, drawnPart, type Drawn } from './anyPart.ts';
import { inventedPart, machinesOf } from './invented.ts';

// A part may be written in inches or in millimetres: its route has the same steps, and says what it leaves as each shop would.

const UNITS = ['inch', 'millimetre'] as const;
const tool = ({ rest }: Drawn): ToolMaterial => rest.tool ?? 'high-speed-steel';

/** The text of a part file with every length written in one unit, exactly. */
function fileIn(part: Part, machines: readonly Machine[], unit: DisplayUnit): string {
  const file = z.encode(partFileSchema, {
    format: 'swarfside-part',
    version: PART_VERSION,
    invented: true,
    part: { ...part, unit },
    machines: [...machines],
  });
  return JSON.stringify(file, (_, value: unknown) => {
    const written = typeof value === 'string' ? /^-?[\d.]+(mm|in)$/.exec(value) : null;
    if (written === null || typeof value !== 'string') return value;
    const length = Math.round(Number.parseFloat(value) * (written[1] === 'in' ? 25_400_000 : 1_000_000));
    if (unit === 'millimetre') return `${(length / 1_000_000).toFixed(6)}mm`;
    // An inch has a finite decimal for multiples of 127 nm only; what the machine is built to stays in its own unit.
    return length % 127 === 0 ? `${((length / 127) * 5) / 1_000_000}in` : value;
  });
}

type Allowance = keyof (typeof ALLOWANCES)['inch'];

/** How far the allowances of the two units are from each other, added up. */
const apart = (...keys: readonly Allowance[]): number =>
  keys.reduce((sum, key) => sum + Math.abs(ALLOWANCES.inch[key] - ALLOWANCES.millimetre[key]), 0);

/** What the sizes of a step are made from beside those of the part, so how far they may differ; nothing for other steps. */
const SIZES: Partial<Readonly<Record<Operation['kind'], number>>> = {
  rough: apart('file', 'roughSpread'),
  finish: apart('file', 'fileSpread'),
  file: apart('file'),
  length: apart('secondEnd', 'clean', 'endToLength'),
  groove: apart('undercutOff'),
  drill: apart('drilledOff'),
  mill: apart('milledOff'),
  'dial-in': apart('trueWithin'),
  'measure-mate': apart('mateOff'),
};

/** The same of a carriage stop; a rough one is shortened to a whole division as well. */
const STOPS = Math.max(apart('overlap'), apart('jawRoom')) + apart('endToLength', 'secondEnd', 'clean', 'shoulderToLength');
const ROUGH_STOPS = STOPS + apart('shoulder');

/** What a step is, without any size. */
const what = ({ id, setup, kind, feature, instrument, caution, angle, target, stop, cut }: Operation): unknown => ({
  id,
  setup,
  kind,
  feature,
  instrument,
  caution,
  angle,
  target: target === null ? null : [target.quantity, target.datum, target.fit?.mate, target.fit?.name],
  stop: stop?.from,
  cut: cut === null ? null : [cut.feedPerTurn === null, cut.depthOnRadius === null, cut.last === null],
});

const sizesOf = ({ target }: Operation): readonly (Length | null)[] =>
  target === null ? [] : [target.low, target.aim, target.high, target.from ?? null];

/** The steps that a route has and the other has not. */
const beyond = (one: Route, other: Route): readonly Operation[] =>
  one.operations.filter(({ id }) => !other.operations.some((each) => each.id === id));

describe('a part in either unit', () => {
  test('takes the same steps in the same order, their sizes no further apart than what is left on purpose (seed 4403)', () => {
    let compared = 0;
    let roughs = 0;
    fc.assert(
      fc.property(drawnPart('inch'), (one) => {
        const invented = asInvented(one);
        const part = inventedPart(invented);
        const machines = machinesOf(invented);
        const [lathe] = machines;
        const read = UNITS.map((unit) => {
          const file = readPartFile(fileIn(part, machines, unit));
          if (!file.ok) throw new Error(file.error.says);
          expect(file.value.part).toEqual({ ...part, unit });
          return file.value;
        });
        // A bar that is long enough to part off by the one and not by the other is a blank there.
        const layout = layoutOf(part);
        const offBar = read.map((file) => lathe !== undefined && layout !== null && comesOffBar(file.part, lathe, layout));
        fc.pre(offBar[0] === offBar[1]);
        const [inch, metric] = read.map((file) => routeFor(file.part, file.machines, tool(one)));
        expect(inch?.ok).toBe(metric?.ok);
        if (inch?.ok !== true || metric?.ok !== true) {
          expect(inch?.ok === false && inch.error.map(({ key }) => key)).toEqual(
            metric?.ok === false && metric.error.map(({ key }) => key),
          );
          return;
        }
        compared += 1;
        expect(routeSchema.parse(z.encode(routeSchema, metric.value))).toEqual(metric.value);
        // Now and then what stands over a size is worth a rough cut in the one and just not in the other.
        const extra = [...beyond(inch.value, metric.value), ...beyond(metric.value, inch.value)];
        expect(extra.every(({ kind }) => kind === 'rough')).toBe(true);
        roughs += extra.length;
        if (extra.length > 0) return;
        expect(metric.value.operations.map(what)).toEqual(inch.value.operations.map(what));
        const division = lathe?.carriage?.division ?? 0;
        inch.value.operations.forEach((operation, index) => {
          const other = metric.value.operations[index];
          if (other === undefined) throw new Error('a step is missing');
          const bound = SIZES[operation.kind] ?? 0;
          const sizes = sizesOf(other);
          sizesOf(operation).forEach((size, at) => {
            expect(sizes[at] === null).toBe(size === null);
            expect(Math.abs(Number(size) - Number(sizes[at]))).toBeLessThanOrEqual(bound);
          });
          const stops = operation.kind === 'rough' ? ROUGH_STOPS + division : STOPS;
          expect(Math.abs(Number(operation.stop?.distance ?? 0) - Number(other.stop?.distance ?? 0))).toBeLessThanOrEqual(stops);
          const [feed, metricFeed] = [operation.cut?.feedPerTurn ?? 1, other.cut?.feedPerTurn ?? 1];
          expect(Math.abs(feed - metricFeed) / feed).toBeLessThan(0.06);
        });
      }),
      { seed: 4403, numRuns: 150 },
    );
    expect(compared).toBeGreaterThan(60);
    expect(roughs / compared).toBeLessThan(0.02);
  }, 60_000);

  test('in millimetres on metric dials names no size and no feed that a metric rule does not have (seed 4408)', () => {
    const metric = { division: '0.1mm', perTurn: '18mm' };
    const dial = { division: '0.02mm', perTurn: '4mm', reads: 'diameter' as const };
    let steps = 0;
    fc.assert(
      fc.property(drawnPart('millimetre'), (one) => {
        // Over the corners of a hexagon or a square no length is round.
        const rest: Drawn['rest'] = {
          ...one.rest,
          form: 'round',
          lathe: { ...one.rest.lathe, crossSlide: dial, carriage: metric },
        };
        const invented = asInvented({ ...one, rest });
        const [lathe, mill] = machinesOf(invented);
        if (lathe === undefined || mill === undefined) throw new Error('two machines');
        const onMill = { ...z.encode(machineSchema, mill), crossSlide: { ...dial, reads: 'radius' as const }, carriage: metric };
        const machines = [lathe, machineSchema.parse(onMill)];
        const route = routeFor(inventedPart(invented), machines, tool(one));
        if (!route.ok) return;
        for (const operation of route.value.operations) {
          steps += 1;
          // The sizes of the part lie on hundredths: with what is left, so do those of its route, or half way between.
          const named = [...sizesOf(operation), operation.stop?.distance ?? null].filter((size) => size !== null);
          expect({ id: operation.id, off: named.filter((size) => size % 5_000 !== 0) }).toEqual({ id: operation.id, off: [] });
          const feed = operation.cut?.feedPerTurn ?? 0;
          if (operation.kind !== 'thread')
            expect({ id: operation.id, feed: feed % 10_000 }).toEqual({ id: operation.id, feed: 0 });
        }
      }),
      { seed: 4408, numRuns: 150 },
    );
    expect(steps).toBeGreaterThan(1000);
  }, 60_000);

  test('is left amounts that a metric shop says, each about the inch one', () => {
    for (const [key, amount] of Object.entries(ALLOWANCES.millimetre)) {
      const ratio = amount / ALLOWANCES.inch[key as Allowance];
      expect({ key, round: amount % 5_000 === 0, near: ratio > 0.75 && ratio < 1.6 }).toEqual({ key, round: true, near: true });
    }
  });
});
