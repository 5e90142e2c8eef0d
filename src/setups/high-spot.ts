import { nanometres, roundReal, toRadians, type Angle, type Length, type Radius } from '../measure/index.ts';
import { combined, fromLimits, solve3, studentT95 } from '../trade/index.ts';

/** What the indicator showed with the work turned on by so many degrees from where the readings began. */
export type SpotReading = { readonly degrees: number; readonly indicator: Length };

/**
 * What the readings hang on. `radius` is that of the off-centre surface (null: not known, taken for large); `readingError` is
 * how far off the indicator may be read, either way, form of the surface included; `angleError` the same of the angle, in
 * degrees.
 */
export type SpotConditions = { readonly radius: Radius | null; readonly readingError: Length; readonly angleError: number };

/**
 * Where the high spot is: turned on by `degrees` (0 up to 360) the work has it under the indicator, give or take
 * `uncertaintyDegrees`; the throw likewise; both at 95 %. `odd` is the reading that does not go with the others and was left out;
 * `disagree` says that they do not go together and none of them can be blamed.
 */
export type HighSpot = {
  readonly degrees: number;
  readonly uncertaintyDegrees: number;
  readonly offset: Length;
  readonly offsetUncertainty: Length;
  readonly odd: SpotReading | null;
  readonly disagree: boolean;
};

type Fit = {
  readonly level: number;
  readonly a: number;
  readonly b: number;
  /** Sum of squares of what is left, each over its own uncertainty. */
  readonly chi: number;
  /** Standard uncertainties of the angle in radians and of the offset in nm, from what the readings may be off. */
  readonly uAngle: number;
  readonly uOffset: number;
};

const rad = (value: number): number => (value * Math.PI) / 180;

/**
 * Indicator against a circle of radius r turned about an axis e away: e·cosψ + √(r² − e²·sin²ψ) − r, with its slope
 * by ψ.
 */
function shape(
  e: number,
  psi: number,
  r: number | null,
): { readonly value: number; readonly byAngle: number; readonly byOffset: number } {
  const [cos, sin] = [Math.cos(psi), Math.sin(psi)];
  if (r === null || r <= e) return { value: e * cos, byAngle: -e * sin, byOffset: cos };
  const root = Math.sqrt(r * r - e * e * sin * sin);
  return { value: e * cos + root - r, byAngle: -e * sin - (e * e * sin * cos) / root, byOffset: cos - (e * sin * sin) / root };
}

/** Three equations for one right-hand side after another. */
type Triple = readonly [number, number, number];
function solved(matrix: readonly [Triple, Triple, Triple], right: Triple): Triple | null {
  const row = (index: 0 | 1 | 2): readonly [number, number, number, number] => [...matrix[index], right[index]];
  return solve3([row(0), row(1), row(2)]);
}

/**
 * Weighted least squares of level, e·cosφ and e·sinφ on the exact shape (Gauss–Newton from the plain sine; six rounds are
 * plenty). Each reading weighs by its own uncertainty: of the indicator, and of the angle times the slope there.
 */
