import type { Length } from '../measure/index.ts';
import { CAUTIONS, type Operation, type Target } from '../route/index.ts';
import type { EventBody } from './event.ts';
import { progressOf } from './fold.ts';
import { stepNumber } from './stepNumber.ts';
import { bareAmount, count, line, sentence, size, type Piece } from './reply.ts';
import { setUpPrompt } from './setUpPrompt.ts';
import type { JobState } from './state.ts';
import { windowOf } from './window.ts';

/** The size wanted, as it is said: an indicator reading is an amount, a mate has no size to make. */
export function targetPieces(state: JobState, operation: Operation): readonly (readonly Piece[])[] {
  const window = windowOf(state, operation);
  if (operation.target === null || window === null) return [];
  switch (operation.target.quantity) {
    case 'diameter':
    case 'length':
    case 'depth':
    case 'hole':
      return [targetSentence(operation.target, window.aim)];
    case 'indicator':
      return [sentence('target', bareAmount(window.aim), 'on-the-indicator')];
    case 'bore':
    case 'width':
      return [];
  }
}

/** A size to make, and what a length is counted from where that has a name. */
const targetSentence = ({ datum }: Target, aim: Length): readonly Piece[] =>
  datum === null ? sentence('target', size(aim)) : sentence('target', size(aim), 'from', line(datum));

/** What is said when an operation is opened, and the event that its caution was given, the first time. */
export function announcement(
  state: JobState,
  operation: Operation,
): { readonly pieces: readonly Piece[]; readonly events: readonly EventBody[] } {
  const due = operation.caution !== null && !progressOf(state, operation.id).cautioned ? operation.caution : null;
  const pieces = [
    sentence('step', count(stepNumber(state, operation))),
    sentence(line(operation.say)),
    ...targetPieces(state, operation),
    ...setUpPrompt(state, operation),
    ...(due === null ? [] : [sentence(line(CAUTIONS[due].say))]),
  ];
  return { pieces: pieces.flat(), events: due === null ? [] : [{ type: 'CautionGiven', operation: operation.id }] };
}
