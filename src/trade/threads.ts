import {
  asDiameter,
  fail,
  inches,
  millimetres,
  minus,
  NM_PER_INCH,
  nanometres,
  ok,
  roundReal,
  scaled,
  toInches,
  toMillimetres,
  type Diameter,
  type Length,
  type Result,
} from '../measure/index.ts';
import type { Material } from './cuttingData.ts';

/** A 60 degree thread, unified or metric: its largest diameter and its pitch. */
export type Thread = {
  readonly form: 'unified' | 'metric';
  readonly designation: string;
  readonly major: Diameter;
  readonly pitch: Length;
};

export type ThreadFault =
  { readonly key: 'not-a-thread'; readonly text: string } | { readonly key: 'pitch-not-known'; readonly text: string };

/**
 * Coarse pitches of ISO 261 in mm by diameter, for a designation without a pitch (`M8`), as ISO 898-1 lists them; M2 and M2.5
 * follow from their limits in ISO 965.
 */
const COARSE_MM: ReadonlyMap<number, number> = new Map([
  [2, 0.4],
  [2.5, 0.45],
  [3, 0.5],
  [3.5, 0.6],
  [4, 0.7],
  [5, 0.8],
  [6, 1],
  [7, 1],
  [8, 1.25],
  [10, 1.5],
  [12, 1.75],
  [14, 2],
  [16, 2],
  [18, 2.5],
  [20, 2.5],
  [22, 2.5],
  [24, 3],
  [27, 3],
  [30, 3.5],
  [33, 3.5],
  [36, 4],
  [39, 4],
]);

