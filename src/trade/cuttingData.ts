import { inches, micrometres, thou, type Length } from '../measure/index.ts';
import { feetPerMinute, type SurfaceSpeed } from './speeds.ts';

export const MATERIALS = ['low-carbon-steel', 'alloy-steel', 'stainless-steel', 'grey-iron', 'brass', 'aluminium'] as const;
export type Material = (typeof MATERIALS)[number];

/**
 * What a cutting edge is of. `carbide` is an insert, coated as they usually are and with a honed edge; `brazed-carbide` is a tip
 * brazed to a shank, without a coating and ground sharp.
 */
export const TOOLS = ['high-speed-steel', 'brazed-carbide', 'carbide'] as const;
export type ToolMaterial = (typeof TOOLS)[number];

/** What the words for a tool mean it to be of. */
export const toolIn = (text: string): ToolMaterial =>
  /brazed/i.test(text) ? 'brazed-carbide' : /carbide/i.test(text) ? 'carbide' : 'high-speed-steel';

/** What is done, as far as speed and feed depend on it. */
export const CUTS = ['rough', 'finish', 'part', 'drill', 'ream', 'tap', 'thread', 'mill'] as const;
export type CutKind = (typeof CUTS)[number];

export type Range = { readonly least: number; readonly most: number };

/**
 * Surface speeds in feet a minute, for turning without much coolant. High-speed steel and inserts from a course sheet
 * (docs/sources.md); sources differ by a factor of two, so advice lies in a range and is never a point. Brazed tips run at about
 * two thirds of an insert: common practice, no source, but for stainless, where TM 43-0106 T2-8 gives plain carbide 150 to 200.
 */
export const SURFACE_SPEEDS_FPM: Readonly<Record<Material, Readonly<Record<ToolMaterial, Range>>>> = {
  'low-carbon-steel': {
    'high-speed-steel': { least: 80, most: 100 },
    'brazed-carbide': { least: 200, most: 325 },
    carbide: { least: 300, most: 500 },
  },
  'alloy-steel': {
    'high-speed-steel': { least: 60, most: 80 },
    'brazed-carbide': { least: 140, most: 240 },
    carbide: { least: 200, most: 350 },
  },
  'stainless-steel': {
    'high-speed-steel': { least: 40, most: 60 },
    'brazed-carbide': { least: 130, most: 200 },
    carbide: { least: 150, most: 250 },
  },
  'grey-iron': {
    'high-speed-steel': { least: 50, most: 80 },
    'brazed-carbide': { least: 160, most: 270 },
    carbide: { least: 250, most: 400 },
  },
  brass: {
    'high-speed-steel': { least: 150, most: 250 },
    'brazed-carbide': { least: 330, most: 530 },
    carbide: { least: 500, most: 800 },
  },
  aluminium: {
    'high-speed-steel': { least: 200, most: 300 },
    'brazed-carbide': { least: 500, most: 1000 },
    carbide: { least: 800, most: 1500 },
  },
};

/** Feeds in inches a turn, rough and finish by tool, and parting (the same sheet; brazed tips: common practice, no source). */
const FEEDS_IPR: Readonly<Record<'rough' | 'finish', Readonly<Record<ToolMaterial, Range>>>> = {
  rough: {
    'high-speed-steel': { least: 0.005, most: 0.015 },
    'brazed-carbide': { least: 0.006, most: 0.016 },
    carbide: { least: 0.008, most: 0.02 },
  },
  finish: {
    'high-speed-steel': { least: 0.002, most: 0.005 },
    'brazed-carbide': { least: 0.002, most: 0.006 },
    carbide: { least: 0.003, most: 0.008 },
  },
};
const PARTING_IPR: Range = { least: 0.002, most: 0.005 };

export type FeedRange = { readonly least: Length; readonly most: Length };

/** The feeds for a cut, or null where the feed is not chosen (a thread's is its pitch; a drill is fed by feel). */
export function feedRange(kind: CutKind, tool: ToolMaterial): FeedRange | null {
  const as = ({ least, most }: Range): FeedRange => ({ least: inches(least), most: inches(most) });
  switch (kind) {
    case 'rough':
    case 'finish':
      return as(FEEDS_IPR[kind][tool]);
    case 'part':
      return as(PARTING_IPR);
    case 'drill':
    case 'ream':
    case 'tap':
    case 'thread':
    case 'mill':
      return null;
  }
}

