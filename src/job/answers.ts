import { magnitude } from '../measure/index.ts';
import { ringOf } from '../part/index.ts';
import type { Clearances } from '../trade/index.ts';
import { CAUTIONS, type FitName, type Operation } from '../route/index.ts';
import { announcement, targetPieces } from './announce.ts';
import { advicePieces } from './advising.ts';
import { coachedAt } from './coaching.ts';
import { leftAt, nextCut, nextCutPieces } from './coach.ts';
import { coldReading } from './cold.ts';
import { told, type Decision, type Scene } from './decision.ts';
import { progressOf } from './fold.ts';
import { operationAfter } from './glance.ts';
import { inOrder } from './history.ts';
import type { Intent } from './intent.ts';
import { mateHere } from './mates.ts';
import { playPieces } from './playing.ts';
import { amount, bareAmount, count, line, sentence, size, type PhraseId, type Piece } from './reply.ts';
import { readBack } from './readings.ts';
import { stepNumber } from './stepNumber.ts';
import { stopPieces } from './stopping.ts';
import type { JobState } from './state.ts';
import { seatOf } from './seating.ts';
import { takenPieces } from './taken.ts';
import { anyLastReading, measuredMate, openOperation, windowOf } from './window.ts';

type Asking = Extract<
  Intent['type'],
  | 'where-am-i'
  | 'whats-next'
  | 'repeat'
  | 'ask-target'
  | 'ask-left'
  | 'ask-passes'
  | 'ask-dial'
  | 'ask-stop'
  | 'ask-speed'
  | 'ask-feed'
  | 'ask-last'
  | 'ask-taken'
  | 'ask-bore'
  | 'ask-fit'
  | 'ask-time'
  | 'ask-caution'
  | 'read-log'
>;

const FITS: Readonly<Record<FitName, PhraseId>> = {
  slide: 'slide-fit',
  run: 'run-fit',
  locate: 'locate-fit',
  tap: 'tap-fit',
  press: 'press-fit',
};

/** The most readings that are read aloud; the screen shows them all. */
const LOG_READ_ALOUD = 5;

/** Answers a question about the open operation. Changes nothing. */
export function answer(scene: Scene, asking: Asking): Decision {
  const operation = openOperation(scene.state);
  if (asking === 'repeat' && scene.talk.lastReply !== null) {
    const { lastReply } = scene.talk;
    return { outcome: 'done', reason: null, events: [], reply: { ...lastReply, tone: null }, talk: scene.talk, effect: null };
  }
  if (operation === null) return told(scene, sentence('all-done'));
  return told(scene, ...answerAbout(scene, operation, asking));
}

type Sentences = readonly (readonly Piece[])[];

function answerAbout(scene: Scene, operation: Operation, asking: Asking): Sentences {
  const { state } = scene;
  switch (asking) {
    case 'repeat':
      return [announcement(state, operation).pieces];
    case 'where-am-i': {
      const at = sentence('step', count(stepNumber(state, operation)), 'of', count(state.plan.route.operations.length));
      return [at, sentence(line(operation.say)), ...targetPieces(state, operation)];
    }
    case 'whats-next': {
      const next = operationAfter(state, operation);
      return next === null
        ? [sentence('last-one')]
        : [sentence('next-up'), sentence(line(next.say)), ...targetPieces(state, next)];
    }
    case 'ask-target':
      return targetAnswer(scene, operation);
    case 'ask-left':
      return leftAnswer(scene, operation);
    case 'ask-passes': {
      const instead = noCutHere(scene, operation);
      if (instead !== null) return instead;
      const cut = nextCut(state, operation);
      if (cut === null) return [sentence('nothing-left')];
      return [cut.passes === 1 ? sentence('one-pass') : sentence(count(cut.passes), 'passes')];
    }
    case 'ask-dial': {
      const bench = coachedAt(state, operation);
      if (bench !== null && bench.readings > 0) return advicePieces(bench);
      const cut = nextCut(state, operation);
      if (cut === null) return [sentence('nothing-to-dial')];
      return [nextCutPieces(cut)];
    }
    case 'ask-stop':
      return stopPieces(state, operation);
    case 'ask-speed':
      return [operation.cut === null ? sentence('no-speed-here') : sentence(count(operation.cut.speedRpm), 'rpm')];
    case 'ask-feed': {
      const feed = operation.cut?.feedPerTurn ?? null;
      return [feed === null ? sentence('no-feed-here') : sentence(amount(feed), 'a-turn')];
    }
    case 'ask-last': {
      const last = anyLastReading(state, operation);
      if (last === null) return [sentence('no-reading-yet')];
      return [sentence('last-reading', ...readBack(state, last.value, coldReading(state, last)))];
    }
    case 'ask-taken':
      return takenPieces(state, operation);
    case 'ask-bore':
      return boreAnswer(scene, operation);
    case 'ask-fit':
      return [...fitAnswer(state, operation), ...playPieces(state, operation)];
    case 'ask-time':
      return [sentence('about-minutes', count(Math.ceil(operation.minutes)))];
    case 'ask-caution':
      return [operation.caution === null ? sentence('no-caution-here') : sentence(line(CAUTIONS[operation.caution].say))];
    case 'read-log':
      return logAnswer(scene, operation);
  }
}

