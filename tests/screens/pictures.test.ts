import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { folded, initialState, type JobEvent } from '../../src/job/index.ts';
import { inches, micrometres, nanometres, thou } from '../../src/measure/index.ts';
import { inchPlan, metricPlan } from '../../src/screens/gallery/plans.ts';
import { filletPath, undercutPath } from '../../src/screens/drawing/corners.ts';
import { historyLayout } from '../../src/screens/drawing/historyLayout.ts';
import { litSegments } from '../../src/screens/machine/level.ts';
import { profileLayout } from '../../src/screens/machine/profileLayout.ts';
import { stripLayout } from '../../src/screens/machine/stripLayout.ts';

const window = { low: inches(0.6265), high: inches(0.6275), aim: inches(0.627) };
const reading = (id: string, value: number) => ({ id, value: inches(value), within: thou(0.1) });

describe('the history of a size', () => {
  test('puts what came off and what was dialled on one scale, the longest filling it (seed 11)', () => {
    const amount = fc.integer({ min: -100_000, max: 5_000_000 });
    const row = fc.record({ off: amount, dialled: fc.option(amount) });
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 12 }), (rows) => {
        const bars = historyLayout(
          rows.map(({ off, dialled }, at) => ({
            id: String(at),
            off: nanometres(off),
            dialled: dialled === null ? null : nanometres(dialled),
          })),
        );
        const shares = bars.flatMap(({ off, dialled }) => [off, dialled ?? 0]);
        const anything = rows.some(({ off, dialled }) => off > 0 || (dialled ?? 0) > 0);
        return (
          shares.every((share) => share >= 0 && share <= 1) &&
          Math.max(...shares) === (anything ? 1 : 0) &&
          bars.every(({ off, dialled }, at) => {
            const said = rows[at]?.dialled ?? null;
            return (
              dialled === null ||
              said === null ||
              Math.sign(off - dialled) === Math.sign(Math.max(0, rows[at]?.off ?? 0) - Math.max(0, said))
            );
          })
        );
      }),
      { seed: 11, numRuns: 300 },
    );
  });
});

describe('the strip', () => {
  test('holds low, target and high in order, the target in the middle', () => {
    const { low, aim, high } = stripLayout(window, []);
    expect(low).toBeLessThan(aim);
    expect(aim).toBe(0.5);
    expect(high).toBeGreaterThan(aim);
  });

  test('spreads as the readings come closer', () => {
    const share = (value: number): number => {
      const { low, high } = stripLayout(window, [reading('a', value)]);
      return high - low;
    };
    expect(share(0.628)).toBeGreaterThan(share(0.63));
    expect(share(0.63)).toBeGreaterThan(share(0.64));
  });

  test('says on which side a reading lies that the strip cannot hold', () => {
    const { marks } = stripLayout(window, [reading('big', 0.75), reading('small', 0.5), reading('near', 0.6272)]);
    expect(marks.map(({ off }) => off)).toEqual(['right', 'left', null]);
  });

  test('draws a reading inside its limits between the lines of its limits, and none else (seed 7)', () => {
    const sizes = fc.array(fc.integer({ min: 15_000_000, max: 17_000_000 }), { minLength: 1, maxLength: 4 });
    fc.assert(
      fc.property(sizes, (values) => {
        const layout = stripLayout(
          window,
          values.map((value, index) => ({ id: String(index), value: nanometres(value), within: micrometres(3) })),
        );
        return layout.marks.every((mark, index) => {
          const value = values[index] ?? 0;
          const inside = value >= window.low && value <= window.high;
          const drawnInside = mark.off === null && mark.at >= layout.low - 1e-9 && mark.at <= layout.high + 1e-9;
          return inside === drawnInside && mark.from <= mark.at && mark.at <= mark.to;
        });
      }),
      { seed: 7, numRuns: 500 },
    );
  });

  test('holds the reading that is expected next on the scale of the others', () => {
    const { marks, next } = stripLayout(window, [reading('a', 0.6282)], reading('next', 0.6272));
    expect(next?.off).toBeNull();
    expect(next?.at).toBeLessThan(marks[0]?.at ?? 0);
    expect(stripLayout(window, [reading('a', 0.6282)]).next).toBeNull();
    // It does not move the scale: what was read stands where it stood.
    expect(marks).toEqual(stripLayout(window, [reading('a', 0.6282)]).marks);
  });
});

