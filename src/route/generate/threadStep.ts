import { dividedBy, formatAmount, formatSize, larger, millimetres, minus, scaled, times, zero } from '../../measure/index.ts';
import { externalDepth, FLUIDS, parseThread } from '../../trade/index.ts';
import { ALLOWANCES } from './allowances.ts';
import { rpmAt, speedWhy } from './cuts.ts';
import { inSentence, type Held, type Step, type Work } from './draft.ts';
import type { Bar } from './layout.ts';
import { ready, type Place } from './sideSteps.ts';

/** A carriage that is stopped by hand goes no faster than a quarter of a metre a minute: common practice, no source. */
const CAUGHT_BY_HAND = millimetres(250);

/** Short of a shoulder without relief, in pitches: the tool is as wide, and the hand needs a moment. Common practice. */
const RUN_OUT = 2;

/**
 * The single-point thread of a thread feature; its diameter has been turned before. `inboard` is what it ends at: a bar, the
 * largest of all, or stock that is turned away or parted off later.
 */
export function threadStep(work: Work, held: Held, bar: Bar, place: Place, inboard: Bar | 'largest' | 'stock'): Step | null {
  if (bar.feature.kind !== 'thread') return null;
  const { lathe, part } = work;
  const { feature } = bar;
  const thread = parseThread(feature.designation);
  const depth = thread.ok ? externalDepth(thread.value) : null;
  const edges = part.edges.filter((edge) => edge.on === feature.id);
  const chamfered = edges.some(({ kind }) => kind === 'chamfer');
  const steel = { ...lathe, tool: 'high-speed-steel' as const };
  const byHand = thread.ok ? lathe.machine.spindleSpeeds.filter((speed) => thread.value.pitch * speed <= CAUGHT_BY_HAND) : [];
  const advised = rpmAt(steel, bar.diameter, ['thread']);
  const rpm = Math.min(advised, Math.max(Math.min(...lathe.machine.spindleSpeeds), ...byHand));
  // Of the largest of all only what is cut by then: the far end waits for its own set-up.
  const room = inboard === 'stock' ? undefined : edges.find((edge) => edge.kind === 'undercut');
  const open =
    thread.ok && typeof inboard !== 'string' && inboard.diameter <= minus(bar.diameter, times(externalDepth(thread.value), 2));
  const short = thread.ok && room === undefined && !open && inboard !== 'stock' ? times(thread.value.pitch, RUN_OUT) : null;
  const back = room?.kind === 'undercut' ? dividedBy(room.width, 2, 'floor') : (short ?? zero);
  const distance = larger(minus(place.distance, back), ALLOWANCES[part.unit].leastStop);
  return {
    id: `thread-${feature.id}`,
    kind: 'thread',
    title: `Cut the thread ${feature.designation}`,
    say: `Cut the ${inSentence(feature)}`,
    feature: feature.id,
    cut: {
      tool: 'threading tool, 60 degrees, high-speed steel',
      speedRpm: rpm,
      feedPerTurn: thread.ok ? thread.value.pitch : null,
      depthOnRadius: depth,
      last: null,
      spring: true,
      note: `That is the whole depth; less at each pass, and a pass without infeed at the end. ${FLUIDS[lathe.material].thread}.`,
    },
    stop: { from: place.from, distance },
    note: `${short === null ? '' : `It ends ${formatAmount(short, part.unit)} short of the shoulder: nothing there gives the tool room. For a nut that goes home, draw an undercut. `}Try the nut before the work leaves the ${held.bending === 'between-centres' ? 'centres' : 'chuck'}.`,
    before: [
      ...ready(held),
      `Gearbox set${thread.ok ? ` for ${formatSize(thread.value.pitch, part.unit)} a turn` : ''}, and a scratch pass checked with a gauge.`,
      chamfered ? 'Chamfer cut.' : 'Its start chamfered to the bottom of the thread.',
      room !== undefined
        ? 'Relief cut: the tool runs out in it.'
        : open
          ? 'The tool runs out over what is smaller behind the thread.'
          : inboard === 'stock'
            ? 'Tool drawn out at the same place each pass, over what is cut away later.'
            : 'Tool drawn out at the same place each pass.',
      'Thread and lead screw both inch or both metric: half nuts opened by the thread dial. One of each: they stay closed, and the spindle runs back with the tool drawn out.',
    ],
    why:
      rpm === advised
        ? [speedWhy(steel, bar.diameter, ['thread'], rpm)]
        : [
            `Speed: ${rpm} rpm, no more: at ${formatSize(thread.ok ? thread.value.pitch : distance, part.unit)} a turn a hand must still stop the carriage in time.`,
          ],
    alternatives:
      depth === null
        ? []
        : [
            `Infeed by the compound at 29.5 degrees, ${formatAmount(scaled(depth, 1 / Math.cos((29.5 * Math.PI) / 180), 'half-even'), part.unit)} in all: one flank cuts, and the chip runs freer.`,
          ],
    minutes: 15,
  };
}
