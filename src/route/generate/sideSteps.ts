import {
  asDiameter,
  formatAmount,
  larger,
  midway,
  minus,
  nanometres,
  plus,
  roundedTo,
  times,
  zero,
  type Length,
} from '../../measure/index.ts';
import {
  barMassKg,
  cuttingForceN,
  deflection,
  ELASTIC,
  radialForceN,
  unbalanceForceN,
  type Material,
  type Reduction,
} from '../../trade/index.ts';
import { ALLOWANCES, BOUNDS, LIMITS } from './allowances.ts';
import { pressedOn } from './assembly.ts';
import { facingCut, feedFor, finishCut, minutesOf, plainCut, radialDivision, roughCut, rpmAt, speedWhy } from './cuts.ts';
import { datumOf, fromFace, lengthInstrument, type NamedLength } from './datums.ts';
import { bare, inSentence, target, type Held, type Step, type Work } from './draft.ts';
import { diameterFit, lengthFit, widthOf } from './fitOf.ts';
import { holeIn } from './holes.ts';
import { isAsStock, isFine, limitsOf, type Bar } from './layout.ts';

/** Where a cut stops: so far from a face, by the name it has in this set-up. */
export type Place = { readonly from: string; readonly distance: Length };

/** Where a bar stops: from the face that its length is counted from, where that is the finished one of its end; else as it is. */
export const placed = (bar: Bar, place: Place, finishedEnd: 'left' | 'right' | null): Place =>
  finishedEnd === null ? place : (fromFace(bar.feature, finishedEnd) ?? place);

const sizesOf = (bar: Bar): { readonly low: Length; readonly aim: Length; readonly high: Length } => ({
  ...limitsOf(bar.feature),
  aim: bar.diameter,
});

/** An amount on the diameter, up to what two equal passes of whole divisions of the cross-slide dial take. */
const inTwoPasses = ({ lathe }: Work, amount: Length): Length =>
  roundedTo(amount, times(radialDivision(lathe.machine), 4), 'ceiling');

/** How a diameter is brought to size after the finishing cut, and what that cut leaves for it. */
function leftByHand({ part }: Work, { feature }: Bar): { readonly left: Length; readonly spread: Length } | null {
  if (feature.kind === 'thread') return null;
  const { file, fileSpread, polish, polishSpread } = ALLOWANCES[part.unit];
  switch (feature.finish) {
    case 'filed':
      return { left: file, spread: fileSpread };
    case 'polished':
      return { left: polish, spread: polishSpread };
    case 'turned':
      return null;
  }
}

/** What the finishing cut of a diameter aims at: its size, or what filing and polishing want over it. */
export const finishAim = (work: Work, bar: Bar): Length => plus(bar.diameter, leftByHand(work, bar)?.left ?? zero);

/** What roughing leaves: two equal passes that a hand can set. */
const leftRough = (work: Work): Length => inTwoPasses(work, ALLOWANCES[work.part.unit].rough);

/** What a diameter is roughed to: over what the finishing cut aims at by what roughing leaves. */
export const roughAim = (work: Work, bar: Bar): Length => plus(finishAim(work, bar), leftRough(work));

/** The widest that a diameter may be over its size and still be finished in two passes. */
const atMostOver = (work: Work): Length => plus(leftRough(work), BOUNDS.notWorthRoughing);

/** The fillet that stays in the corner of a bar's shoulder: no cut along the bar may go nearer to it. */
const filletOf = ({ part }: Work, { feature }: Bar): Length =>
  part.edges.reduce<Length>(
    (most, edge) => (edge.kind === 'fillet' && edge.on === feature.id ? larger(most, edge.radius) : most),
    zero,
  );

const DENSITY: Readonly<Record<Material, number>> = {
  'low-carbon-steel': 7850,
  'alloy-steel': 7850,
  'stainless-steel': 7950,
  'grey-iron': 7200,
  brass: 8500,
  aluminium: 2700,
};

/**
 * How much a finishing cut of half the rough allowance bends the work away at a bar, on the diameter. What is drilled already
 * weakens it; the holes of the end that is turned come after.
 */
