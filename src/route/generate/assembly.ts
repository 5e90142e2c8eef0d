import { asDiameter, celsius, formatAmount, minus, zero, type Length, type Temperature } from '../../measure/index.ts';
import { mateSize, type Mate, type Part, type TurnedFeature } from '../../part/index.ts';
import {
  assemblyOf,
  dropRoom,
  ELASTIC,
  hubTemperature,
  materialIn,
  shaftTemperature,
  type PressedPair,
} from '../../trade/index.ts';
import { inSentence, type Step, type Work } from './draft.ts';
import { inHole, inHoleSize } from './fitOf.ts';
import { holeIn, type Hole } from './holes.ts';
import { limitsOf, type Bar } from './layout.ts';

/** A journal that is over what goes on it, wherever in its window it comes out, and by how much. */
export type Pressed = { readonly mate: Mate; readonly least: Length; readonly most: Length };

/** What is pressed or shrunk on a feature; null where it goes on by hand. */
export function pressedOn(part: Part, feature: TurnedFeature): Pressed | null {
  const id = 'mate' in feature ? feature.mate : null;
  const mate = part.mates.find((candidate) => candidate.id === id);
  if (mate === undefined || (mate.kind !== 'bore' && mate.kind !== 'bearing')) return null;
  const { low, high } = limitsOf(feature);
  const size = mateSize(mate);
  return low > size ? { mate, least: minus(low, size), most: minus(high, size) } : null;
}

/** Room temperature, and the hottest that a bearing is made without harm. The latter: common practice, no source. */
const ROOM = celsius(20, 'half-even');
const BEARING_MOST = celsius(110, 'half-even');
/** Dry ice, about the coldest that a shop has. */
const DRY_ICE = celsius(-78, 'half-even');

/** To two figures: what friction and moduli are known to. */
function twoFigures(value: number): string {
  const figure = 10 ** Math.max(0, Math.floor(Math.log10(value)) - 1);
  return (Math.round(value / figure) * figure).toFixed(0).replace(/\B(?=(\d{3})+$)/g, ' ');
}
const forceText = (newtons: number, unit: Part['unit']): string =>
  unit === 'inch' ? `${twoFigures(newtons / 4.448_221_615)} lbf` : `${twoFigures(newtons)} N`;
const stressText = (mPa: number, unit: Part['unit']): string =>
  unit === 'inch' ? `${twoFigures(mPa / 0.006_894_757)} psi` : `${twoFigures(mPa)} MPa`;
const heatText = (at: Temperature, unit: Part['unit']): string =>
  unit === 'inch' ? `${Math.ceil((at / 1000) * 1.8 + 32)} °F` : `${Math.ceil(at / 1000)} °C`;

/** Presses or shrinks on what goes on a journal with interference: force, heat or cold, by Lamé and by expansion. */
function assemblyStep({ part, lathe }: Work, bar: Bar, { mate, least: leastOver, most }: Pressed): Step {
  const { unit } = part;
  const amount = (length: Length): string => formatAmount(length, unit);
  const name = inSentence(bar.feature);
  const named = mate.material === null ? null : materialIn(mate.material);
  const bearing = mate.kind === 'bearing';
  const diameter = asDiameter(bar.diameter);
  const hollow = holeIn(part, bar.feature.id);
  const pair: Omit<PressedPair, 'hubOuter'> = {
    diameter,
    shaftBore: zero,
    length: bar.length,
    interference: most,
    hub: ELASTIC[named ?? 'low-carbon-steel'],
    shaft: ELASTIC[lathe.material],
  };
  const room = dropRoom(diameter);
  // Neither temperature depends on how thick the hub is.
  const hub = { ...pair, hubOuter: asDiameter(bar.diameter) };
  const hot = hubTemperature(hub, room, ROOM);
  const cold = shaftTemperature(hub, room, ROOM);
  const { outer } = mate;
  const fits = outer !== null && outer > bar.diameter;
  const whole = fits ? assemblyOf({ ...pair, hubOuter: asDiameter(outer) }, room, ROOM) : null;
  // A hole makes the shaft give: along all of it, or along a part, where the most is still what a solid one takes.
  const drilled =
    fits && hollow !== null ? assemblyOf({ ...pair, hubOuter: asDiameter(outer), shaftBore: hollow.across }, room, ROOM) : null;
  const assembly = hollow?.through === true ? drilled : whole;
  const least = drilled ?? whole;
  const pressing =
    assembly === null || least === null
      ? `What the press must give follows once the outside of the ${mate.say} stands in the file.`
      : `Pressed home it takes about ${forceText(least.forceN.least, unit)} to ${forceText(assembly.forceN.most, unit)} at ${amount(most)} of interference, clean to lightly oiled, and stretches the bore to ${stressText(assembly.hubStressMPa, unit)}: that must stay under its yield.`;
  const tooHot = bearing && hot > BEARING_MOST;
  return {
    id: `assemble-${bar.feature.id}`,
    kind: 'assemble',
    title: `Put the ${mate.say} on the ${name}: pressed or shrunk`,
    say: `Press the ${mate.say} on`,
    feature: bar.feature.id,
    caution: 'pressing',
    note: `Interference ${amount(leastOver)} to ${amount(most)}${bearing ? '. Push on the inner ring only' : ''}.`,
    before: [
      `The ${name} has a lead on its end, no burr, and both are clean: a film of oil to press, dry to shrink.`,
      ...(bearing ? [] : [`The ${mate.say} measured once more: with less interference it slips, with more it may split.`]),
    ],
    why: [
      pressing,
      ...(assembly !== null && hollow !== null
        ? [
            `Reckoned with the hole of ${formatAmount(hollow.across, unit)} ${hollow.through ? 'right through it' : 'along a part of it: solid for the most, hollow for the least'}.`,
          ]
        : []),
      ...(named === null && !bearing ? [`The ${mate.say} is taken to be of steel, since the file does not say.`] : []),
    ],
    alternatives: [
      `Heat: the ${mate.say} at ${heatText(hot, unit)} drops over it at ${heatText(ROOM, unit)} with ${amount(room)} of room${tooHot ? `; that is more than a bearing takes, which is ${heatText(BEARING_MOST, unit)}: chill the work too, or press it` : ''}.`,
      cold < DRY_ICE
        ? `Cold alone will not do: it would want ${heatText(cold, unit)}, and dry ice is ${heatText(DRY_ICE, unit)}.`
        : `Cold: the ${inSentence({ name: part.name })} at ${heatText(cold, unit)} goes in with the same room.`,
    ],
    minutes: 15,
  };
}

