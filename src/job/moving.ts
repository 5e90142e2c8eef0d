import type { Operation } from '../route/index.ts';
import { announcement } from './announce.ts';
import { asked, done, refused, refusedSaying, replyOf, type Decision, type Scene } from './decision.ts';
import type { EventBody } from './event.ts';
import { fold, nextSeq, progressOf } from './fold.ts';
import { sizeOf } from './history.ts';
import { count, question, sentence, type PhraseId, type Piece } from './reply.ts';
import type { JobState } from './state.ts';
import { directionOf, openOperation, sizeNow, standingOf, windowOf } from './window.ts';

type Leaving = Extract<EventBody, { type: 'OperationFinished' }>['standing'];

/** How an operation stands when it is left. A mate counts as measured once any reading of it was logged here. */
export function leavingOf(state: JobState, operation: Operation): Leaving {
  const target = operation.target;
  const window = windowOf(state, operation);
  if (target === null || window === null) return 'no-size';
  if (target.quantity === 'bore' || target.quantity === 'width')
    return sizeOf(progressOf(state, operation.id).readings) > 0 ? 'in-window' : 'not-measured';
  const now = sizeNow(state, operation);
  if (now === null) return 'not-measured';
  return standingOf(now, window, directionOf(target.quantity)) === 'in-window' ? 'in-window' : 'outside-window';
}

/** The state as it will be once these events are stored, for answers that speak of what comes after. */
export function afterwards(scene: Scene, bodies: readonly EventBody[]): JobState {
  return bodies.reduce(
    (state, body) => fold(state, { id: `provisional-${nextSeq(state)}`, seq: nextSeq(state), at: scene.now, v: 1, body }),
    scene.state,
  );
}

/** Does the moves, then says what is open now. */
function move(scene: Scene, moves: readonly EventBody[], first: readonly Piece[]): Decision {
  const state = afterwards(scene, moves);
  const operation = openOperation(state);
  if (operation === null) return done(moves, replyOf(scene, 'stored', first, sentence('last-one')));
  const opening = announcement(state, operation);
  return done([...moves, ...opening.events], replyOf(scene, 'stored', first, opening.pieces));
}

/** Leaves the open operation, finished or skipped; asks first where it was not measured or is out of its window. */
export function leave(scene: Scene, how: 'finish' | 'skip', sure: boolean): Decision {
  const operation = openOperation(scene.state);
  if (operation === null) return refused(scene, 'all-done');
  const standing = leavingOf(scene.state, operation);
  if (!sure && (standing === 'not-measured' || standing === 'outside-window')) {
    const why: PhraseId = standing === 'not-measured' ? 'no-reading-taken' : 'no-reading-in-the-window';
    return asked(scene, why, { about: 'leave', how, why: standing }, sentence(why), question('go-on-anyway'));
  }
  const leaving: EventBody =
    how === 'skip'
      ? { type: 'OperationSkipped', operation: operation.id }
      : { type: 'OperationFinished', operation: operation.id, standing };
  return move(scene, [leaving], how === 'skip' ? sentence('skipped') : []);
}

/** Opens the operation before the open one, or the last one when all are done. */
export function goBack(scene: Scene): Decision {
  const operations = scene.state.plan.route.operations;
  const at = operations.findIndex((operation) => operation.id === scene.state.open);
  const before = at === -1 ? operations.at(-1) : operations[at - 1];
  if (before === undefined) return refused(scene, 'already-first');
  return move(scene, [{ type: 'OperationOpened', operation: before.id }], sentence('back'));
}

/** Opens an operation by the step number that is shown and said. */
export function goTo(scene: Scene, step: number): Decision {
  const operations = scene.state.plan.route.operations;
  const wanted = operations[step - 1];
  if (wanted === undefined) {
    const last = sentence('steps-go-to', count(operations.length));
    return refusedSaying(scene, 'no-such-step', sentence('no-such-step', count(step)), last);
  }
  return move(scene, [{ type: 'OperationOpened', operation: wanted.id }], []);
}

/** Says again what is open, for the start of a job and of a session; gives its caution when that is due. */
export function opening(scene: Scene): Decision {
  return move(scene, [], []);
}
