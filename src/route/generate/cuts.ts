import {
  asDiameter,
  dividedBy,
  formatAmount,
  formatInch,
  formatMillimetre,
  formatSize,
  inches,
  larger,
  millimetres,
  minus,
  nanometres,
  plus,
  roundedTo,
  roundReal,
  scaled,
  sixtyFourths,
  smaller,
  times,
  toMillimetres,
  zero,
  type DisplayUnit,
  type Length,
} from '../../measure/index.ts';
import type { Machine } from '../../part/index.ts';
import {
  advisedSpeed,
  cuttingForceN,
  deepestRough,
  DRILLS,
  feedRange,
  FLUIDS,
  NOSES,
  rpmFor,
  speedToSet,
  spindlePowerKw,
  surfaceSpeed,
  theoreticalRaUm,
  type Material,
  type Reduction,
  type ToolMaterial,
} from '../../trade/index.ts';
import type { Cut } from '../operation.ts';
import { ALLOWANCES } from './allowances.ts';

/** What speeds and feeds are chosen for. */
export type Cutting = {
  readonly machine: Machine;
  readonly material: Material;
  readonly tool: ToolMaterial;
  readonly unit: DisplayUnit;
};

type Feeds = Readonly<Record<'rough' | 'finish' | 'part', Readonly<Record<ToolMaterial, Length>>>>;

/** The feeds aimed at, by the unit of the part and the tool: inside the ranges of `trade/cuttingData`. */
const FEED: Readonly<Record<DisplayUnit, Feeds>> = {
  inch: {
    rough: { 'high-speed-steel': inches(0.008), 'brazed-carbide': inches(0.009), carbide: inches(0.01) },
    finish: { 'high-speed-steel': inches(0.003), 'brazed-carbide': inches(0.004), carbide: inches(0.005) },
    part: { 'high-speed-steel': inches(0.003), 'brazed-carbide': inches(0.003), carbide: inches(0.003) },
  },
  millimetre: {
    rough: { 'high-speed-steel': millimetres(0.2), 'brazed-carbide': millimetres(0.23), carbide: millimetres(0.25) },
    finish: { 'high-speed-steel': millimetres(0.08), 'brazed-carbide': millimetres(0.1), carbide: millimetres(0.12) },
    part: { 'high-speed-steel': millimetres(0.08), 'brazed-carbide': millimetres(0.08), carbide: millimetres(0.08) },
  },
};
/** What of a motor's power arrives at the tool: common practice, no source. */
const EFFICIENCY = 0.75;

/** What the tables of `trade` give in inches, as a metric shop has and says it: noses and depths of whole tenths. */
const inTenths = (length: Length, unit: DisplayUnit): Length =>
  unit === 'inch' ? length : roundedTo(length, millimetres(0.1), 'half-even');
const noseOf = ({ tool, unit }: Cutting): Length => inTenths(NOSES[tool], unit);

export const TOOL_NAMES: Readonly<Record<ToolMaterial, string>> = {
  'high-speed-steel': 'high-speed steel',
  'brazed-carbide': 'brazed carbide',
  carbide: 'inserted carbide',
};

/** One division of the cross-slide dial as the tool moves, on the radius. */
export const radialDivision = ({ crossSlide }: Machine): Length =>
  crossSlide.reads === 'radius' ? crossSlide.division : larger(dividedBy(crossSlide.division, 2, 'floor'), nanometres(1));

/**
 * A depth on the radius that a hand can set: of a metric part the nearest whole divisions of the cross slide, whose dial may be
 * of either unit. Of an inch part it is whole thousandths as it stands.
 */
export const onTheDial = ({ machine, unit }: Cutting, depth: Length): Length =>
  unit === 'inch' ? depth : larger(roundedTo(depth, radialDivision(machine), 'half-even'), radialDivision(machine));

/** A speed of the machine so little over the wanted one is it: the table is a range. */
const NEAR = 1.02;

/** The spindle speed of the machine for a cut at a diameter. */
export function rpmAt({ machine, material, tool }: Cutting, across: Length, reductions: readonly Reduction[]): number {
  const { speed } = advisedSpeed(material, tool, reductions);
  return Math.max(1, roundReal(speedToSet(rpmFor(speed, asDiameter(across)) * NEAR, machine.spindleSpeeds), 'half-even'));
}

/** The feed that leaves a roughness at most: f = √(Ra·18√3·r), in millimetres down to the hundredth below it. */
function feedForRa(raUm: number, nose: Length, unit: DisplayUnit): Length {
  const most = nanometres(Math.floor(Math.sqrt((raUm / 1000) * 18 * Math.sqrt(3) * toMillimetres(nose)) * 1_000_000));
  const hundredth = millimetres(0.01);
  return unit === 'inch' || most < hundredth ? most : roundedTo(most, hundredth, 'floor');
}