const METRIC = /^M(\d+(?:\.\d+)?)(?:\s*[x×]\s*(\d+(?:\.\d+)?))?$/i;
const UNIFIED = /^(?:#?(\d{1,2})|(?:(\d+)[- ])?(\d+)\/(\d+)|(\d+))-(\d{1,3})(?:\s*UN[CFEJS]*)?$/i;

/** Numbered machine screws: .060 in and .013 for each number (ASME B1.1). */
const numberedMajor = (number: number): Length => inches(0.06 + 0.013 * number);

/**
 * Reads `1/4-20`, `10-32 UNF`, `1-8`, `1 1/4-7`, `M8x1.25`, `M8`. A whole number before the dash is an inch size up to 4 where
 * its pitch is coarser than any numbered screw's (under 12 to the inch), else a screw number.
 */
export function parseThread(text: string): Result<Thread, ThreadFault> {
  const trimmed = text.trim();
  const metric = METRIC.exec(trimmed);
  if (metric !== null) {
    const size = Number(metric[1]);
    const pitch = metric[2] === undefined ? COARSE_MM.get(size) : Number(metric[2]);
    if (pitch === undefined || size <= 0 || pitch <= 0) return fail({ key: 'pitch-not-known', text });
    return ok({
      form: 'metric',
      designation: `M${size}x${pitch}`,
      major: asDiameter(millimetres(size)),
      pitch: millimetres(pitch),
    });
  }
  const unified = UNIFIED.exec(trimmed);
  if (unified === null) return fail({ key: 'not-a-thread', text });
  const perInch = Number(unified[6]);
  if (perInch === 0) return fail({ key: 'not-a-thread', text });
  const pitch = nanometres(roundReal(NM_PER_INCH / perInch, 'half-even'));
  const thread = (major: Length, size: string): Result<Thread, ThreadFault> =>
    ok({ form: 'unified', designation: `${size}-${perInch}`, major: asDiameter(major), pitch });
  if (unified[3] !== undefined) {
    const under = Number(unified[4]);
    if (under === 0) return fail({ key: 'not-a-thread', text });
    const whole = Number(unified[2] ?? 0);
    const size = `${unified[2] === undefined ? '' : `${whole} `}${unified[3]}/${under}`;
    return thread(inches(whole + Number(unified[3]) / under), size);
  }
  const number = Number(unified[1] ?? unified[5]);
  if (number >= 1 && number <= 4 && perInch < 12) return thread(inches(number), String(number));
  return number <= 12 ? thread(numberedMajor(number), `#${number}`) : fail({ key: 'not-a-thread', text });
}

const ROOT_3 = Math.sqrt(3);

/** Height of the sharp triangle: H = (√3/2)·P (ISO 68-1, ASME B1.1). */
export const sharpHeight = ({ pitch }: Thread): Length => scaled(pitch, ROOT_3 / 2, 'half-even');
/** Pitch diameter: d − (3/4)·H = d − 0.649519·P. */
export const pitchDiameter = ({ major, pitch }: Thread): Diameter =>
  asDiameter(minus(major, scaled(pitch, (3 * ROOT_3) / 8, 'half-even')));
/** Minor diameter of the internal thread: d − (5/4)·H = d − 1.082532·P. */
export const internalMinor = ({ major, pitch }: Thread): Diameter =>
  asDiameter(minus(major, scaled(pitch, (5 * ROOT_3) / 8, 'half-even')));
/** Root diameter as Machinery's Handbook prints it for tap drills: d − 1.299038·P (a full sharp-to-flat thread of 3/2·H). */
export const fullThreadRoot = ({ major, pitch }: Thread): Diameter =>
  asDiameter(minus(major, scaled(pitch, (3 * ROOT_3) / 4, 'half-even')));
/** How deep a single-point tool goes on the radius for an external thread: 0.613435·P (17/24·H, ISO 68-1). */
export const externalDepth = ({ pitch }: Thread): Length => scaled(pitch, (17 * ROOT_3) / 48, 'half-even');

/**
 * The drilled hole for a percentage of full thread: d − (%/100)·1.299038·P. This is the usual shop definition, in which the
 * 100 % thread is 3/4·H deep on the side; the other in use divides by 1.0825·P and gives higher numbers.
 */
export function tapHole(thread: Thread, percent: number): Diameter {
  return asDiameter(minus(thread.major, scaled(thread.pitch, ((3 * ROOT_3) / 4) * (percent / 100), 'half-even')));
}

/** The percentage of full thread that a drilled hole leaves, by the same definition. */
export function threadPercent(thread: Thread, hole: Length): number {
  return (100 * (thread.major - hole)) / (((3 * ROOT_3) / 4) * thread.pitch);
}

/** How many turns a tap or screw makes to go in so deep; a real number. */
export const turnsFor = ({ pitch }: Thread, depth: Length): number => depth / pitch;

/**
 * Tensile stress area in mm² (ISO 898-1): π/4 of the square of the mean of pitch and root diameter, d − (13/24)·√3·P, that is
 * d − 0.9382·P. Inch threads by ASME B1.1: π/4·(d − 0.9743/n)².
 */
export function stressAreaMm2({ form, major, pitch }: Thread): number {
  const factor = form === 'metric' ? (13 * ROOT_3) / 24 : 0.9743;
  return (Math.PI / 4) * (toMillimetres(major) - factor * toMillimetres(pitch)) ** 2;
}

/** The same in square inches, for inch threads. */
export const stressAreaSquareInches = ({ major, pitch }: Thread): number =>
  (Math.PI / 4) * (toInches(major) - 0.9743 * toInches(pitch)) ** 2;

/**
 * Depths of the infeed on the radius, pass by pass, for equal chip area: depth·√(k/n), then spring passes at full depth.
 * Common practice. Rounded to the nanometre half to even; the last is the full depth.
 */
export function infeeds(depth: Length, passes: number, springPasses: number): readonly Length[] {
  const cutting = Array.from({ length: passes }, (_, index) => scaled(depth, Math.sqrt((index + 1) / passes), 'half-even'));
  return [...cutting, ...Array.from({ length: springPasses }, () => depth)];
}

/** The lead of a tap in pitches: the middles of 8 to 10, 3 to 5 and 1 to 2 (usual tap charts). */
export const TAP_LEADS = { taper: 9, plug: 4, bottoming: 1.5 } as const;

/** How deep a blind hole is drilled for a thread of full depth: the tap's lead and one pitch of room besides. */
export function blindHoleDepth({ pitch }: Thread, threadDepth: Length, tap: keyof typeof TAP_LEADS): Length {
  return nanometres(threadDepth + scaled(pitch, TAP_LEADS[tap] + 1, 'ceiling'));
}

/**
 * How long a thread must be engaged at least, in diameters, by what it is cut in: one in steel, one and a half in aluminium
 * (second); the others like the one that they are nearer to: common practice, no source.
 */
const ENGAGED: Readonly<Record<Material, number>> = {
  'low-carbon-steel': 1,
  'alloy-steel': 1,
  'stainless-steel': 1,
  'grey-iron': 1.5,
  brass: 1.5,
  aluminium: 1.5,
};

/** How many diameters of a thread are engaged over a depth, and how many it wants in a material. Real numbers. */
export const engagementInDiameters = (
  { major }: Thread,
  depth: Length,
  material: Material,
): { readonly has: number; readonly wants: number } => ({ has: depth / major, wants: ENGAGED[material] });