export function springOf(
  { lathe, part }: Work,
  bar: Bar,
  held: Pick<Held, 'bending' | 'out' | 'drilled'>,
  outboard: Length,
): Length {
  const { feature } = bar;
  const hollow = held.drilled === null ? null : holeIn(part, feature.id, held.drilled);
  const roughness = feature.kind === 'thread' ? null : feature.roughness;
  const depth = nanometres(Math.ceil(ALLOWANCES[part.unit].rough / 4));
  const force = radialForceN(cuttingForceN(lathe.material, depth, feedFor({ ...lathe, unit: part.unit }, 'finish', roughness)));
  const reach = held.bending === 'chuck' ? larger(minus(held.out, outboard), bar.length) : held.out;
  const { modulusGPa } = ELASTIC[lathe.material];
  return nanometres(2 * deflection(held.bending, asDiameter(bar.diameter), reach, force, modulusGPa, hollow?.across ?? zero));
}

/**
 * The fastest that off-centre work may turn: its out-of-balance force stays under the limit. Null where nothing holds it down.
 */
export function offCentreLimit({ lathe }: Work, bar: Bar, across: Length, length: Length): number | null {
  if (bar.offset === 0) return null;
  const mass = barMassKg(asDiameter(across), length, DENSITY[lathe.material]);
  const { spindleSpeeds } = lathe.machine;
  const calm = spindleSpeeds.filter((rpm) => unbalanceForceN(mass, bar.offset, rpm) <= LIMITS.unbalanceN);
  return Math.max(Math.min(...spindleSpeeds), ...calm);
}

export const reductionsFor = (bar: Bar, held: Held): readonly Reduction[] => [
  ...(bar.offset > 0 ? (['eccentric'] as const) : []),
  ...(held.slender ? (['long'] as const) : []),
];
const caution = (bar: Bar): Pick<Step, 'caution'> => (bar.offset > 0 ? { caution: 'out-of-balance' } : {});

/** A live centre has its own bearings; a dead one runs dry and seizes. */
export const TAILSTOCK_UP = 'Tailstock centre up and snug; a dead centre oiled.';

/** An end is faced with nothing in front of it, so lightly. */
export const TAILSTOCK_AWAY = 'Tailstock back, clear of the facing tool: light cuts, since nothing steadies it now.';

/** What is always true before a cut along the work. */
export const ready = (held: Held, ...more: readonly string[]): string[] => [
  ...(held.bending === 'chuck-and-tailstock' ? [TAILSTOCK_UP] : []),
  ...(held.bending === 'between-centres' ? ['Dog tight and clear of the slide; a dead centre oiled.'] : []),
  ...(held.slender ? ['Follow rest or steady set, where there is one.'] : []),
  ...more,
];

/** Shortens a stop to whole divisions of the carriage dial, where it has one; a rough stop need not be finer. */
function wholeStop({ lathe }: Work, distance: Length): Length {
  const dial = lathe.machine.carriage;
  if (dial === null) return distance;
  const whole = roundedTo(distance, dial.division, 'floor');
  return whole > 0 ? whole : distance;
}

/** The rough cut of a fine diameter, short of its shoulder and over size; none where less than that is left to take. */
export function roughStep(
  work: Work,
  held: Held,
  bar: Bar,
  from: Length,
  shoulder: Place,
  extra: readonly Reduction[] = [],
  most: number | null = null,
): Step | null {
  const { part, lathe } = work;
  const { roughSpread, shoulder: off } = ALLOWANCES[part.unit];
  const aim = roughAim(work, bar);
  if (from <= plus(aim, BOUNDS.notWorthRoughing)) return null;
  const { cut, why, passes } = roughCut(lathe, from, aim, [...reductionsFor(bar, held), ...extra], most);
  const name = inSentence(bar.feature);
  const window = { low: minus(aim, roughSpread), aim, high: plus(aim, roughSpread) };
  const stop = wholeStop(work, minus(shoulder.distance, larger(off, filletOf(work, bar))));
  return {
    id: `rough-${bar.feature.id}`,
    kind: 'rough',
    title: `Rough the ${name} to ${bare(aim, part.unit)}`,
    say: `Rough the ${name}`,
    feature: bar.feature.id,
    target: target('diameter', window, from, null),
    instrument: 'caliper',
    cut,
    stop: { from: shoulder.from, distance: stop },
    ...caution(bar),
    note: `Short of the shoulder by ${formatAmount(minus(shoulder.distance, stop), part.unit)}.${bar.offset > 0 ? ' At first it cuts on one side only: lighter until it cuts all round.' : ''}`,
    before: ready(held),
    why: [...why],
    minutes: minutesOf(cut, shoulder.distance, passes),
  };
}

/** What there is to say, or null. */
const noteOf = (...sentences: readonly string[]): string | null => sentences.filter((text) => text !== '').join(' ') || null;