type Bored = Extract<Hole, { readonly kind: 'bored-hole' }>;

/** What goes into a bored hole with interference wherever in its window that comes out, and by how much. */
function pressedIn({ part, instruments }: Work, hole: Bored): Pressed | null {
  const mate = inHole(part, hole);
  if (mate === null) return null;
  const size = inHoleSize(mate, instruments);
  const { low, high } = hole.diameter;
  return high < size ? { mate, least: minus(size, high), most: minus(size, low) } : null;
}

/** Presses a shaft or the outer ring of a bearing into a bored hole, or warms the part so that it drops in. */
function pressIn({ part, lathe, instruments }: Work, hole: Bored, { mate, least, most }: Pressed): Step {
  const { unit } = part;
  const amount = (length: Length): string => formatAmount(length, unit);
  const ring = mate.kind === 'outer-ring';
  const diameter = asDiameter(inHoleSize(mate, instruments));
  const own = ELASTIC[lathe.material];
  const room = dropRoom(diameter);
  const hot = hubTemperature(
    { diameter, hubOuter: diameter, shaftBore: zero, length: diameter, interference: most, hub: own, shaft: own },
    room,
    ROOM,
  );
  return {
    id: `assemble-${hole.id}`,
    kind: 'assemble',
    title: `Put the ${mate.say} in the ${inSentence(hole)}: pressed or shrunk`,
    say: `Press the ${mate.say} in`,
    feature: hole.id,
    caution: 'pressing',
    note: `Interference ${amount(least)} to ${amount(most)}.${ring ? ' Push on the outer ring only.' : ''}`,
    before: [`The edge of the ${inSentence(hole)} broken, no burr, and both clean: a film of oil to press, dry to shrink.`],
    why: ring ? ['A bearing is pushed by the ring that is tight: pushed by the other, its races are marked.'] : [],
    alternatives: [
      `Heat: the ${inSentence({ name: part.name })} at ${heatText(hot, unit)} takes it at ${heatText(ROOM, unit)} with ${amount(room)} of room${ring && hot > BEARING_MOST ? `; that is more than a bearing takes, which is ${heatText(BEARING_MOST, unit)}: press it` : ''}.`,
    ],
    minutes: 15,
  };
}

/** What is put together by force or by heat, last of all. */
export const assemblySteps = (work: Work, bars: readonly Bar[]): Step[] => [
  ...bars.flatMap((bar) => {
    const pressed = pressedOn(work.part, bar.feature);
    return pressed === null ? [] : [assemblyStep(work, bar, pressed)];
  }),
  ...work.part.ends.flatMap((end) => {
    const pressed = end.kind === 'bored-hole' ? pressedIn(work, end) : null;
    return end.kind !== 'bored-hole' || pressed === null ? [] : [pressIn(work, end, pressed)];
  }),
];