/** Where the coach advises no cut, what it advises stands for the passes: rounds of filing, or a reading. */
function noCutHere({ state }: Scene, operation: Operation): Sentences | null {
  const bench = coachedAt(state, operation);
  return bench !== null && bench.readings > 0 && bench.advice.kind !== 'cut' ? advicePieces(bench) : null;
}

function targetAnswer(scene: Scene, operation: Operation): Sentences {
  const window = windowOf(scene.state, operation);
  const pieces = targetPieces(scene.state, operation);
  if (window === null || pieces.length === 0) return [sentence('no-target-here')];
  const limit = operation.target?.quantity === 'indicator' ? amount : size;
  return window.low === window.high ? pieces : [...pieces, sentence(limit(window.low), 'to', limit(window.high))];
}

function leftAnswer(scene: Scene, operation: Operation): Sentences {
  const left = leftAt(scene.state, operation);
  if (left === null) return [sentence('no-target-here')];
  if (left.standing === 'in-window') return [sentence('at-size')];
  if (left.onPart <= 0) return [sentence('nothing-left')];
  const source = left.measured ? [] : [sentence('not-measured-yet'), sentence('from-the-plan')];
  const halved = left.onDial !== left.onPart;
  return [
    sentence(bareAmount(left.onPart), 'to-go', ...(halved ? (['on-the-diameter'] as const) : [])),
    ...(halved ? [sentence(amount(left.onDial), 'on-the-dial')] : []),
    ...source,
  ];
}

function boreAnswer(scene: Scene, operation: Operation): Sentences {
  const mate = mateHere(scene.state, operation);
  if (mate === null) return [sentence('which-mate')];
  const measured = measuredMate(scene.state, mate.id);
  if (measured === null)
    return [sentence(line(mate.say), size(mate.nominal)), sentence('not-measured-yet'), sentence('from-the-plan')];
  if (measured.least === measured.most) return [sentence(line(mate.say), size(measured.least))];
  return [sentence(line(mate.say), size(measured.least), 'to', size(measured.most))];
}

function fitAnswer(state: JobState, operation: Operation): Sentences {
  const fit = operation.target?.fit ?? null;
  if (fit === null) {
    const seat = seatOf(state, operation);
    return seat === null ? [sentence('no-fit-here')] : [sentence('seat-for-a-bearing'), clearancePieces(seat, false)];
  }
  const mate = state.plan.part.mates.find(({ id }) => id === fit.mate);
  // A part that is to slide or run and is still too big here is left so for the file.
  const forTheFile = fit.mostClearance <= 0 && (fit.name === 'slide' || fit.name === 'run');
  return [
    sentence(mate !== undefined && ringOf(mate) !== null ? 'seat-for-a-bearing' : FITS[fit.name]),
    clearancePieces({ least: fit.leastClearance, most: fit.mostClearance }, forTheFile),
  ];
}

/** Clearances as they are said: a negative one is interference, and of two such the smaller goes first. */
function clearancePieces({ least, most }: Clearances, forTheFile: boolean): readonly Piece[] {
  const [a, b] = [amount(magnitude(least)), amount(magnitude(most))];
  if (least < 0 && most > 0) return sentence(a, 'interference', 'to', b, 'clearance');
  if (most > 0) return sentence(a, 'to', b, 'clearance');
  return sentence(b, 'to', a, forTheFile ? 'over-the-bore' : 'interference');
}

function logAnswer(scene: Scene, operation: Operation): Sentences {
  const readings = inOrder(progressOf(scene.state, operation.id).readings);
  if (readings.length === 0) return [sentence('no-reading-yet')];
  const counted = readings.length === 1 ? sentence('one-reading') : sentence(count(readings.length), 'readings');
  return [counted, ...readings.slice(-LOG_READ_ALOUD).map((reading) => sentence(size(reading.value)))];
}
