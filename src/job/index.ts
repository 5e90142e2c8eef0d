export type { Feel, Heard, Intent, IntentType, NumberRefusal, Place, Thing, Working } from './intent.ts';
export type { Context, NumberSlot } from './context.ts';
export {
  amount,
  bareAmount,
  comma,
  count,
  line,
  PHRASES,
  question,
  sentence,
  size,
  type PhraseId,
  type Piece,
  type Reply,
  type Tone,
} from './reply.ts';
export { planSchema, type Plan } from './plan.ts';
export { eventBodySchema, jobEventSchema, type EventBody, type EventType, type JobEvent } from './event.ts';
export { downward, inOrder, newest, sizeOf, type History } from './history.ts';
export { fold, folded, initialState, nextSeq, progressOf, standingReadings } from './fold.ts';
export { doneIn, editOf } from './editing.ts';
export { remadeFrom, type Remade } from './remaking.ts';
export type { JobState, OperationStatus, Progress, Reading, RouteEditing } from './state.ts';
export { stepNumber } from './stepNumber.ts';
export { instrumentsHere, machineOf, mayBeOff, measuredMate, openOperation, sizeNow, windowOf, type Standing } from './window.ts';
export { leftAt, nextCut, type Left, type NextCut } from './coach.ts';
export { glance, glanceAt, routeProgress, type CoachGlance, type Glance } from './glance.ts';
export { silence, type Doubt, type Question, type Talk } from './talk.ts';
export { announcement } from './announce.ts';
export { contextOf } from './contextOf.ts';
export { decide } from './decide.ts';
export { setUpView, type SetUpView } from './setUpView.ts';
export { NOTHING_SET_UP, type SetUpCount, type SetUpLength, type SetUpLog } from './setUpLog.ts';
export { replyOf, type AskKey, type Decision, type Effect, type RefusalKey, type Scene } from './decision.ts';
export {
  deviationsOf,
  historiesOf,
  madeFits,
  resultsOf,
  type Deviation,
  type MadeFit,
  type Result,
  type TakenRow,
} from './made.ts';
export { mateHere } from './mates.ts';
export { takingsOf, type Taking } from './takings.ts';
export { opening } from './moving.ts';