/** The steps that bring a diameter and its shoulder to size: the finishing cut, and filing or polishing with its trial. */
export function finishSteps(
  work: Work,
  held: Held,
  bar: Bar,
  from: Length,
  shoulder: Place,
  extra: readonly Reduction[] = [],
  most: number | null = null,
): Step[] {
  const { part, lathe } = work;
  const { feature } = bar;
  const name = inSentence(feature);
  const hand = feature.kind === 'thread' ? 'turned' : feature.finish;
  const roughness = feature.kind === 'thread' ? null : feature.roughness;
  const over = leftByHand(work, bar);
  const { lead: tapered, lastTwo } = ALLOWANCES[part.unit];
  const pressed = pressedOn(part, feature);
  const lead = part.edges.some((edge) => edge.kind === 'chamfer' && edge.on === feature.id);
  const untried =
    pressed === null
      ? ''
      : `${lead ? '' : `Give its end a lead while it is held, ${formatAmount(tapered, part.unit)} at about 15 degrees. `}It stays ${formatAmount(pressed.least, part.unit)} to ${formatAmount(pressed.most, part.unit)} over the ${pressed.mate.say}: not tried on, but put together at the end.`;
  const left = over?.left ?? null;
  const final = sizesOf(bar);
  const aim = left === null ? final.aim : plus(final.aim, left);
  const window = over === null ? final : { low: minus(aim, over.spread), aim, high: plus(aim, over.spread) };
  const fine = isFine(bar) || left !== null;
  const fillet = filletOf(work, bar);
  const shouldered = fillet === 0 && fine && feature.kind !== 'taper';
  const little = from <= plus(aim, atMostOver(work));
  const reductions = [...reductionsFor(bar, held), ...extra];
  const chosen =
    fine || little
      ? finishCut(lathe, from, aim, reductions, roughness, most)
      : plainCut(lathe, from, aim, inTwoPasses(work, lastTwo), reductions);
  const spring = springOf(work, bar, held, minus(shoulder.distance, bar.length));
  const springy = fine && spring * 10 > window.high - window.low;
  const cut = springy ? { ...chosen.cut, spring: true } : chosen.cut;
  const steps: Step[] = [
    {
      id: `finish-${feature.id}`,
      kind: 'finish',
      title: `${fine ? 'Finish' : 'Turn'} the ${name} to ${bare(aim, part.unit)}${feature.kind === 'taper' ? ', straight' : feature.kind === 'thread' ? ' outside' : shouldered ? ', with its shoulder' : ''}`,
      say: shouldered ? `Finish the ${name} and its shoulder` : fine ? `Finish the ${name}` : `Turn the ${name}`,
      feature: feature.id,
      target: target('diameter', window, from, diameterFit(work, feature, window)),
      instrument: fine ? 'micrometer' : 'caliper',
      cut,
      stop: { ...shoulder, distance: minus(shoulder.distance, fillet) },
      ...caution(bar),
      note: noteOf(
        left === null ? '' : `${formatAmount(left, part.unit)} is left to be ${hand}.`,
        left === null ? untried : '',
        fillet === 0
          ? ''
          : `It stops short by the radius of the fillet, ${formatAmount(fillet, part.unit)}, which is formed after.`,
      ),
      before: ready(
        held,
        ...(fine && !held.slender && spring > (window.high - window.low) * 2 ? ['Follow rest set, right behind the tool.'] : []),
        ...(fine ? ['Cool to the touch, tool sharp.'] : []),
      ),
      why: [
        ...chosen.why,
        ...(springy
          ? [
              `It bends ${formatAmount(spring, part.unit)} on the diameter under the tool, held like this: two equal passes bend alike, and one without infeed takes out the rest.`,
            ]
          : []),
      ],
      minutes: minutesOf(cut, shoulder.distance, chosen.passes),
    },
  ];
  if (left !== null) {
    const filed = hand === 'filed';
    const steel = { ...lathe, tool: 'high-speed-steel' as const };
    const swings = bar.offset > 0 ? (['eccentric'] as const) : [];
    const rpm = rpmAt(steel, bar.diameter, swings);
    steps.push({
      id: `${filed ? 'file' : 'polish'}-${feature.id}`,
      kind: 'file',
      title: `${filed ? 'File' : 'Polish'} the ${name} to ${bare(final.aim, part.unit)}`,
      say: `${filed ? 'File' : 'Polish'} the ${name}`,
      feature: feature.id,
      target: target('diameter', final, aim, diameterFit(work, feature, final)),
      instrument: 'micrometer',
      cut: {
        tool: filed ? 'mill file, single cut, with a handle' : 'abrasive cloth on a flat backing, not on the fingers',
        speedRpm: rpm,
        feedPerTurn: null,
        depthOnRadius: null,
        last: null,
        spring: false,
        note: filed ? 'Long slow strokes, the same number all along.' : 'Keep it moving along.',
      },
      caution: filed ? 'lathe-filing' : 'abrasive-cloth',
      note: noteOf(untried),
      before: ['Carriage and tool well back, spindle stopped to measure.'],
      why: [
        speedWhy(steel, bar.diameter, swings, rpm),
        `${filed ? 'Filing' : 'Polishing'} comes down on the size slowly enough to try and try again, and takes the tool marks out.`,
      ],
      minutes: 10,
    });
  }
  const mate = part.mates.find((candidate) => 'mate' in feature && candidate.id === feature.mate);
  if (mate !== undefined && pressed === null)
    steps.push({
      id: `try-${feature.id}`,
      kind: 'try-fit',
      title: `Try the ${mate.say} on the ${name}`,
      say: `Try the ${mate.say}`,
      feature: feature.id,
      note: `Spindle stopped, chips off, its edge broken with a touch of the file, a drop of oil.${held.bending === 'chuck-and-tailstock' ? ' Tailstock up again before the next cut.' : ''}`,
      ...(held.bending === 'chuck-and-tailstock' ? { before: ['Tailstock back, so that it goes on.'] } : {}),
      ...(held.bending === 'between-centres'
        ? { before: ['Out from between the centres; the dog stays on, so that it goes back as it was.'] }
        : {}),
    });
  return steps;
}

