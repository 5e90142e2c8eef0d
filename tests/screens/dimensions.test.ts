import fc from 'fast-check';
import { expect, test } from 'vitest';
import { dimensionRow, leastRoom, type Dimension, type DimensionLabel } from '../../src/screens/drawing/dimensions.ts';
import { spread } from '../../src/screens/drawing/spread.ts';

/**
 * Features end to end, from a sliver to most of the part, with sizes of 2 to 14 signs, on a drawing from the least that holds
 * them to 980 units.
 */
const drawing = fc
  .tuple(
    fc.array(fc.tuple(fc.integer({ min: 1, max: 400 }), fc.string({ minLength: 2, maxLength: 14 })), {
      minLength: 3,
      maxLength: 20,
    }),
    fc.integer({ min: 0, max: 980 }),
    fc.boolean(),
  )
  .map(([features, wanted, inStretch]) => {
    const room = Math.max(wanted, leastRoom(features.length));
    const whole = features.reduce((sum, [long]) => sum + long, 0);
    let left = 0;
    const dimensions = features.map(([long, text], index): Dimension => {
      const from = (left / whole) * room;
      left += long;
      return { id: String(index), text, from, to: (left / whole) * room };
    });
    return { dimensions, room, inStretch };
  });

const overlap = (one: DimensionLabel, other: DimensionLabel): boolean =>
  one.x + 1e-9 < other.x + other.wide &&
  other.x + 1e-9 < one.x + one.wide &&
  one.y + 1e-9 < other.y + other.tall &&
  other.y + 1e-9 < one.y + one.tall;

test('at 3 to 20 features no size overlaps another, none leaves the drawing, no leader crosses another (seed 21)', () => {
  fc.assert(
    fc.property(drawing, ({ dimensions, room, inStretch }) => {
      const { labels, tall } = dimensionRow(dimensions, room, inStretch);
      expect(labels).toHaveLength(dimensions.length);
      labels.forEach((label, index) => {
        for (const other of labels.slice(index + 1)) {
          expect(overlap(label, other)).toBe(false);
          // Tips and texts in the same order: straight leaders between two lines then cannot cross.
          expect(label.x + label.wide / 2).toBeLessThan(other.x + other.wide / 2);
          expect(label.tip).toBeLessThan(other.tip);
        }
        expect(label.x).toBeGreaterThanOrEqual(-1e-9);
        expect(label.x + label.wide).toBeLessThanOrEqual(room + 1e-9);
        expect(label.y + label.tall).toBeLessThanOrEqual(tall + 1e-9);
      });
    }),
    { seed: 21, numRuns: 300 },
  );
});

test('a size that fits within its own stretch stands there, without a leader', () => {
  const { labels } = dimensionRow(
    [
      { id: 'a', text: '1.250', from: 0, to: 300 },
      { id: 'b', text: '.5', from: 300, to: 400 },
    ],
    400,
    true,
  );
  expect(labels.map(({ leader, tip, x, wide }) => [leader, tip === x + wide / 2])).toEqual([
    [false, true],
    [false, true],
  ]);
});

test('what has room stands where it wants to', () => {
  expect(
    spread(
      [
        { at: 20, wide: 10 },
        { at: 60, wide: 10 },
      ],
      100,
      5,
    ),
  ).toEqual([20, 60]);
  expect(
    spread(
      [
        { at: 2, wide: 10 },
        { at: 99, wide: 10 },
      ],
      100,
      5,
    ),
  ).toEqual([5, 95]);
});
