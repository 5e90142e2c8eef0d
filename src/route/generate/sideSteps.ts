import { asDiameter, formatSize, minus, nanometres, plus, type Length } from '../../measure/index.ts';
import { cuttingForceN, deflection, parseThread, externalDepth, radialForceN, type Reduction } from '../../trade/index.ts';
import { ALLOWANCES } from './allowances.ts';
import { finishCut, facingCut, minutesOf, plainCut, roughCut, roughPasses, rpmAt } from './cuts.ts';
import { bare, inSentence, target, type Step, type Work } from './draft.ts';
import { diameterFit, lengthFit, widthOf } from './fitOf.ts';
import { limitsOf, type Bar } from './layout.ts';

/** Where a cut stops: so far from a face, by the name it has in this set-up. */
export type Place = { readonly from: string; readonly distance: Length };

const sizesOf = (bar: Bar): { readonly low: Length; readonly aim: Length; readonly high: Length } => ({
  ...limitsOf(bar.feature),
  aim: bar.diameter,
});

/** True where the diameter wants a micrometer, and a rough cut before it is finished. */
export function isFine({ feature }: Bar): boolean {
  const { low, high } = limitsOf(feature);
  return minus(high, low) <= ALLOWANCES.fine;
}

/** What a fine diameter is roughed to. */
export const roughAim = ({ diameter }: Bar): Length => plus(diameter, ALLOWANCES.rough);

const offCentre = (bar: Bar): readonly Reduction[] => (bar.offset > 0 ? ['eccentric'] : []);
const caution = (bar: Bar): Pick<Step, 'caution'> => (bar.offset > 0 ? { caution: 'out-of-balance' } : {});

/** The rough cut of a fine diameter, short of its shoulder and over size; none where less than that is left to take. */
export function roughStep({ part, lathe }: Work, bar: Bar, from: Length, shoulder: Place): Step | null {
  const aim = roughAim(bar);
  if (from <= plus(aim, ALLOWANCES.roughSpread)) return null;
  const cut = roughCut(lathe, from, aim, offCentre(bar));
  const name = inSentence(bar.feature);
  const window = { low: minus(aim, ALLOWANCES.roughSpread), aim, high: plus(aim, ALLOWANCES.roughSpread) };
  return {
    id: `rough-${bar.feature.id}`,
    kind: 'rough',
    title: `Rough the ${name} to ${bare(aim, part.unit)}`,
    say: `Rough the ${name}`,
    feature: bar.feature.id,
    target: target('diameter', window, from, null),
    instrument: 'caliper',
    cut,
    stop: { from: shoulder.from, distance: minus(shoulder.distance, ALLOWANCES.shoulder) },
    ...caution(bar),
    note: `Short of the shoulder by ${formatSize(ALLOWANCES.shoulder, part.unit)}.`,
    minutes: minutesOf(cut, shoulder.distance, roughPasses(nanometres(Math.ceil((from - aim) / 2)), lathe.tool)),
  };
}

/** How much a finishing cut bends the work out of a chuck at its free end, on the diameter. */
function springOf({ lathe }: Work, bar: Bar, depth: Length, feed: Length, overhang: Length): Length {
  const force = radialForceN(cuttingForceN(lathe.material, depth, feed));
  return nanometres(2 * deflection('chuck', asDiameter(bar.diameter), overhang, force, 200));
}

/** What there is to say, or null. */
const noteOf = (...sentences: readonly string[]): string | null => sentences.filter((text) => text !== '').join(' ') || null;