/**
 * The deepest rough cut on the radius in thousandths of an inch, for a manual lathe of usual size: what chips, forces and the
 * nerves of the operator allow, by material and tool. Common practice, no source.
 */
const ROUGH_DEPTH_THOU: Readonly<Record<Material, Readonly<Record<ToolMaterial, number>>>> = {
  'low-carbon-steel': { 'high-speed-steel': 40, 'brazed-carbide': 50, carbide: 60 },
  'alloy-steel': { 'high-speed-steel': 30, 'brazed-carbide': 40, carbide: 50 },
  'stainless-steel': { 'high-speed-steel': 30, 'brazed-carbide': 35, carbide: 40 },
  'grey-iron': { 'high-speed-steel': 50, 'brazed-carbide': 60, carbide: 60 },
  brass: { 'high-speed-steel': 60, 'brazed-carbide': 70, carbide: 80 },
  aluminium: { 'high-speed-steel': 60, 'brazed-carbide': 80, carbide: 100 },
};

/** The deepest rough cut of the table, on the radius. */
export const deepestRough = (material: Material, tool: ToolMaterial): Length => thou(ROUGH_DEPTH_THOU[material][tool]);

/**
 * Noses of the finishing tools, for the roughness that a feed leaves, and how round their cutting edges are: a cut that is much
 * thinner than its edge rubs. Common practice, no source.
 */
export const NOSES: Readonly<Record<ToolMaterial, Length>> = {
  'high-speed-steel': inches(1 / 32),
  'brazed-carbide': inches(1 / 32),
  carbide: inches(1 / 64),
};
export const EDGES: Readonly<Record<ToolMaterial, Length>> = {
  'high-speed-steel': micrometres(10),
  'brazed-carbide': micrometres(20),
  carbide: micrometres(35),
};

/** Something that makes a cut go slower than the table: a share of the speed, and why. */
export const REDUCTIONS = {
  eccentric: { share: 0.5, why: 'the work is off centre and its force grows with the square of the speed' },
  interrupted: { share: 0.7, why: 'the cut is interrupted' },
  long: { share: 0.7, why: 'the work is long for its diameter' },
  thin: { share: 0.7, why: 'the wall is thin and rings' },
  bore: { share: 0.7, why: 'boring: the bar is slender' },
  part: { share: 0.5, why: 'parting' },
  tap: { share: 0.25, why: 'tapping' },
  thread: { share: 0.3, why: 'threading: the hand must keep up' },
  drill: { share: 0.8, why: 'drilling: the chips carry less heat away' },
  ream: { share: 0.5, why: 'reaming' },
} as const satisfies Readonly<Record<string, { readonly share: number; readonly why: string }>>;
export type Reduction = keyof typeof REDUCTIONS;

/** The speed to aim at, with every reason that went into it, for the person to judge. */
export type SpeedAdvice = { readonly speed: SurfaceSpeed; readonly why: readonly string[] };

/**
 * The surface speed for a cut: the middle of the table's range, times every reduction that applies. The reductions are common
 * practice, no source.
 */
export function advisedSpeed(material: Material, tool: ToolMaterial, reductions: readonly Reduction[]): SpeedAdvice {
  const { least, most } = SURFACE_SPEEDS_FPM[material][tool];
  const why = [`${material} with ${tool}: ${least} to ${most} feet a minute`];
  let feet = (least + most) / 2;
  for (const reduction of reductions) {
    const { share, why: because } = REDUCTIONS[reduction];
    feet *= share;
    why.push(`${Math.round(share * 100)} % of it: ${because}`);
  }
  return { speed: feetPerMinute(feet), why };
}

/** Words by which a stock's material is known, the more particular first. */
const WORDS: readonly (readonly [RegExp, Material])[] = [
  [/stainless|\b30[34]\b|\b316\b|\b1\.4\d{3}\b/i, 'stainless-steel'],
  [/alloy|\b41[34]0\b|\b4340\b|42CrMo4/i, 'alloy-steel'],
  [/cast iron|grey iron|gray iron/i, 'grey-iron'],
  [/brass|bronze/i, 'brass'],
  [/alumin|\b6061\b|\b6082\b/i, 'aluminium'],
  [/steel|\b10[12]\d\b|12L14|S235|S355|C15|C45/i, 'low-carbon-steel'],
];

/** The material that a line of text means, or null where it names none of the table's. */
export const materialIn = (text: string): Material | null => WORDS.find(([words]) => words.test(text))?.[1] ?? null;
