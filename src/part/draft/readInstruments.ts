import {
  ownFigureFault,
  parseLength,
  type DisplayUnit,
  type InstrumentKind,
  type Length,
  type OwnFigure,
  type OwnInstrument,
} from '../../measure/index.ts';
import { describeOwnFigureFault } from '../ownInstruments.ts';
import type { Draft } from './draft.ts';
import { describeLengthError } from './writtenLimits.ts';

/** A figure of an instrument that does not read, and why. */
type FigureProblem = { readonly kind: InstrumentKind; readonly figure: OwnFigure; readonly says: string };

/** One typed figure: null where nothing is typed. */
function figureIn(
  text: string,
  figure: OwnFigure,
  unit: DisplayUnit,
): { readonly value: Length | null } | { readonly says: string } {
  if (text.trim() === '') return { value: null };
  const read = parseLength(text, unit);
  if (!read.ok) return { says: describeLengthError(read.error) };
  const fault = ownFigureFault(figure, read.value);
  return fault === null ? { value: read.value } : { says: describeOwnFigureFault(fault) };
}

/** The instruments of a draft as far as they read; a figure that does not is as the standard says, and named. */
export function ownInstrumentsIn({ instruments, unit }: Pick<Draft, 'instruments' | 'unit'>): {
  readonly own: readonly OwnInstrument[];
  readonly problems: readonly FigureProblem[];
} {
  const problems: FigureProblem[] = [];
  const own = instruments.map((typed): OwnInstrument => {
    const valueOf = (figure: OwnFigure): Length | null => {
      const read = figureIn(typed[figure], figure, unit);
      if ('value' in read) return read.value;
      problems.push({ kind: typed.kind, figure, says: read.says });
      return null;
    };
    return { kind: typed.kind, resolution: valueOf('resolution'), permissibleError: valueOf('permissibleError') };
  });
  return { own: own.filter(({ resolution, permissibleError }) => resolution !== null || permissibleError !== null), problems };
}
