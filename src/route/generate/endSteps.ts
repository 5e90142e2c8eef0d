import {
  asDiameter,
  degrees,
  dividedBy,
  formatAmount,
  larger,
  midway,
  millimetres,
  minus,
  NM_PER_SIXTY_FOURTH,
  plus,
  roundedTo,
  scaled,
  sixtyFourths,
  thou,
  times,
  zero,
  type Length,
} from '../../measure/index.ts';
import type { EndFeature } from '../../part/index.ts';
import {
  blindHoleDepth,
  engagementInDiameters,
  FLUIDS,
  nearestDrill,
  parseThread,
  pointLength,
  threadPercent,
  turnsFor,
  type Material,
  type Reduction,
  type Thread,
} from '../../trade/index.ts';
import type { Target } from '../operation.ts';
import { ALLOWANCES, BOUNDS, LIMITS } from './allowances.ts';
import { calledDrill, drillingCut, feedFor, onTheDial, roughnessWhy, rpmAt, speedWhy, TOOL_NAMES } from './cuts.ts';
import { holeFit, inHole, inHoleSize } from './fitOf.ts';
import { squeezeNote } from './jawGrip.ts';
import { isThinRound, wallRound, widthOfHole, type Hole } from './holes.ts';
import { bare, inSentence, target, type Step, type Work } from './draft.ts';

export const depthTarget = ({ part }: Work, depth: Length, spread: Length): Target =>
  target(
    'depth',
    { low: larger(minus(depth, spread), ALLOWANCES[part.unit].leastStop), aim: depth, high: plus(depth, spread) },
    zero,
    null,
  );

/** Over so much a hole is drilled with a smaller drill first: half an inch. */
const PILOTED = thou(500);

/**
 * A drill of about a third, out of the box that the hole's own drill comes from: by sixty-fourths, or by tenths of a
 * millimetre.
 */
function pilotOf(drill: Length): Length {
  const third = dividedBy(drill, 3, 'ceiling');
  const box = drill % NM_PER_SIXTY_FOURTH === 0 ? 'fraction' : 'metric';
  return nearestDrill(third, [box])?.diameter ?? third;
}

/** The usual point of a jobber drill. */
const POINT = degrees(118, 'half-even');

/** How wide a boring bar goes into a drilled hole: two thirds of it, with room for the chips. Common practice, no source. */
export const boringBar = (drill: Length): Length => scaled(drill, 2 / 3, 'floor');