/** Why a finishing feed is what it is, where a roughness is asked for: what its nose leaves, against what is wanted. */
export function roughnessWhy(cutting: Cutting, feed: Length, roughness: number): string {
  const { unit } = cutting;
  const nose = noseOf(cutting);
  return `Feed ${formatAmount(feed, unit)}: leaves Ra ${theoreticalRaUm(feed, nose).toFixed(1)} µm by its nose of ${formatAmount(nose, unit)}; Ra ${String(roughness)} is wanted.`;
}

/** The usual roughness of milling, Ra in µm, by tables of surface roughness by process (docs/sources.md). */
export const MILLED_RA_UM = { finest: 0.8, coarsest: 6.3 } as const;

/**
 * The fastest that a cutter may be fed along a wall, per turn, for a roughness: as a round nose of its own radius. One tooth is
 * always a little longer than the others, so that a turn counts and not a tooth. No faster than a chip of .1 mm a tooth of two.
 */
export const milledFeed = (raUm: number, cutter: Length, unit: DisplayUnit): Length =>
  smaller(feedForRa(raUm, dividedBy(cutter, 2, 'floor'), unit), millimetres(0.2));

/**
 * The feed aimed at; where the machine has its own, the nearest of those within the range, else the nearest of all. A roughness
 * that is asked for holds it down.
 */
export function feedFor(cutting: Cutting, kind: 'rough' | 'finish' | 'part', roughness: number | null = null): Length {
  const { machine, tool, unit } = cutting;
  const range = feedRange(kind, tool);
  const usual = FEED[unit][kind][tool];
  const aim = roughness === null ? usual : smaller(usual, feedForRa(roughness, noseOf(cutting), unit));
  const nearest = (feeds: readonly Length[]): Length | null =>
    feeds.reduce<Length | null>(
      (best, feed) => (best === null || Math.abs(feed - aim) < Math.abs(best - aim) ? feed : best),
      null,
    );
  const allowed = roughness === null ? machine.feeds : machine.feeds.filter((feed) => feed <= aim);
  const within = allowed.filter((feed) => range !== null && feed >= range.least && feed <= range.most);
  return nearest(within) ?? nearest(allowed) ?? (machine.feeds.length > 0 ? machine.feeds.reduce(smaller) : aim);
}

/** The deepest pass on the radius that the tool and the motor take, in whole divisions of the cross-slide dial. */
export function deepestPass(
  cutting: Cutting,
  across: Length,
  rpm: number,
): { readonly depth: Length; readonly by: 'tool' | 'power' } {
  const most = inTenths(deepestRough(cutting.material, cutting.tool), cutting.unit);
  const { powerKw } = cutting.machine;
  const division = radialDivision(cutting.machine);
  const whole = (depth: Length): Length => larger(roundedTo(depth, division, 'floor'), division);
  if (powerKw === null) return { depth: whole(most), by: 'tool' };
  // The force grows in proportion to the depth, so one division tells what all of them need.
  const needed = spindlePowerKw(
    cuttingForceN(cutting.material, most, feedFor(cutting, 'rough')),
    surfaceSpeed(rpm, asDiameter(across)),
  );
  const share = (powerKw * EFFICIENCY) / needed;
  return share >= 1
    ? { depth: whole(most), by: 'tool' }
    : { depth: whole(larger(scaled(most, share, 'floor'), ALLOWANCES[cutting.unit].leastPass)), by: 'power' };
}

/** What goes on the cut, to begin a sentence with. */
export const fluid = ({ material }: Cutting): string => FLUIDS[material].cut;

/** How many passes a radial depth takes; one at least. */
const passesFor = (radial: Length, deepest: Length): number => Math.max(1, Math.ceil(radial / deepest));

const WORDS = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'];
const counted = (count: number, what: string): string => `${WORDS[count] ?? String(count)} ${what}${count === 1 ? '' : 'es'}`;
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const bareCut = (tool: string, speedRpm: number): Cut => ({
  tool,
  speedRpm,
  feedPerTurn: null,
  depthOnRadius: null,
  last: null,
  spring: false,
  note: null,
});

/** A cut, with why its numbers are what they are and how many passes it takes. */
export type Chosen = { readonly cut: Cut; readonly why: readonly string[]; readonly passes: number };

/** From so many passes on it is worth putting the spindle faster on the way down. */
const MANY_PASSES = 6;

