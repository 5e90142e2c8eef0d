import { zero } from '../measure/index.ts';
import type { Operation } from '../route/index.ts';
import { dialStop } from '../setups/index.ts';
import { progressOf } from './fold.ts';
import { count, line, sentence, size, type Piece } from './reply.ts';
import type { JobState } from './state.ts';
import { machineOf } from './window.ts';

/**
 * The stop as a distance, and on the carriage dial: whole turns and what is over, or, where the dial was said not to stand at
 * nought, whole turns and what it then shows.
 */
export function stopPieces(state: JobState, operation: Operation): readonly (readonly Piece[])[] {
  if (operation.stop === null) return [sentence('no-stop-here')];
  const { from, distance } = operation.stop;
  const where = sentence('stop-at', size(distance), 'from', line(from));
  const dial = machineOf(state, operation)?.carriage ?? null;
  const starts = progressOf(state, operation.id).setUp.lengths.carriage ?? zero;
  if (dial === null || (distance < dial.perTurn && starts === zero)) return [where];
  const { turns, reads } = dialStop(distance, dial, starts);
  if (starts !== zero) {
    const whole =
      turns === 0 ? [] : [sentence(turns === 1 ? 'one-turn' : count(turns), ...(turns === 1 ? [] : (['turns'] as const)))];
    return [where, ...whole, sentence('then-on-to', size(reads))];
  }
  return [where, reads === 0 ? sentence(count(turns), 'turns') : sentence(count(turns), 'turn-and', size(reads))];
}