function fit(readings: readonly SpotReading[], { radius, readingError, angleError }: SpotConditions): Fit | null {
  const uReading = Math.max(1, fromLimits(readingError));
  const uAngle = rad(fromLimits(angleError));
  let [level, a, b] = [0, 0, 0];
  for (let round = 0; round < 7; round += 1) {
    const e = Math.hypot(a, b);
    const phi = Math.atan2(b, a);
    const rows = readings.map(({ degrees: at, indicator }) => {
      const theta = rad(at);
      // The first round has no offset yet: the plain sine, all readings alike.
      if (round === 0) return { d: [1, Math.cos(theta), Math.sin(theta)] as const, left: indicator - level, weight: 1 };
      const { value, byAngle, byOffset } = shape(e, theta - phi, radius);
      const [cos, sin] = [Math.cos(phi), Math.sin(phi)];
      // By chain: e and φ from a and b; the angle between reading and high spot falls as φ grows.
      const byPhi = -byAngle / e;
      const d = [1, byOffset * cos - byPhi * sin, byOffset * sin + byPhi * cos] as const;
      return { d, left: indicator - level - value, weight: 1 / combined([uReading, byAngle * uAngle]) ** 2 };
    });
    const sum = (of: (row: (typeof rows)[number]) => number): number =>
      rows.reduce((total, row) => total + row.weight * of(row), 0);
    const normal = ([0, 1, 2] as const).map((i) => ([0, 1, 2] as const).map((j) => sum(({ d }) => d[i] * d[j]))) as unknown as [
      Triple,
      Triple,
      Triple,
    ];
    if (round === 6) {
      const byA = solved(normal, [0, 1, 0]);
      const byB = solved(normal, [0, 0, 1]);
      // Less than a nanometre is no throw, and has no high spot.
      if (byA === null || byB === null || e < 1) return null;
      const [ca, sa] = [a / e, b / e];
      const vOffset = ca * ca * byA[1] + 2 * ca * sa * byA[2] + sa * sa * byB[2];
      const vAngle = (sa * sa * byA[1] - 2 * ca * sa * byA[2] + ca * ca * byB[2]) / (e * e);
      return { level, a, b, chi: sum(({ left }) => left * left), uAngle: Math.sqrt(vAngle), uOffset: Math.sqrt(vOffset) };
    }
    const step = solved(normal, [
      sum(({ d, left }) => d[0] * left),
      sum(({ d, left }) => d[1] * left),
      sum(({ d, left }) => d[2] * left),
    ]);
    if (step === null) return null;
    level += step[0];
    a += step[1];
    b += step[2];
    if (Math.hypot(a, b) < 1) return null;
  }
  return null;
}

/** Readings that go together leave about their own uncertainty; more than this many times is too much (three sigma). */
const TOO_MUCH = 3;
const spread = (one: Fit, freedom: number): number => (freedom > 0 ? Math.sqrt(one.chi / freedom) : 0);

/** The reading without which the others go together, where exactly one is to blame; it takes five or more to name it. */
function oddOne(
  readings: readonly SpotReading[],
  conditions: SpotConditions,
): { readonly without: readonly SpotReading[]; readonly odd: SpotReading } | null {
  if (readings.length < 5) return null;
  const tries = readings.flatMap((odd, index) => {
    const without = readings.filter((_, other) => other !== index);
    const one = fit(without, conditions);
    return one === null ? [] : [{ odd, without, spread: spread(one, without.length - 3) }];
  });
  const [best, next] = tries.sort((one, other) => one.spread - other.spread);
  if (best === undefined || best.spread > TOO_MUCH) return null;
  return next !== undefined && next.spread <= TOO_MUCH ? null : best;
}

/**
 * The high spot from three readings or more at known angles that are not all alike; null where they do not tell one. The
 * uncertainty is what the conditions allow, or what the readings show where that is more (GUM 4.2, 4.3, 5.1).
 */
export function highSpotOf(readings: readonly SpotReading[], conditions: SpotConditions): HighSpot | null {
  if (readings.length < 3) return null;
  const all = fit(readings, conditions);
  if (all === null) return null;
  const together = spread(all, readings.length - 3) <= TOO_MUCH;
  const named = together ? null : oddOne(readings, conditions);
  const used = named?.without ?? readings;
  const one = named === null ? all : fit(used, conditions);
  if (one === null) return null;
  const freedom = used.length - 3;
  const shown = spread(one, freedom);
  const factor = Math.max(2, freedom > 0 && shown > 1 ? shown * Math.min(studentT95(freedom), 4) : 0);
  const turned = (Math.atan2(one.b, one.a) * 180) / Math.PI;
  return {
    degrees: turned < 0 ? turned + 360 : turned,
    uncertaintyDegrees: Math.min(180, (factor * one.uAngle * 180) / Math.PI),
    offset: nanometres(roundReal(Math.hypot(one.a, one.b), 'half-even')),
    offsetUncertainty: nanometres(roundReal(factor * one.uOffset, 'ceiling')),
    odd: named?.odd ?? null,
    disagree: !together && named === null,
  };
}

/** How far to turn on from one angle to another, the short way: over −180 up to 180 degrees, minus is back. */
export function turnFrom(at: number, to: number): number {
  const on = (((to - at) % 360) + 360) % 360;
  return on > 180 ? on - 360 : on;
}

/** How far a feature is off its line on a surface for an angle that is off: r·sin δ. */
export const offLine = (radius: Radius, offBy: Angle): Length =>
  nanometres(roundReal(Math.abs(radius * Math.sin(toRadians(offBy))), 'half-even'));