function drillSteps(work: Work, hole: Hole, supported: boolean): Step[] {
  const { part, lathe } = work;
  const { drilledOff } = ALLOWANCES[part.unit];
  const size = (length: Length): string => bare(length, part.unit);
  const named = (drill: Length): string => calledDrill(drill, part.unit);
  const name = inSentence(hole);
  const cut = drillingCut(lathe, hole.drill);
  const pecked = hole.drillDepth > times(hole.drill, LIMITS.drillPeck);
  const point = pointLength(asDiameter(hole.drill), POINT);
  const total = part.turned.reduce<Length>((sum, { length }) => plus(sum, midway(length.low, length.high, 'half-even')), zero);
  const past = minus(plus(hole.drillDepth, point), total);
  const through =
    past > 0
      ? ` On the finished part it comes through the other end, open ${size(scaled(hole.drill, past / point, 'ceiling'))} across.`
      : '';
  const to = hole.kind === 'tapped-hole' ? ` for ${hole.designation}` : hole.kind === 'bored-hole' ? ` to bore the ${name}` : '';
  const thread = hole.kind === 'tapped-hole' ? parseThread(hole.designation) : null;
  const percent =
    thread?.ok === true ? [`The drill leaves ${Math.round(threadPercent(thread.value, hole.drill))} % of full thread.`] : [];
  const pilot = pilotOf(hole.drill);
  const first = drillingCut(lathe, pilot);
  const piloted = hole.drill > PILOTED;
  const before = [
    supported ? 'Tailstock centre out, drill chuck in; the tailstock clamped.' : 'Drill chuck in the tailstock, lined up.',
    'Started with a centre drill where there is no centre.',
  ];
  const pilotSteps: Step[] = !piloted
    ? []
    : [
        {
          id: `pilot-${hole.id}`,
          kind: 'drill',
          title: `Drill ${named(pilot)} first for the ${name}, ${size(hole.drillDepth)} deep`,
          say: `Pilot drill for the ${name}`,
          feature: hole.id,
          target: depthTarget(work, hole.drillDepth, drilledOff),
          instrument: 'caliper',
          cut: first,
          caution: 'drilling',
          before,
          why: [
            speedWhy({ ...lathe, tool: 'high-speed-steel' }, pilot, ['drill'], first.speedRpm),
            `A drill of ${size(hole.drill)} wants most of its push at its web; a smaller hole takes that away.`,
          ],
          minutes: 5,
        },
      ];
  return [
    ...pilotSteps,
    {
      id: `drill-${hole.id}`,
      kind: 'drill',
      title: `Drill ${named(hole.drill)}${to}, ${size(hole.drillDepth)} deep`,
      say: `Drill for the ${name}`,
      feature: hole.id,
      target: depthTarget(work, hole.drillDepth, drilledOff),
      instrument: 'caliper',
      cut,
      caution: 'drilling',
      note: `To the full diameter; the point reaches ${formatAmount(point, part.unit)} further.${through}${pecked ? ' Out every diameter or so to clear the chips.' : ''}`,
      before: piloted ? ['The pilot drill out, its hole clear of chips.'] : before,
      why: [speedWhy({ ...lathe, tool: 'high-speed-steel' }, hole.drill, ['drill'], cut.speedRpm), ...percent],
      minutes: 5,
    },
  ];
}

function boreStep(work: Work, hole: Extract<Hole, { kind: 'bored-hole' }>): Step {
  const { part, lathe } = work;
  const { low, high } = hole.diameter;
  const aim = midway(low, high, 'half-even');
  const depth = midway(hole.depth.low, hole.depth.high, 'half-even');
  const name = inSentence(hole);
  const bar = boringBar(hole.drill);
  // Bars are asked for by round sizes: a thirty-second, or half a millimetre.
  const sold = larger(roundedTo(bar, part.unit === 'inch' ? sixtyFourths(2) : millimetres(0.5), 'floor'), thou(1));
  const { boringPass, lastBored } = ALLOWANCES[part.unit];
  const [pass, last] = [onTheDial(lathe, boringPass), onTheDial(lathe, lastBored)];
  const wall = wallRound(part, hole);
  const thin = isThinRound(widthOfHole(hole), wall);
  const slower: readonly Reduction[] = thin ? ['bore', 'thin'] : ['bore'];
  const rpm = rpmAt(lathe, aim, slower);
  const feed = feedFor(lathe, 'finish', hole.roughness);
  return {
    id: `bore-${hole.id}`,
    kind: 'bore',
    title: `Bore the ${name} to ${bare(aim, part.unit)}, ${bare(depth, part.unit)} deep`,
    say: `Bore the ${name}`,
    feature: hole.id,
    target: target('hole', { low, aim, high }, hole.drill, holeFit(work, hole)),
    instrument: minus(high, low) <= BOUNDS.fine ? 'telescoping-gauge' : 'caliper',
    cut: {
      tool: `boring bar, ${bare(sold, part.unit)} thick at most, ${TOOL_NAMES[lathe.tool]}`,
      speedRpm: rpm,
      feedPerTurn: feed,
      depthOnRadius: pass,
      last,
      spring: true,
      note: `Measure at ${formatAmount(times(last, 4), part.unit)} under, before the last two.`,
    },
    stop: { from: 'finished end', distance: depth },
    note: `It grows: measure before each pass, and feed the tool toward you. Its depth: not under ${bare(hole.depth.low, part.unit)}, not over ${bare(hole.depth.high, part.unit)}.${
      thin
        ? ` The wall left is only ${bare(wall, part.unit)}: it gives before the tool and rings. Tool sharp, passes light. ${squeezeNote(lathe, hole, wall, pass, feed)}`
        : ''
    }`,
    before: ['Bar as short as the hole lets it be, tool on centre, and clear of the far side.'],
    why: [
      `The bar stands out ${(depth / bar).toFixed(1)} times its thickness; up to ${LIMITS.boringBar} it is stiff enough.`,
      speedWhy(lathe, aim, slower, rpm),
      ...(hole.roughness === null ? [] : [roughnessWhy(lathe, feed, hole.roughness)]),
    ],
    minutes: 12,
  };
}

