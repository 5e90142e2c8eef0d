import type { Cutter, Filing, Wishes } from '../coach/index.ts';
import { micrometres, nanometres, roundReal, smaller, thou, times, type OwnInstrument } from '../measure/index.ts';
import type { MeasuredQuantity, Operation } from '../route/index.ts';
import { THINNEST_CUT, toolIn } from '../trade/index.ts';
import { partExpansion } from './cold.ts';
import type { JobState } from './state.ts';
import { machineOf, windowOf } from './window.ts';

/**
 * An operation as the coach sees it: the lathe, the wishes, and how amounts on the dial become amounts on the part. `sign` is -1
 * for a bore of the part: mirrored, it shrinks like a journal.
 */
export type Shop = {
  readonly quantity: MeasuredQuantity;
  readonly sign: 1 | -1;
  readonly perDial: 1 | 2;
  readonly cutter: Cutter;
  /** Those that are not as the standard says. */
  readonly instruments: readonly OwnInstrument[];
  readonly wishes: Wishes;
  readonly filing: Filing;
  /** A later step brings this to size by file or cloth: what is left here is left for it. */
  readonly filedLater: boolean;
};

/** A finishing pass where the plan names none, on the diameter: 10 thou, or .25 mm. Common practice, no source. */
const FINISHING = { inch: thou(10), millimetre: micrometres(250) } as const;
/** What is cut by hand and eye, without the coach: roughing, and everything that is no turned diameter. */
const COACHED: ReadonlySet<Operation['kind']> = new Set(['finish', 'file', 'offset', 'groove']);

const isPolished = ({ title }: Operation): boolean => /polish/i.test(title);

/** The later step that files or polishes what is turned here; null where there is none, or this is it. */
function filedAfter(state: JobState, operation: Operation): { readonly polished: boolean } | null {
  const { operations } = state.plan.route;
  const later = operations.slice(operations.findIndex(({ id }) => id === operation.id) + 1);
  const files = later.find(({ kind, feature }) => kind === 'file' && feature !== null && feature === operation.feature);
  return operation.kind === 'file' || files === undefined ? null : { polished: isPolished(files) };
}

/** The operation for the coach, or null where it has nothing to say: no turned diameter, no window, no machine. */
export function shopOf(state: JobState, operation: Operation): Shop | null {
  const { target } = operation;
  const window = windowOf(state, operation);
  const machine = machineOf(state, operation);
  if (target === null || window === null || machine === null || !COACHED.has(operation.kind)) return null;
  if (target.quantity !== 'diameter' && target.quantity !== 'hole') return null;
  const sign = target.quantity === 'hole' ? -1 : 1;
  const perDial = machine.crossSlide.reads === 'radius' ? 2 : 1;
  const depth = operation.cut?.depthOnRadius ?? null;
  const usual = FINISHING[state.plan.part.unit];
  const deepest = depth === null ? usual : times(depth, 2);
  const last = operation.cut?.last ?? null;
  const polished = isPolished(operation);
  const later = filedAfter(state, operation);
  return {
    quantity: target.quantity,
    sign,
    perDial,
    cutter: {
      step: nanometres(roundReal((machine.crossSlide.division * perDial) / 2, 'half-even')),
      turn: times(machine.crossSlide.perTurn, perDial),
      deepest,
      thinnest: THINNEST_CUT[toolIn(operation.cut?.tool ?? '')],
      tapers: true,
      perK: partExpansion(state).perK,
    },
    instruments: state.plan.instruments ?? [],
    wishes: {
      window:
        sign === 1 ? window : { low: nanometres(-window.high), high: nanometres(-window.low), aim: nanometres(-window.aim) },
      finishing: smaller(last === null ? usual : times(last, 2), deepest),
      micrometer: target.quantity === 'diameter',
      turning: operation.kind !== 'file',
      warm: false,
      binds: null,
    },
    filing: polished || later?.polished === true ? 'polishing' : 'filing',
    filedLater: later !== null,
  };
}
