import { INSTRUMENTS, type Instrument, type InstrumentKind } from './instruments.ts';
import { inches, millimetres, minus, plus, type Length } from './length.ts';

/** What is believed of each kind of instrument. */
export type Instruments = Readonly<Record<InstrumentKind, Instrument>>;

/**
 * What an own instrument of a kind reads to, and the most that it may be off by at an inch; null where the standard figure holds.
 * Invariants: `ownFigureFault` finds nothing in either figure, and a list of them names no kind twice.
 */
export type OwnInstrument = {
  readonly kind: InstrumentKind;
  readonly resolution: Length | null;
  readonly permissibleError: Length | null;
};
export type OwnFigure = 'resolution' | 'permissibleError';

/** The coarsest that is read or trusted: half a millimetre, as a metric rule is divided. Common practice, no source. */
const COARSEST: Length = millimetres(0.5);

/** Why a figure cannot be one of an instrument. */
export type OwnFigureFault = 'step-of-nothing' | 'less-than-nothing' | 'coarser-than-a-rule';

/** What is wrong with a figure of an own instrument, or null: a step is more than zero, an error at least zero. */
export function ownFigureFault(figure: OwnFigure, value: Length): OwnFigureFault | null {
  if (value > COARSEST) return 'coarser-than-a-rule';
  switch (figure) {
    case 'resolution':
      return value > 0 ? null : 'step-of-nothing';
    case 'permissibleError':
      return value >= 0 ? null : 'less-than-nothing';
  }
}

/** A standard instrument with the figures that are its owner's. Over longer sizes the error grows by what the standard's does. */
function withOwn(standard: Instrument, { resolution, permissibleError }: OwnInstrument): Instrument {
  const own = {
    ...standard,
    ...(resolution === null ? {} : { resolution }),
    source: 'as its owner gives it',
  };
  if (permissibleError === null) return own;
  const grows = (size: Length): Length => minus(standard.permissibleError(size), standard.permissibleError(inches(1)));
  return { ...own, permissibleError: (size) => plus(permissibleError, grows(size)) };
}

/** What is believed of each kind of instrument where the person has some of their own; the standard figures for all others. */
export function instrumentsOf(own: readonly OwnInstrument[]): Instruments {
  if (own.length === 0) return INSTRUMENTS;
  return { ...INSTRUMENTS, ...Object.fromEntries(own.map((each) => [each.kind, withOwn(INSTRUMENTS[each.kind], each)])) };
}