/** Tries what goes into a bore while the work is still held; not what goes in by force, wherever in its window it comes out. */
function tryShaft({ part, instruments }: Work, hole: Extract<Hole, { kind: 'bored-hole' }>): Step[] {
  const mate = inHole(part, hole);
  if (mate === null || hole.diameter.high < inHoleSize(mate, instruments)) return [];
  return [
    {
      id: `try-${hole.id}`,
      kind: 'try-fit',
      title: `Try the ${mate.say} in the ${inSentence(hole)}`,
      say: `Try the ${mate.say}`,
      feature: hole.id,
      note: `Spindle stopped, chips out, the edge of the bore broken, a drop of oil.${mate.kind === 'outer-ring' ? ' Square, by hand, pushed on the outer ring only.' : ''} It can be bored further, never back.`,
    },
  ];
}

/** Which taps a blind hole wants for the room below its thread, and how well the thread holds. */
function tapWhy(
  thread: Thread,
  { drillDepth, threadDepth }: Extract<EndFeature, { readonly kind: 'tapped-hole' }>,
  material: Material,
): string[] {
  const below = (minus(drillDepth, threadDepth) / thread.pitch).toFixed(1);
  const taps =
    drillDepth >= blindHoleDepth(thread, threadDepth, 'taper')
      ? 'a taper tap reaches the depth'
      : drillDepth >= blindHoleDepth(thread, threadDepth, 'plug')
        ? 'a plug tap reaches the depth'
        : drillDepth >= blindHoleDepth(thread, threadDepth, 'bottoming')
          ? 'start with a plug tap, and finish with a bottoming tap'
          : 'not even a bottoming tap cuts full threads so deep: the last few stay shallow';
  const { has, wants } = engagementInDiameters(thread, threadDepth, material);
  const holds = `The thread is ${has.toFixed(1)} diameters deep; ${wants} ${has < wants ? 'is wanted' : 'is enough'} in ${material.replaceAll('-', ' ')}.`;
  return [`Below the thread there are ${below} threads of room: ${taps}.`, holds];
}

/** Drilling, boring and tapping of one end, after everything on it is turned. Centres are made when the end is faced. */
export function endSteps(work: Work, ends: readonly EndFeature[], supported: boolean): Step[] {
  const { part } = work;
  return ends.flatMap((end): Step[] => {
    switch (end.kind) {
      case 'centre':
        return [];
      case 'drilled-hole':
        return drillSteps(work, end, supported);
      case 'bored-hole':
        return [...drillSteps(work, end, supported), boreStep(work, end), ...tryShaft(work, end)];
      case 'tapped-hole': {
        const thread = parseThread(end.designation);
        const turns = thread.ok ? `, ${Math.round(2 * turnsFor(thread.value, end.threadDepth)) / 2} turns` : '';
        const { material } = work.lathe;
        const wet = FLUIDS[material].thread;
        return [
          ...drillSteps(work, end, supported),
          {
            id: `tap-${end.id}`,
            kind: 'tap',
            title: `Tap ${end.designation}, ${bare(end.threadDepth, part.unit)} deep`,
            say: `Tap the ${inSentence(end)}`,
            feature: end.id,
            caution: 'tapping',
            note: `Spindle stopped, tap square on the tailstock centre${turns} from the first thread.`,
            before: [`Hole countersunk a little, chips out. ${wet}.`],
            why: thread.ok ? tapWhy(thread.value, end, material) : [],
            minutes: 6,
          },
        ];
      }
    }
  });
}
