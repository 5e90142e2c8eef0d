import { dividedBy, formatSize, larger, millimetres, minus, thou } from '../../measure/index.ts';
import { externalDepth, parseThread } from '../../trade/index.ts';
import { rpmAt, speedWhy } from './cuts.ts';
import { inSentence, type Held, type Step, type Work } from './draft.ts';
import type { Bar } from './layout.ts';
import { ready, type Place } from './sideSteps.ts';

/** A carriage that is stopped by hand goes no faster than a quarter of a metre a minute: common practice, no source. */
const CAUGHT_BY_HAND = millimetres(250);

/** The single-point thread of a thread feature; its diameter has been turned before. */
export function threadStep(work: Work, held: Held, bar: Bar, place: Place): Step | null {
  if (bar.feature.kind !== 'thread') return null;
  const { lathe, part } = work;
  const { feature } = bar;
  const thread = parseThread(feature.designation);
  const depth = thread.ok ? externalDepth(thread.value) : null;
  const edges = part.edges.filter((edge) => edge.on === feature.id);
  const relieved = edges.some(({ kind }) => kind === 'undercut');
  const chamfered = edges.some(({ kind }) => kind === 'chamfer');
  const steel = { ...lathe, tool: 'high-speed-steel' as const };
  const byHand = thread.ok ? lathe.machine.spindleSpeeds.filter((speed) => thread.value.pitch * speed <= CAUGHT_BY_HAND) : [];
  const advised = rpmAt(steel, bar.diameter, ['thread']);
  const rpm = Math.min(advised, Math.max(Math.min(...lathe.machine.spindleSpeeds), ...byHand));
  const room = edges.find((edge) => edge.kind === 'undercut');
  const distance =
    room?.kind === 'undercut' ? larger(minus(place.distance, dividedBy(room.width, 2, 'floor')), thou(1)) : place.distance;
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
      note: 'That is the whole depth; less at each pass, cutting oil, and a pass without infeed at the end.',
    },
    stop: { from: place.from, distance },
    note: `Try the nut before the work leaves the ${held.bending === 'between-centres' ? 'centres' : 'chuck'}.`,
    before: [
      ...ready(held),
      `Gearbox set${thread.ok ? ` for ${formatSize(thread.value.pitch, part.unit)} a turn` : ''}, and a scratch pass checked with a gauge.`,
      chamfered ? 'Chamfer cut.' : 'Its start chamfered to the bottom of the thread.',
      relieved ? 'Relief cut: the tool runs out in it.' : 'Tool drawn out at the same place each pass.',
      'Thread and lead screw both inch or both metric: half nuts opened by the thread dial. One of each: they stay closed, and the spindle runs back with the tool drawn out.',
    ],
    why:
      rpm === advised
        ? [speedWhy(steel, bar.diameter, ['thread'], rpm)]
        : [
            `Speed: ${rpm} rpm, no more: at ${formatSize(thread.ok ? thread.value.pitch : distance, part.unit)} a turn a hand must still stop the carriage in time.`,
          ],
    minutes: 15,
  };
}
