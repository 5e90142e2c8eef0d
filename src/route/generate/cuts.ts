import {
  asDiameter,
  dividedBy,
  formatAmount,
  inches,
  minus,
  plus,
  roundReal,
  thou,
  toMillimetres,
  type DisplayUnit,
  type Length,
} from '../../measure/index.ts';
import type { Machine } from '../../part/index.ts';
import {
  advisedSpeed,
  feedRange,
  rpmFor,
  speedToSet,
  type Material,
  type Reduction,
  type ToolMaterial,
} from '../../trade/index.ts';
import type { Cut } from '../operation.ts';

/** What speeds and feeds are chosen for. */
export type Cutting = {
  readonly machine: Machine;
  readonly material: Material;
  readonly tool: ToolMaterial;
  readonly unit: DisplayUnit;
};

/** The deepest rough cut on the radius and the feeds aimed at, by tool: inside the ranges of `trade/cuttingData`. */
const ROUGH_DEPTH: Readonly<Record<ToolMaterial, Length>> = { 'high-speed-steel': thou(40), carbide: thou(60) };
const FEED: Readonly<Record<'rough' | 'finish' | 'part', Readonly<Record<ToolMaterial, Length>>>> = {
  rough: { 'high-speed-steel': inches(0.008), carbide: inches(0.01) },
  finish: { 'high-speed-steel': inches(0.003), carbide: inches(0.005) },
  part: { 'high-speed-steel': inches(0.003), carbide: inches(0.003) },
};

const TOOL_NAMES: Readonly<Record<ToolMaterial, string>> = { 'high-speed-steel': 'high-speed steel', carbide: 'carbide' };

/** The spindle speed of the machine for a cut at a diameter. */
export function rpmAt({ machine, material, tool }: Cutting, across: Length, reductions: readonly Reduction[]): number {
  const { speed } = advisedSpeed(material, tool, reductions);
  return roundReal(speedToSet(rpmFor(speed, asDiameter(across)), machine.spindleSpeeds), 'half-even');
}

/** The feed aimed at, or the nearest that the machine has within the range; its own where none lies in it. */
function feedFor({ machine, tool }: Cutting, kind: 'rough' | 'finish' | 'part'): Length {
  const aim = FEED[kind][tool];
  const range = feedRange(kind, tool);
  const within = machine.feeds.filter((feed) => range !== null && feed >= range.least && feed <= range.most);
  return (
    within.reduce<Length | null>(
      (best, feed) => (best === null || Math.abs(feed - aim) < Math.abs(best - aim) ? feed : best),
      null,
    ) ?? aim
  );
}

/** How many passes a radial depth takes at the deepest rough cut; one at least. */
export const roughPasses = (radial: Length, tool: ToolMaterial): number => Math.max(1, Math.ceil(radial / ROUGH_DEPTH[tool]));

const WORDS = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'];
const counted = (count: number, what: string): string => `${WORDS[count] ?? String(count)} ${what}${count === 1 ? '' : 'es'}`;
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A rough cut from one diameter to another, in equal passes. */
export function roughCut(cutting: Cutting, from: Length, to: Length, reductions: readonly Reduction[]): Cut {
  const radial = dividedBy(minus(from, to), 2, 'ceiling');
  const passes = roughPasses(radial, cutting.tool);
  return {
    tool: `turning tool, ${TOOL_NAMES[cutting.tool]}`,
    speedRpm: rpmAt(cutting, from, reductions),
    feedPerTurn: feedFor(cutting, 'rough'),
    depthOnRadius: dividedBy(radial, passes, 'ceiling'),
    note: `${capital(counted(passes, passes === 1 ? 'pass' : 'equal pass'))}.`,
  };
}

/** A finishing cut: what roughing left, in two equal passes, so that the last cut behaves like the one before. */
export function finishCut(cutting: Cutting, from: Length, to: Length, reductions: readonly Reduction[]): Cut {
  const radial = dividedBy(minus(from, to), 2, 'ceiling');
  const half = dividedBy(radial, 2, 'ceiling');
  return {
    tool: `finishing tool, ${TOOL_NAMES[cutting.tool]}`,
    speedRpm: rpmAt(cutting, from, reductions),
    feedPerTurn: feedFor(cutting, 'finish'),
    depthOnRadius: half,
    note: `Two equal passes of ${formatAmount(half, cutting.unit)} on the radius, then draw the tool out along the shoulder.`,
  };
}

/** Rough and finish in one operation, where the window is wide: rough passes, then two equal last ones. */
export function plainCut(cutting: Cutting, from: Length, to: Length, last: Length): Cut {
  const rough = roughCut(cutting, from, plus(to, last), []);
  return { ...rough, note: `Rough to ${formatAmount(last, cutting.unit)} over, then two equal last passes.` };
}

export function facingCut(cutting: Cutting, across: Length, reductions: readonly Reduction[]): Cut {
  return {
    tool: `facing tool, ${TOOL_NAMES[cutting.tool]}`,
    speedRpm: rpmAt(cutting, across, reductions),
    feedPerTurn: feedFor(cutting, 'finish'),
    depthOnRadius: null,
    note: null,
  };
}

export function partingCut(cutting: Cutting, across: Length): Cut {
  return {
    tool: `parting tool, ${TOOL_NAMES[cutting.tool]}`,
    speedRpm: rpmAt(cutting, across, ['part']),
    feedPerTurn: feedFor(cutting, 'part'),
    depthOnRadius: null,
    note: 'Cutting oil, steady hand feed.',
  };
}

/** A hole is drilled with a high-speed steel drill whatever turns the outside. */
export function drillingCut(cutting: Cutting, across: Length): Cut {
  return {
    tool: `drill, ${formatAmount(across, cutting.unit)}, high-speed steel`,
    speedRpm: rpmAt({ ...cutting, tool: 'high-speed-steel' }, across, ['drill']),
    feedPerTurn: null,
    depthOnRadius: null,
    note: 'Clear the chips often, cutting oil.',
  };
}

export function millingCut(cutting: Cutting, cutter: Length): Cut {
  return {
    tool: `end mill, ${formatAmount(cutter, cutting.unit)}, centre cutting, high-speed steel`,
    speedRpm: rpmAt({ ...cutting, tool: 'high-speed-steel' }, cutter, []),
    feedPerTurn: null,
    depthOnRadius: null,
    note: 'Little at a time, and clear the chips.',
  };
}

/** Whole minutes at the machine for so many passes along a length, with five for setting and measuring. */
export function minutesOf(cut: Cut, length: Length, passes: number): number {
  if (cut.feedPerTurn === null) return 5;
  return 5 + Math.ceil((toMillimetres(length) * passes) / (toMillimetres(cut.feedPerTurn) * cut.speedRpm));
}
