import { budgetOf } from '../coach/index.ts';
import { magnitude, roundedTo, thou, type Length } from '../measure/index.ts';
import type { Operation } from '../route/index.ts';
import { asLength } from '../trade/index.ts';
import { amount, comma, sentence, type Piece } from './reply.ts';
import type { JobState, Reading } from './state.ts';
import { takingsOf } from './takings.ts';

/**
 * What the last cut or filing really took, by the two readings round it, against what was dialled where that was said. With one
 * instrument its lasting error falls out of the difference: U = 2·√2 times what passes (GUM 5.1.2, k = 2).
 */
export function takenPieces(state: JobState, operation: Operation): readonly (readonly Piece[])[] {
  const { feature, target } = operation;
  const takings = feature === null || target === null ? [] : takingsOf(state, feature, target.quantity);
  const last = takings.at(-1);
  if (last === undefined || last.off === null) return [sentence('two-readings-first')];
  const across = target?.quantity === 'diameter' || target?.quantity === 'hole' ? (['on-the-diameter'] as const) : [];
  const taken = sentence(
    'took-it',
    amount(magnitude(last.off)),
    ...across,
    comma,
    'give-or-take',
    amount(doubtOf(last.reading, takings.at(-2)?.reading ?? last.reading)),
  );
  return last.dialled === null ? [taken] : [taken, sentence('was-asked', amount(last.dialled))];
}

/** What the difference of two readings may be off, rounded up to a tenth. */
function doubtOf(one: Reading, other: Reading): Length {
  const [a, b] = [budgetOf(one.instrument, one.value), budgetOf(other.instrument, other.value)];
  const lasting = one.instrument === other.instrument ? 0 : Math.hypot(a.lasting, b.lasting);
  return roundedTo(asLength(2 * Math.hypot(a.passing, b.passing, lasting), 'ceiling'), thou(0.1), 'ceiling');
}
