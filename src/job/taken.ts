import type { Operation } from '../route/index.ts';
import { differenceOff } from './differenceOff.ts';
import { amount, comma, sentence, type Piece } from './reply.ts';
import type { JobState } from './state.ts';
import { takingsOf } from './takings.ts';

/** What the last cut or filing really took, by the two readings round it, against what was asked for where that was said. */
export function takenPieces(state: JobState, operation: Operation): readonly (readonly Piece[])[] {
  const { feature, target } = operation;
  const takings = feature === null || target === null ? [] : takingsOf(state, feature, target.quantity);
  const last = takings.at(-1);
  if (last === undefined || last.off === null) return [sentence('two-readings-first')];
  if (last.off < 0) return [sentence('bigger-than-it-was')];
  const across = target?.quantity === 'diameter' || target?.quantity === 'hole' ? (['on-the-diameter'] as const) : [];
  const taken = sentence(
    'took-it',
    amount(last.off),
    ...across,
    comma,
    'give-or-take',
    amount(differenceOff(last.reading, takings.at(-2)?.reading ?? last.reading, state)),
  );
  return last.dialled === null ? [taken] : [taken, sentence('was-asked', amount(last.dialled))];
}