/** The diameter below which a faster speed of the machine will do, where a cut goes so far down; null where it does not. */
function fasterAt(cutting: Cutting, to: Length, rpm: number, reductions: readonly Reduction[]): string | null {
  const { speed } = advisedSpeed(cutting.material, cutting.tool, reductions);
  const next = cutting.machine.spindleSpeeds
    .filter((each) => each > rpm)
    .reduce((least, each) => Math.min(least, each), Infinity);
  if (!Number.isFinite(next)) return null;
  const step = cutting.unit === 'inch' ? sixtyFourths(4) : millimetres(1);
  const below = roundedTo(scaled(millimetres(1), (1000 * speed.metresPerMinute) / (Math.PI * next), 'floor'), step, 'floor');
  return below > to ? `Once it is under ${formatSize(below, cutting.unit)}, ${next} rpm.` : null;
}

/** A rough cut from one diameter to another, in passes of whole divisions; the last takes what is left. */
export function roughCut(
  cutting: Cutting,
  from: Length,
  to: Length,
  reductions: readonly Reduction[],
  most: number | null = null,
): Chosen {
  const radial = dividedBy(larger(minus(from, to), zero), 2, 'ceiling');
  const free = rpmAt(cutting, from, reductions);
  const rpm = most === null ? free : Math.min(free, most);
  const { depth: deepest, by } = deepestPass(cutting, from, rpm);
  const passes = passesFor(radial, deepest);
  const depth = smaller(
    roundedTo(larger(dividedBy(radial, passes, 'ceiling'), nanometres(1)), radialDivision(cutting.machine), 'ceiling'),
    deepest,
  );
  const really = passesFor(radial, depth);
  const why = [speedWhy(cutting, from, reductions, rpm)];
  const faster = really < MANY_PASSES || most !== null ? null : fasterAt(cutting, to, rpm, reductions);
  if (faster !== null) why.push(faster);
  if (by === 'power')
    why.push(
      `No pass over ${formatAmount(deepest, cutting.unit)}: the motor's ${String(cutting.machine.powerKw)} kW takes no more at this speed and feed.`,
    );
  return {
    cut: {
      ...bareCut(`turning tool, ${TOOL_NAMES[cutting.tool]}`, rpm),
      feedPerTurn: feedFor(cutting, 'rough'),
      depthOnRadius: depth,
      note: `${capital(counted(really, 'pass'))}.`,
    },
    why,
    passes: really,
  };
}

/** A finishing cut: what roughing left, in two equal passes, so that the last cut behaves like the one before. */
export function finishCut(
  cutting: Cutting,
  from: Length,
  to: Length,
  reductions: readonly Reduction[],
  roughness: number | null,
  most: number | null = null,
): Chosen {
  const radial = dividedBy(minus(from, to), 2, 'ceiling');
  const half = dividedBy(radial, 2, 'ceiling');
  const free = rpmAt(cutting, from, reductions);
  const rpm = most === null ? free : Math.min(free, most);
  const feed = feedFor(cutting, 'finish', roughness);
  const why = [speedWhy(cutting, from, reductions, rpm)];
  if (roughness !== null) why.push(roughnessWhy(cutting, feed, roughness));
  return {
    cut: {
      ...bareCut(`finishing tool, ${TOOL_NAMES[cutting.tool]}`, rpm),
      feedPerTurn: feed,
      depthOnRadius: half,
      last: half,
      note: 'Measure before the last: it takes what is left. At the shoulder draw the tool out along it.',
    },
    why,
    passes: 2,
  };
}

/** Rough and finish in one operation, where the window is wide: rough passes, then two equal last ones of `over` together. */
export function plainCut(cutting: Cutting, from: Length, to: Length, over: Length, reductions: readonly Reduction[]): Chosen {
  const rough = roughCut(cutting, from, plus(to, over), reductions);
  const last = dividedBy(over, 4, 'ceiling');
  return {
    ...rough,
    passes: rough.passes + 2,
    cut: { ...rough.cut, last, note: `Measure at ${formatAmount(times(last, 4), cutting.unit)} over, before the last two.` },
  };
}

export function facingCut(cutting: Cutting, across: Length, reductions: readonly Reduction[]): Cut {
  return {
    ...bareCut(`facing tool, ${TOOL_NAMES[cutting.tool]}`, rpmAt(cutting, across, reductions)),
    feedPerTurn: feedFor(cutting, 'finish'),
  };
}

export function partingCut(cutting: Cutting, across: Length): Cut {
  return {
    ...bareCut(`parting tool, ${TOOL_NAMES[cutting.tool]}`, rpmAt(cutting, across, ['part'])),
    feedPerTurn: feedFor(cutting, 'part'),
    note: `${fluid(cutting)}, steady hand feed.`,
  };
}