/** The steps that bring a diameter and its shoulder to size: the finishing cut, and filing or polishing with its trial. */
export function finishSteps(work: Work, bar: Bar, from: Length, shoulder: Place): Step[] {
  const { part, lathe } = work;
  const { feature } = bar;
  const name = inSentence(feature);
  const hand = feature.kind === 'thread' ? 'turned' : feature.finish;
  const [left, spread] =
    hand === 'filed'
      ? [ALLOWANCES.file, ALLOWANCES.fileSpread]
      : hand === 'polished'
        ? [ALLOWANCES.polish, ALLOWANCES.polishSpread]
        : [null, null];
  const final = sizesOf(bar);
  const aim = left === null ? final.aim : plus(final.aim, left);
  const window = left === null ? final : { low: minus(aim, spread), aim, high: plus(aim, spread) };
  const fine = isFine(bar) || left !== null;
  const little = from <= plus(plus(aim, ALLOWANCES.rough), ALLOWANCES.roughSpread);
  const cut = fine || little ? finishCut(lathe, from, aim, offCentre(bar)) : plainCut(lathe, from, aim, ALLOWANCES.shoulder);
  const spring = springOf(work, bar, cut.depthOnRadius ?? left ?? from, cut.feedPerTurn ?? from, shoulder.distance);
  const springs =
    fine && spring * 4 > window.high - window.low
      ? `Out of the chuck alone it would spring ${formatSize(spring, part.unit)}: tailstock up.`
      : '';
  const steps: Step[] = [
    {
      id: `finish-${feature.id}`,
      kind: 'finish',
      title: `${fine ? 'Finish' : 'Turn'} the ${name} to ${bare(aim, part.unit)}${fine ? ', with its shoulder' : ''}`,
      say: fine ? `Finish the ${name} and its shoulder` : `Turn the ${name}`,
      feature: feature.id,
      target: target('diameter', window, from, diameterFit(part, feature, window)),
      instrument: fine ? 'micrometer' : 'caliper',
      cut,
      stop: shoulder,
      ...caution(bar),
      note: noteOf(
        left === null
          ? fine
            ? 'Diameter and shoulder in one pass.'
            : ''
          : `${formatSize(left, part.unit)} is left to be ${hand}.`,
        springs,
      ),
      minutes: minutesOf(
        cut,
        shoulder.distance,
        fine || little ? 2 : roughPasses(nanometres(Math.ceil((from - aim) / 2)), lathe.tool),
      ),
    },
  ];
  if (left !== null) {
    const filed = hand === 'filed';
    steps.push({
      id: `${filed ? 'file' : 'polish'}-${feature.id}`,
      kind: 'file',
      title: `${filed ? 'File' : 'Polish'} the ${name} to ${bare(final.aim, part.unit)}`,
      say: `${filed ? 'File' : 'Polish'} the ${name}`,
      feature: feature.id,
      target: target('diameter', final, aim, diameterFit(part, feature, final)),
      instrument: 'micrometer',
      cut: {
        tool: filed ? 'mill file, single cut, with a handle' : 'abrasive cloth on a flat backing, not on the fingers',
        speedRpm: rpmAt(lathe, bar.diameter, []),
        feedPerTurn: null,
        depthOnRadius: null,
        note: filed ? 'Long slow strokes, the same number all along.' : 'Keep it moving along.',
      },
      caution: filed ? 'lathe-filing' : 'abrasive-cloth',
      minutes: 10,
    });
  }
  const mate = part.mates.find((candidate) => 'mate' in feature && candidate.id === feature.mate);
  if (mate !== undefined)
    steps.push({
      id: `try-${feature.id}`,
      kind: 'try-fit',
      title: `Try the ${mate.say} on the ${name}`,
      say: `Try the ${mate.say}`,
      feature: feature.id,
      note: 'Spindle stopped, chips off, edges broken, a drop of oil.',
    });
  return steps;
}

/** Faces a shoulder or an end, so that the length behind it comes out right. Length is last. */
export function lengthStep(
  { part, lathe }: Work,
  bar: Bar,
  extra: Length,
  face: 'shoulder' | 'end',
  reductions: readonly Reduction[],
): Step {
  const name = inSentence(bar.feature);
  const mate = widthOf(part, bar.feature);
  return {
    id: `length-${bar.feature.id}`,
    kind: 'length',
    title: `Face the ${face}: ${name} to length`,
    say: `Bring the ${name} to length`,
    feature: bar.feature.id,
    target: target('length', { ...bar.feature.length, aim: bar.length }, plus(bar.length, extra), lengthFit(part, bar.feature)),
    instrument: 'depth-micrometer',
    cut: facingCut(lathe, bar.needs, reductions),
    ...(reductions.includes('eccentric') ? { caution: 'out-of-balance' as const } : {}),
    note: mate === null ? null : `The ${mate.say} and its end play.`,
    minutes: 5,
  };
}

/** The single-point thread of a thread feature; its diameter has been turned before. */
export function threadStep({ lathe }: Work, bar: Bar, place: Place): Step | null {
  if (bar.feature.kind !== 'thread') return null;
  const { feature } = bar;
  const thread = parseThread(feature.designation);
  const depth = thread.ok ? externalDepth(thread.value) : null;
  return {
    id: `thread-${feature.id}`,
    kind: 'thread',
    title: `Cut the thread ${feature.designation}`,
    say: `Cut the ${inSentence(feature)}`,
    feature: feature.id,
    cut: {
      tool: 'threading tool, 60 degrees, high-speed steel',
      speedRpm: rpmAt({ ...lathe, tool: 'high-speed-steel' }, bar.diameter, ['thread']),
      feedPerTurn: thread.ok ? thread.value.pitch : null,
      depthOnRadius: depth,
      note: 'That is the whole depth; less at each pass, cutting oil, and a pass without infeed at the end.',
    },
    stop: place,
    note: 'Chamfer the end first. Try the nut before the work leaves the chuck.',
    minutes: 15,
  };
}
