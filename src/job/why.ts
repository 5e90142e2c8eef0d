import { refused, told, type Decision, type Scene } from './decision.ts';
import { SLIP_WHY, whyOf } from './advising.ts';
import { leftAt } from './coach.ts';
import { coachedAt, contradictionOf } from './coaching.ts';
import { progressOf } from './fold.ts';
import { mateHere } from './mates.ts';
import { line, sentence, type PhraseId } from './reply.ts';
import { setUpWhy } from './setUpPrompt.ts';
import type { JobState } from './state.ts';
import type { Doubt, Question } from './talk.ts';
import { lastReading, measuredMate, openOperation } from './window.ts';
import type { Operation } from '../route/index.ts';

/** Why a reading is asked about; what contradicts the cuts has the reason of its likely slip. */
const DOUBT_WHY: Readonly<Record<Exclude<Doubt, 'contradicts-the-cuts'>, PhraseId>> = {
  'bigger-than-it-was': 'why-bigger',
  'far-from-the-last': 'why-far-from-last',
  'outside-the-stock': 'why-outside-stock',
  'far-from-the-target': 'why-far-from-target',
  'under-the-low-limit': 'why-past-limit',
  'past-the-high-limit': 'why-past-limit',
};

/** Why a reading that waits for its yes is asked about. */
function questionWhy(state: JobState, operation: Operation, question: Question): PhraseId | null {
  if (question.about !== 'sure') return null;
  const { doubt, value, intent } = question;
  if (doubt !== 'contradicts-the-cuts') return DOUBT_WHY[doubt];
  const contradiction = contradictionOf(state, operation, value, intent.instrument ?? operation.instrument, intent.place);
  return contradiction === null ? null : SLIP_WHY[contradiction.surprise.slip];
}

/** Why a reading came out or a cut is told as it was, where the coach has no say: a warm mate, the play, passes of the plan. */
function readWhy(state: JobState, operation: Operation): PhraseId | null {
  if (operation.kind === 'measure-mate') return progressOf(state, operation.id).celsius === null ? null : 'why-cold';
  if (lastReading(state, operation) === null) return null;
  const mate = operation.target?.quantity === 'length' ? mateHere(state, operation) : null;
  if (mate !== null && measuredMate(state, mate.id) !== null) return 'why-play';
  return leftAt(state, operation)?.standing === 'more-to-take' ? 'why-equal-passes' : null;
}

/**
 * The reason for what was told last, in one sentence: of what is asked about a reading, else of the coach, of the set-up, of the
 * last reading, of the plan. Changes nothing.
 */
export function whyAnswer(scene: Scene): Decision {
  const { state, talk } = scene;
  const operation = openOperation(state);
  if (operation === null) return refused(scene, 'all-done');
  const asked = talk.question === null ? null : questionWhy(state, operation, talk.question);
  if (asked !== null) return told(scene, sentence(asked));
  const bench = coachedAt(state, operation);
  if (bench !== null && bench.readings > 0) return told(scene, sentence(whyOf(bench)));
  const setUp = setUpWhy(state, operation) ?? readWhy(state, operation);
  if (setUp !== null) return told(scene, sentence(setUp));
  const [planned] = operation.why;
  if (planned !== undefined) return told(scene, sentence(line(planned)));
  return told(scene, sentence(operation.kind === 'measure-mate' ? 'why-measure-mate' : 'no-reason-here'));
}