/** A plunge with a grooving tool of a width. */
export function groovingCut(
  cutting: Cutting,
  across: Length,
  width: Length,
  reductions: readonly Reduction[],
  round: boolean,
): Cut {
  return {
    ...bareCut(
      `${round ? 'round-nose ' : ''}grooving tool, ${formatAmount(width, cutting.unit)} wide, ${TOOL_NAMES[cutting.tool]}`,
      rpmAt(cutting, across, ['part', ...reductions]),
    ),
    feedPerTurn: feedFor(cutting, 'part'),
    note: `${fluid(cutting)}, steady hand feed, and dwell a turn at the bottom.`,
  };
}

/** A drill as it is asked for: by number, letter or fraction where it is one of those and the shop works in inches. */
export function calledDrill(across: Length, unit: DisplayUnit): string {
  const size = unit === 'inch' ? formatInch(across, 4) : formatMillimetre(across, 3);
  const named = unit === 'inch' ? DRILLS.find(({ series, diameter }) => series !== 'metric' && diameter === across) : undefined;
  return named === undefined ? size : `${named.name} (${size})`;
}

/** A hole is drilled with a high-speed steel drill whatever turns the outside. Brass grabs a drill that is ground to bite. */
export function drillingCut(cutting: Cutting, across: Length): Cut {
  return {
    ...bareCut(
      `drill, ${calledDrill(across, cutting.unit)}${cutting.unit === 'inch' ? '' : ' mm'}, high-speed steel`,
      rpmAt({ ...cutting, tool: 'high-speed-steel' }, across, ['drill']),
    ),
    note: `Clear the chips often. ${fluid(cutting)}.${cutting.material === 'brass' ? ' Lips dubbed flat: brass grabs the drill and pulls it in.' : ''}`,
  };
}

export function millingCut(cutting: Cutting, cutter: Length, tool: 'end mill' | 'drill'): Cut {
  const kind = tool === 'drill' ? 'drill' : 'end mill';
  return {
    ...bareCut(
      `${kind}, ${tool === 'drill' && cutting.unit === 'inch' ? calledDrill(cutter, cutting.unit) : formatAmount(cutter, cutting.unit)}${tool === 'drill' ? '' : ', centre cutting'}, high-speed steel`,
      rpmAt({ ...cutting, tool: 'high-speed-steel' }, cutter, tool === 'drill' ? ['drill'] : []),
    ),
    note:
      tool === 'drill'
        ? 'Spot it first; clear the chips often.'
        : `No deeper than ${formatAmount(larger(roundedTo(dividedBy(cutter, 4, 'floor'), cutting.machine.crossSlide.division, 'floor'), cutting.machine.crossSlide.division), cutting.unit)} at a time, fed against the cutter's turn; clear the chips.`,
  };
}

/** Whole minutes at the machine for so many passes along a length, with five for setting and measuring. */
export function minutesOf(cut: Cut, length: Length, passes: number): number {
  if (cut.feedPerTurn === null) return 5;
  return 5 + Math.ceil((toMillimetres(length) * passes) / (toMillimetres(cut.feedPerTurn) * cut.speedRpm));
}

const REASONS: Readonly<Record<Reduction, string>> = {
  eccentric: 'half of it for work off centre',
  interrupted: 'less for the interrupted cut',
  long: 'less for long thin work',
  thin: 'less for the thin wall',
  bore: 'less for the boring bar',
  part: 'half of it for plunging',
  tap: 'a quarter for tapping',
  thread: 'less for threading, the hand must keep up',
  drill: 'a little less for drilling',
  ream: 'half of it for reaming',
};

/** Why a spindle speed: the surface speed of the table, what holds it down, and what the machine has. */
export function speedWhy(
  { material, tool, unit }: Cutting,
  across: Length,
  reductions: readonly Reduction[],
  rpm: number,
): string {
  const { speed } = advisedSpeed(material, tool, reductions);
  const metres = speed.metresPerMinute;
  const surface = unit === 'inch' ? `${Math.round(metres / 0.3048)} feet a minute` : `${Math.round(metres)} m a minute`;
  const held = reductions.map((reduction) => REASONS[reduction]);
  const wanted = Math.round(rpmFor(speed, asDiameter(across)));
  const has =
    wanted <= rpm && rpm <= wanted * NEAR
      ? `${rpm} rpm`
      : wanted > rpm
        ? `${wanted} rpm; ${rpm} is the next below`
        : `${wanted} rpm; ${rpm} is the slowest there is`;
  return `Speed: about ${surface} for ${material.replaceAll('-', ' ')} and ${TOOL_NAMES[tool]}${held.length === 0 ? '' : `, ${held.join(', ')}`}: ${has}.`;
}
