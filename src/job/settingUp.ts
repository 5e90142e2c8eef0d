import type { Length } from '../measure/index.ts';
import type { Operation } from '../route/index.ts';
import { adviceSentences, jawAdvice } from './dialling.ts';
import { done, refused, replyOf, told, type Decision, type Scene } from './decision.ts';
import type { EventBody } from './event.ts';
import { progressOf } from './fold.ts';
import { patternNext } from './holes.ts';
import { afterwards } from './moving.ts';
import { packingPieces } from './packing.ts';
import { count, sentence, size, type PhraseId, type Piece } from './reply.ts';
import { setUpPrompt } from './setUpPrompt.ts';
import type { SetUpCount, SetUpLength } from './setUpLog.ts';
import { stopPieces } from './stopping.ts';
import { spotNext } from './spotting.ts';
import type { JobState } from './state.ts';
import { tapNext } from './tapping.ts';
import { taperNext } from './tapering.ts';
import { openOperation } from './window.ts';

type Sentences = readonly (readonly Piece[])[];

/** So few readings tell a high spot, and more than so many are a slip of the tongue (ours). */
const FEWEST_READINGS = 3;
const MOST_READINGS = 36;

/** A whole number for the set-up: what it was taken for, and what comes next. */
export function setUpCounted(scene: Scene, what: SetUpCount, value: number): Decision {
  const operation = openOperation(scene.state);
  if (operation === null) return refused(scene, 'all-done');
  const possible =
    what === 'degrees' ? value <= 360 : what === 'readings' ? value >= FEWEST_READINGS && value <= MOST_READINGS : value >= 1;
  if (!possible) return refused(scene, 'outside-everything');
  const body: EventBody = { type: 'SetUpCounted', operation: operation.id, what, count: value };
  const state = afterwards(scene, [body]);
  return done([body], replyOf(scene, 'stored', ...countedReply(state, operation, what, value)));
}

function countedReply(state: JobState, operation: Operation, what: SetUpCount, value: number): Sentences {
  const { pattern } = progressOf(state, operation.id).setUp;
  switch (what) {
    case 'degrees':
      return pattern === null
        ? [sentence('at', count(value)), sentence('read-it-here')]
        : [sentence('first-hole-at', count(value)), ...patternNext(state, operation)];
    case 'readings':
      return [sentence(count(value), 'readings'), sentence('read-it-here')];
    case 'holes':
    case 'hole':
      return patternNext(state, operation);
    case 'turns':
      return [sentence(count(value), 'turns-done'), ...tapNext(state, operation)];
  }
}

const NAMES: Readonly<Partial<Record<SetUpLength, PhraseId>>> = {
  finder: 'finder',
  circle: 'bolt-circle',
  line: 'line-of-holes',
  bar: 'bar',
  packing: 'packing-piece',
  carriage: 'carriage-dial',
};

/** A length for the set-up: read back, and what comes next. */
export function setUpGiven(scene: Scene, what: SetUpLength, length: Length): Decision {
  const operation = openOperation(scene.state);
  if (operation === null) return refused(scene, 'all-done');
  if (length < 0 || (length === 0 && what !== 'carriage')) return refused(scene, 'outside-everything');
  const body: EventBody = { type: 'SetUpGiven', operation: operation.id, what, length };
  const state = afterwards(scene, [body]);
  const name = NAMES[what];
  const said = name === undefined ? sentence(size(length)) : sentence(name, size(length));
  return done([body], replyOf(scene, 'stored', said, ...givenReply(state, operation, what)));
}

function givenReply(state: JobState, operation: Operation, what: SetUpLength): Sentences {
  switch (what) {
    case 'finder':
      return [];
    case 'circle':
    case 'line':
      return patternNext(state, operation);
    case 'large':
    case 'small':
    case 'over':
    case 'work':
      return taperNext(state, operation);
    case 'carriage':
      return stopPieces(state, operation);
    case 'bar':
    case 'packing':
      return packingPieces(state, operation);
  }
}

/** What to do next about the set-up of the open operation. Changes nothing. */
export function setUpAnswer(scene: Scene): Decision {
  const operation = openOperation(scene.state);
  if (operation === null) return refused(scene, 'all-done');
  const { setUp } = progressOf(scene.state, operation.id);
  if (setUp.pattern !== null) return told(scene, ...patternNext(scene.state, operation));
  if (setUp.chuck.length > 0) return told(scene, ...adviceSentences(jawAdvice(scene.state, operation)));
  if (setUp.spots.length > 0) return told(scene, ...spotNext(scene.state, operation));
  if (setUp.counts.turns !== undefined) return told(scene, ...tapNext(scene.state, operation));
  if (setUp.lengths.large !== undefined) return told(scene, ...taperNext(scene.state, operation));
  const prompt = setUpPrompt(scene.state, operation);
  return told(scene, ...(prompt.length === 0 ? [sentence('no-set-up-here')] : prompt));
}
