import type { Length } from '../measure/index.ts';
import type { ChuckReading, Jaw, SpotReading } from '../setups/index.ts';
import type { EventBody } from './event.ts';

/** A whole number that a set-up is told: the angle of the next reading, how many readings or holes, a hole, turns of a tap. */
export type SetUpCount = 'degrees' | 'readings' | 'holes' | 'hole' | 'turns';

/** A length that a set-up is told: the edge finder's tip, a hole pattern, a taper, a bar to be packed and its packing piece,
 * what the carriage dial shows where the tool touched. */
export type SetUpLength = 'finder' | 'circle' | 'line' | 'large' | 'small' | 'over' | 'work' | 'bar' | 'packing' | 'carriage';

/**
 * What was read and said for the set-up of one operation. `chuck` and `spots` keep the order they came in: what to do next hangs
 * on the whole of it (`dialIn`, `highSpotOf`). `turn` holds low or high of a turn of the spindle until the other one is read.
 * `degrees` is the angle that the next reading is at, where it was said, `anglesTold` that any was. `pattern` is what the holes
 * lie on, the one that was said last; `tappedBefore` how far the tap was before the last count.
 */
export type SetUpLog = {
  readonly chuck: readonly ChuckReading[];
  readonly turn: { readonly low: Length | null; readonly high: Length | null };
  readonly spots: readonly SpotReading[];
  readonly degrees: number | null;
  readonly anglesTold: boolean;
  readonly end: Length | null;
  readonly pattern: 'circle' | 'line' | null;
  readonly counts: Readonly<Partial<Record<Exclude<SetUpCount, 'degrees'>, number>>>;
  readonly firstAngle: number;
  readonly tappedBefore: number;
  readonly lengths: Readonly<Partial<Record<SetUpLength, Length>>>;
};

export const NOTHING_SET_UP: SetUpLog = {
  chuck: [],
  turn: { low: null, high: null },
  spots: [],
  degrees: null,
  anglesTold: false,
  end: null,
  pattern: null,
  counts: {},
  firstAngle: 0,
  tappedBefore: 0,
  lengths: {},
};

/** The events that a set-up is told by. */
export type SetUpEvent = Extract<
  EventBody,
  { type: 'JawRead' | 'IndicatorRead' | 'SpindleRead' | 'EdgeFound' | 'SetUpCounted' | 'SetUpGiven' }
>;

const jawOf = (jaw: number): Jaw => (jaw === 1 ? 1 : jaw === 2 ? 2 : jaw === 3 ? 3 : 4);
const round = (degrees: number): number => ((degrees % 360) + 360) % 360;

/** The log after one more event. */
export function setUpAfter(log: SetUpLog, body: SetUpEvent): SetUpLog {
  switch (body.type) {
    case 'JawRead':
      return { ...log, chuck: [...log.chuck, { jaw: jawOf(body.jaw), indicator: body.indicator }], turn: NOTHING_SET_UP.turn };
    case 'IndicatorRead': {
      const turn = { ...log.turn, [body.end]: body.indicator };
      const { low, high } = turn;
      if (low === null || high === null) return { ...log, turn };
      return { ...log, chuck: [...log.chuck, { low, high }], turn: NOTHING_SET_UP.turn };
    }
    case 'SpindleRead': {
      // The same place read again takes the place of the first.
      const others = log.spots.filter((spot) => round(spot.degrees) !== round(body.degrees));
      return { ...log, spots: [...others, { degrees: body.degrees, indicator: body.indicator }], degrees: null };
    }
    case 'EdgeFound':
      return body.edge === 'end' ? { ...log, end: body.coordinate } : log;
    case 'SetUpCounted':
      switch (body.what) {
        case 'degrees':
          return { ...log, degrees: body.count, anglesTold: true, firstAngle: body.count };
        case 'turns':
          return { ...log, tappedBefore: log.counts.turns ?? 0, counts: { ...log.counts, turns: body.count } };
        case 'readings':
          return { ...log, spots: [], degrees: null, anglesTold: false, counts: { ...log.counts, readings: body.count } };
        case 'holes':
          return { ...log, counts: { ...log.counts, holes: body.count, hole: 1 } };
        case 'hole':
          return { ...log, counts: { ...log.counts, hole: body.count } };
      }
    case 'SetUpGiven': {
      const lengths = { ...log.lengths, [body.what]: body.length };
      if (body.what !== 'circle' && body.what !== 'line') return { ...log, lengths };
      // Another pattern is begun: its holes and its first angle are its own.
      const { readings, turns } = log.counts;
      const counts = { ...(readings === undefined ? {} : { readings }), ...(turns === undefined ? {} : { turns }) };
      return { ...log, pattern: body.what, counts, firstAngle: 0, lengths };
    }
  }
}
