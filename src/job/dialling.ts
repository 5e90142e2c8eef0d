import { dividedBy, magnitude, micrometres, minus, plus, thou, times, zero, type Length } from '../measure/index.ts';
import type { Operation } from '../route/index.ts';
import { dialIn, type Jaw, type JawAdvice, type JawAim } from '../setups/index.ts';
import { done, refused, replyOf, type Decision, type Scene } from './decision.ts';
import type { EventBody } from './event.ts';
import { progressOf } from './fold.ts';
import type { Intent } from './intent.ts';
import { throwOf } from './featureOf.ts';
import { afterwards } from './moving.ts';
import { amount, bareAmount, comma, count, sentence, type Piece } from './reply.ts';
import type { JobState } from './state.ts';
import { openOperation, windowOf } from './window.ts';

type Sentences = readonly (readonly Piece[])[];

/** Work that is to run true is let off with a thou on the indicator, or two hundredths (common practice, no source). */
const TRUE_WITHIN = { inch: thou(1), millimetre: micrometres(20) } as const;

/** What an amount on the indicator is said to: half a thou, or a hundredth. */
const STEP = { inch: thou(0.5), millimetre: micrometres(10) } as const;

/** A high spot may be off by so much at each end. */
const SPOT_WITHIN = { inch: thou(2), millimetre: micrometres(50) } as const;

/** What the indicator is to show at an operation: its own window, or nothing where it has none. */
export function jawAim(state: JobState, operation: Operation): JawAim {
  const { unit } = state.plan.part;
  const step = STEP[unit];
  const window = operation.target?.quantity === 'indicator' ? windowOf(state, operation) : null;
  return window === null ? { low: zero, aim: zero, high: TRUE_WITHIN[unit], step } : { ...window, step };
}

/** The advice that stands at an operation, from its jaw readings; to read all four before there are any. */
export const jawAdvice = (state: JobState, operation: Operation): JawAdvice =>
  dialIn(progressOf(state, operation.id).setUp.chuck, jawAim(state, operation)).advice;

const list = (jaws: readonly Jaw[]): readonly Piece[] => {
  const [first, second] = jaws;
  if (first === undefined || jaws.length > 2) return sentence('read-all-four');
  return second === undefined ? sentence('now-jaw', count(first)) : sentence('now-jaws', count(first), 'and', count(second));
};

/** The advice in words: "Loosen two, tighten four, eight thou." */
export function adviceSentences(advice: JawAdvice): Sentences {
  switch (advice.next) {
    case 'read':
      return [list(advice.jaws)];
    case 'move': {
      const { loosen, tighten, amount: by } = advice.move;
      return [sentence('loosen', count(loosen), comma, 'tighten', count(tighten), comma, amount(by))];
    }
    case 'sweep':
      return [sentence('jaws-are-right'), sentence('sweep-it')];
    case 'done':
      return [sentence('that-is-it')];
  }
}

/** A jaw was read: what it showed, and the next thing to do. */
export function jawRead(scene: Scene, jaw: Jaw, indicator: Length): Decision {
  const operation = openOperation(scene.state);
  if (operation === null) return refused(scene, 'all-done');
  const body: EventBody = { type: 'JawRead', operation: operation.id, jaw, indicator };
  const advice = jawAdvice(afterwards(scene, [body]), operation);
  return done(
    [body],
    replyOf(scene, 'stored', sentence('jaw', count(jaw), comma, bareAmount(indicator)), ...adviceSentences(advice)),
  );
}

/** Low or high in a turn of the spindle; with both, the range, the throw, and whether that is what is wanted. */
export function indicatorRead(scene: Scene, intent: Extract<Intent, { type: 'indicator' }>, indicator: Length): Decision {
  const operation = openOperation(scene.state);
  if (operation === null) return refused(scene, 'all-done');
  const body: EventBody = { type: 'IndicatorRead', operation: operation.id, end: intent.end, indicator };
  const after = afterwards(scene, [body]);
  const { low, high } = progressOf(after, operation.id).indicator;
  const said = sentence(intent.end, bareAmount(indicator));
  if (low === null || high === null)
    return done([body], replyOf(scene, 'stored', said, sentence(intent.end === 'low' ? 'now-the-high' : 'now-the-low')));
  const total = magnitude(minus(high, low));
  const wanted = operation.kind === 'dial-in' ? jawAim(scene.state, operation) : spotAim(scene.state, operation);
  const shown = [sentence('total', bareAmount(total), comma, 'throw', bareAmount(dividedBy(total, 2, 'half-even')))];
  if (wanted === null) return done([body], replyOf(scene, 'stored', said, ...shown));
  const inside = total >= wanted.low && total <= wanted.high;
  const advice = operation.kind === 'dial-in' ? jawAdvice(after, operation) : null;
  // Just inside by this turn alone may be just outside: the jaws read before it have their say (`dialIn`).
  const well = magnitude(minus(total, wanted.aim)) * 2 <= minus(wanted.high, wanted.aim);
  const there = inside && (well || advice === null || advice.next === 'done' || !jawsKnown(after, operation));
  const verdict = there ? sentence('that-is-it') : inside ? sentence('only-just') : offBy(total, wanted);
  const again = there || advice === null ? [] : adviceSentences(advice);
  return done([body], replyOf(scene, there ? 'at-size' : 'stored', said, ...shown, verdict, ...again));
}

/** Jaws were read here: low and high are not all that is known. */
const jawsKnown = (state: JobState, operation: Operation): boolean =>
  progressOf(state, operation.id).setUp.chuck.some((reading) => 'jaw' in reading);

const offBy = (total: Length, { aim }: JawAim): readonly Piece[] =>
  total > aim ? sentence(amount(minus(total, aim)), 'too-much') : sentence(amount(minus(aim, total)), 'short');

/**
 * At a high spot, the indicator shows twice the throw of the feature, give or take a little at each end; null where it has
 * none.
 */
function spotAim(state: JobState, operation: Operation): JawAim | null {
  const offset = throwOf(state, operation);
  if (offset === null) return null;
  const { unit } = state.plan.part;
  const aim = times(offset, 2);
  return { low: minus(aim, SPOT_WITHIN[unit]), aim, high: plus(aim, SPOT_WITHIN[unit]), step: STEP[unit] };
}