/**
 * The steps of a diameter that the finishing cut of a bar inboard of it has brought to `to` on its way, such as the far side of a
 * ring groove: it is measured and tried on its own, and not cut again. Where that leaves nothing to file, it is not filed.
 */
export function sameCut(work: Work, held: Held, bar: Bar, other: Bar, to: Length): Step[] {
  const aim = finishAim(work, bar);
  const steps = finishSteps(work, held, bar, plus(aim, ALLOWANCES[work.part.unit].rough), { from: 'end', distance: bar.length });
  const name = inSentence(bar.feature);
  return steps.flatMap((step): Step[] => {
    if (step.kind === 'file') return to < aim ? [] : [step];
    if (step.kind !== 'finish' || step.target == null) return [step];
    const { cut: _cut, stop: _stop, before: _before, caution: _caution, ...rest } = step;
    const sizes = to < aim ? sizesOf(bar) : step.target;
    return [
      {
        ...rest,
        title: `Measure the ${name}: ${bare(to, work.part.unit)} by the same cut`,
        say: `Measure the ${name}`,
        target: { ...step.target, low: sizes.low, aim: sizes.aim, high: sizes.high, from: null },
        why: [
          isAsStock(work.part, other)
            ? 'It is left as the bar came.'
            : `The cut of the ${inSentence(other.feature)} went over it and left it the same size.`,
        ],
        minutes: 2,
      },
    ];
  });
}

/** Faces a shoulder or an end, so that the length behind it comes out right. Length is last. */
export function lengthStep(
  { part, lathe }: Work,
  bar: Bar,
  extra: Length,
  face: 'shoulder' | 'end',
  reductions: readonly Reduction[],
  before: readonly string[] = [],
  named: NamedLength = { feature: bar.feature, limits: bar.feature.length, datum: datumOf(bar.feature) },
): Step {
  const { feature, limits, datum } = named;
  const name = inSentence(feature);
  const mate = widthOf(part, feature);
  const cut = facingCut(lathe, bar.needs, reductions);
  const aim = midway(limits.low, limits.high, 'half-even');
  const from = datum === null ? '' : ` from the ${datum}`;
  return {
    id: `length-${feature.id}`,
    kind: 'length',
    title: `Face the ${face}: ${name} to ${datum === null ? 'length' : `${bare(aim, part.unit)}${from}`}`,
    say: `Bring the ${name} to length${from}`,
    feature: feature.id,
    target: { ...target('length', { ...limits, aim }, plus(aim, extra), lengthFit(part, feature)), datum },
    instrument: lengthInstrument(part, named),
    cut,
    ...(reductions.includes('eccentric') ? { caution: 'out-of-balance' as const } : {}),
    note: mate === null ? null : `The ${mate.say} and its end play.`,
    before: [...before],
    why: [
      ...(mate === null ? [] : [`Length comes last: it is the ${mate.say} as it was measured, and the play.`]),
      speedWhy(lathe, bar.needs, reductions, cut.speedRpm),
    ],
    minutes: 5,
  };
}
