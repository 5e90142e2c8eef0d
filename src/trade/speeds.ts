import { toInches, toMillimetres, type Diameter, type Length } from '../measure/index.ts';

/** A surface speed. Held in metres a minute; one foot is .3048 m exactly. */
export type SurfaceSpeed = { readonly metresPerMinute: number };

export const feetPerMinute = (value: number): SurfaceSpeed => ({ metresPerMinute: value * 0.3048 });
export const metresPerMinute = (value: number): SurfaceSpeed => ({ metresPerMinute: value });
export const toFeetPerMinute = ({ metresPerMinute: value }: SurfaceSpeed): number => value / 0.3048;

/** Turns a minute for a surface speed at a diameter: 1000·v/(π·D). */
export const rpmFor = (speed: SurfaceSpeed, diameter: Diameter): number =>
  (1000 * speed.metresPerMinute) / (Math.PI * toMillimetres(diameter));

/** The surface speed at a diameter. */
export const surfaceSpeed = (rpm: number, diameter: Diameter): SurfaceSpeed =>
  metresPerMinute((Math.PI * toMillimetres(diameter) * rpm) / 1000);

/** The rule of thumb of the shop: 4·CS/D, with feet a minute and inches; 5 % above the exact speed. */
export const rpmByFourTimes = (speed: SurfaceSpeed, diameter: Diameter): number =>
  (4 * toFeetPerMinute(speed)) / toInches(diameter);

/** Minutes to feed along a length: L/(f·N). */
export const minutesFor = (length: Length, feedPerTurn: Length, rpm: number): number => length / (feedPerTurn * rpm);

/**
 * The spindle speed to set: the highest of the machine's that does not go over the wanted one, or its slowest where all do.
 * Going slower only costs time; going faster costs the tool.
 */
export function speedToSet(wanted: number, spindleSpeeds: readonly number[]): number {
  const slowest = Math.min(...spindleSpeeds);
  return spindleSpeeds.filter((speed) => speed <= wanted).reduce((best, speed) => Math.max(best, speed), slowest);
}

/** Theoretical peak-to-valley height of a turned surface: Rz = f²/(8·r), in µm; the common approximation. */
export const theoreticalRzUm = (feedPerTurn: Length, noseRadius: Length): number =>
  (1000 * toMillimetres(feedPerTurn) ** 2) / (8 * toMillimetres(noseRadius));

/** The same by the exact circle: r − √(r² − f²/4), in µm; defined while the feed is under twice the nose radius. */
export function exactRzUm(feedPerTurn: Length, noseRadius: Length): number {
  const r = toMillimetres(noseRadius);
  return 1000 * (r - Math.sqrt(r ** 2 - toMillimetres(feedPerTurn) ** 2 / 4));
}

/** Theoretical mean roughness: Ra = f²/(18·√3·r), in µm. */
export const theoreticalRaUm = (feedPerTurn: Length, noseRadius: Length): number =>
  (1000 * toMillimetres(feedPerTurn) ** 2) / (18 * Math.sqrt(3) * toMillimetres(noseRadius));