describe('corners', () => {
  const end = { x: 100, at: 'left', axis: 50, radius: 20 } as const;

  test('a fillet fills the corner from the face of the neighbour to the surface, on both sides of the axis', () => {
    expect(filletPath(end, 4)).toBe('M100,26 A4,4 0 0 0 104,30 L100,30 Z M100,74 A4,4 0 0 1 104,70 L100,70 Z');
    expect(filletPath({ ...end, at: 'right' }, 4)).toBe('M100,26 A4,4 0 0 1 96,30 L100,30 Z M100,74 A4,4 0 0 0 96,70 L100,70 Z');
  });

  test('an undercut goes below the surface, into the part', () => {
    expect(undercutPath(end, 6, 3)).toBe('M100,30 V33 H106 V30 M100,70 V67 H106 V70');
    expect(undercutPath({ ...end, at: 'right' }, 6, 3)).toBe('M100,30 V33 H94 V30 M100,70 V67 H94 V70');
  });

  test('of the corners of a part, the profile shows undercuts, and fillets where a larger neighbour stands', () => {
    const [first, second] = inchPlan.part.turned;
    if (first === undefined || second === undefined) throw new Error('the demo has two turned features');
    const edge = { name: 'corner', radius: inches(0.06) } as const;
    const edges = [
      { ...edge, id: 'in-corner', kind: 'fillet', on: first.id, at: 'right' },
      { ...edge, id: 'outside', kind: 'fillet', on: first.id, at: 'left' },
      { id: 'relief', name: 'relief', kind: 'undercut', on: first.id, at: 'right', width: inches(0.1), depth: inches(0.02) },
    ] as const;
    const plan = { ...inchPlan, part: { ...inchPlan.part, edges: [...edges] } };
    const { corners, segments } = profileLayout(initialState(plan));
    expect(corners.map(({ id }) => id)).toEqual(['in-corner', 'relief']);
    expect(corners.map(({ along }) => along)).toEqual([segments[1]?.left, segments[1]?.left]);
  });
});

describe('the part in profile', () => {
  test('has the features of the part end to end, each at the middle of its limits', () => {
    const layout = profileLayout(initialState(inchPlan));
    expect(layout.segments.map(({ id }) => id)).toEqual(['cam', 'collar', 'arm-journal', 'bearing-seat']);
    let left = 0;
    for (const segment of layout.segments) {
      expect(segment.left).toBe(left);
      left += segment.width;
    }
    expect(layout.length).toBe(left);
    // .874 to .875 across, .747 to .753 long, throw .125: the plan of the invented idler axle.
    expect(layout.segments[0]).toMatchObject({ radius: inches(0.8745) / 2, width: inches(0.75), off: inches(0.125) });
  });

  test('every feature of both demo parts lies within the stock', () => {
    for (const plan of [inchPlan, metricPlan]) {
      const layout = profileLayout(initialState(plan));
      expect(layout.length).toBeLessThanOrEqual(plan.part.stock.length);
      for (const segment of layout.segments)
        expect(segment.radius + segment.off, segment.id).toBeLessThanOrEqual(layout.stockRadius);
    }
  });

  test('follows the route: what the open step cuts, what is begun, what is done, and where the bar still stands', () => {
    const until = (id: string): JobEvent[] => {
      const operations = inchPlan.route.operations;
      const count = operations.findIndex((operation) => operation.id === id);
      return operations.slice(0, count).map((operation, index) => ({
        id: `e${index}`,
        seq: index + 1,
        at: 0,
        v: 1,
        body: { type: 'OperationFinished', operation: operation.id, standing: 'no-size' },
      }));
    };
    const at = (id: string): Record<string, string> =>
      Object.fromEntries(profileLayout(folded(inchPlan, until(id))).segments.map((segment) => [segment.id, segment.state]));
    expect(at('turn-collar')).toEqual({ cam: 'to-come', collar: 'now', 'arm-journal': 'to-come', 'bearing-seat': 'to-come' });
    expect(at('rough-bearing-seat')).toMatchObject({ collar: 'done', 'arm-journal': 'begun', 'bearing-seat': 'now' });
    expect(at('finish-bearing-seat')).toEqual({ cam: 'to-come', collar: 'done', 'arm-journal': 'done', 'bearing-seat': 'now' });
    expect(profileLayout(folded(inchPlan, until('dial-in-offset'))).uncut).toHaveLength(1);
    expect(profileLayout(folded(inchPlan, until('deburr'))).uncut).toEqual([]);
  });
});

test.each([
  [-120, 0],
  [-80, 0],
  [-40, 6],
  [0, 12],
  [9, 12],
])('a level of %d dB lights %d of twelve segments', (db, lit) => {
  expect(litSegments(db, 12)).toBe(lit);
});
