import { assert, degrees, nanometres, roundReal, toRadians, type Angle, type Length } from '../measure/index.ts';

/** Where a diameter lies off the axis: how far, and at which angle its high spot is. */
export type Eccentricity = {
  readonly offset: Length;
  readonly highSpot: Angle;
  readonly mean: Length;
  readonly residual: Length;
};

/** One indicator reading at an angle of the spindle. */
export type SpindleReading = { readonly at: Angle; readonly value: Length };

/**
 * The offset of a round part from readings round the spindle, by least squares on y = c + a·cosθ + b·sinθ: offset √(a² + b²),
 * high spot atan2(b, a) in 0 up to 360°. `residual` is the standard deviation of what is left, with n − 3 degrees of freedom
 * (nothing for three readings): lobes and dirt, which a mere high less low would take for offset. Null for fewer than three
 * readings or angles that do not determine it.
 */
export function eccentricityOf(readings: readonly SpindleReading[]): Eccentricity | null {
  if (readings.length < 3) return null;
  const rows = readings.map(({ at, value }) => [1, Math.cos(toRadians(at)), Math.sin(toRadians(at)), value] as const);
  // Normal equations of three unknowns, solved by elimination with pivoting; the sums are well scaled because cos and sin are.
  const sum = (i: 0 | 1 | 2, j: 0 | 1 | 2 | 3): number => rows.reduce((total, row) => total + row[i] * row[j], 0);
  const solution = solve3([
    [sum(0, 0), sum(0, 1), sum(0, 2), sum(0, 3)],
    [sum(1, 0), sum(1, 1), sum(1, 2), sum(1, 3)],
    [sum(2, 0), sum(2, 1), sum(2, 2), sum(2, 3)],
  ]);
  if (solution === null) return null;
  const [c, a, b] = solution;
  const squares = rows.reduce((total, [, cos, sin, value]) => total + (value - c - a * cos - b * sin) ** 2, 0);
  const freedom = rows.length - 3;
  const turned = (Math.atan2(b, a) * 180) / Math.PI;
  return {
    offset: nanometres(roundReal(Math.hypot(a, b), 'half-even')),
    highSpot: degrees(turned < 0 ? turned + 360 : turned, 'half-even'),
    mean: nanometres(roundReal(c, 'half-even')),
    residual: nanometres(roundReal(freedom === 0 ? 0 : Math.sqrt(squares / freedom), 'half-even')),
  };
}

type Row = readonly [number, number, number, number];

/** Solves three linear equations; null where they do not determine the unknowns (a pivot under 1e-9 of the largest entry). */
export function solve3(rows: readonly [Row, Row, Row]): readonly [number, number, number] | null {
  const work = rows.map((row) => [...row]);
  const scale = Math.max(...work.flatMap((row) => row.slice(0, 3).map(Math.abs)));
  for (let column = 0; column < 3; column += 1) {
    let pivot = column;
    for (let row = column + 1; row < 3; row += 1)
      if (Math.abs(cell(work, row, column)) > Math.abs(cell(work, pivot, column))) pivot = row;
    if (!(Math.abs(cell(work, pivot, column)) > 1e-9 * scale)) return null;
    const chosen = work[pivot] ?? [];
    work[pivot] = work[column] ?? [];
    work[column] = chosen;
    for (let row = 0; row < 3; row += 1) {
      if (row === column) continue;
      const factor = cell(work, row, column) / cell(work, column, column);
      work[row] = (work[row] ?? []).map((value, index) => value - factor * (chosen[index] ?? 0));
    }
  }
  return [cell(work, 0, 3) / cell(work, 0, 0), cell(work, 1, 3) / cell(work, 1, 1), cell(work, 2, 3) / cell(work, 2, 2)];
}

function cell(rows: readonly (readonly number[])[], row: number, column: number): number {
  const value = rows[row]?.[column];
  assert(value !== undefined, 'the equations are three by four');
  return value;
}

/** True travel of a lever indicator whose lever stands at an angle to the travel: reading × cosθ. Rounded half to even. */
export const leverTrue = (reading: Length, angle: Angle): Length =>
  nanometres(roundReal(reading * Math.cos(toRadians(angle)), 'half-even'));
