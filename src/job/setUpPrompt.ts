import type { Operation } from '../route/index.ts';
import { progressOf } from './fold.ts';
import { downward } from './history.ts';
import { sentence, type PhraseId, type Piece } from './reply.ts';
import type { JobState } from './state.ts';
import { isPacked, packingPieces } from './packing.ts';
import { taperHere, taperNext } from './tapering.ts';
import { tapHere, tapStart } from './tapping.ts';

/** What a set-up operation begins with, said when it is opened; nothing for the others. */
export function setUpPrompt(state: JobState, operation: Operation): readonly (readonly Piece[])[] {
  switch (operation.kind) {
    case 'dial-in':
      return isPacked(state, operation) ? packingPieces(state, operation) : [sentence('read-all-four')];
    case 'find-high-spot':
      return [sentence('read-it-here')];
    case 'find-edge':
      return [sentence('touch-the-end')];
    case 'taper':
      return taperHere(state, operation) === null ? [] : taperNext(state, operation);
    case 'tap': {
      const plan = tapHere(state, operation);
      return plan === null ? [] : [tapStart(plan)];
    }
    case 'measure-mate':
    case 'grip':
    case 'face':
    case 'centre':
    case 'rough':
    case 'finish':
    case 'file':
    case 'part-off':
    case 'offset':
    case 'drill':
    case 'thread':
    case 'groove':
    case 'chamfer':
    case 'length':
    case 'mill':
    case 'deburr':
    case 'try-fit':
    case 'bore':
    case 'fillet':
    case 'assemble':
      return [];
  }
}

/** A packing piece was spoken of here after the jaws were read, or instead of them. */
function packingSaidLast({ log, struck }: JobState, { id }: Operation): boolean {
  for (const { id: event, body } of downward(log)) {
    if (struck.has(event)) continue;
    if (body.type === 'JawRead' && body.operation === id) return false;
    if (body.type === 'SetUpGiven' && body.operation === id && (body.what === 'packing' || body.what === 'bar')) return true;
  }
  return false;
}

/** Why a set-up is done as it is told, in one sentence; null where the operation is none. */
export function setUpWhy(state: JobState, operation: Operation): PhraseId | null {
  const { pattern, lengths } = progressOf(state, operation.id).setUp;
  if (pattern === 'circle') return 'why-circle';
  if (operation.kind === 'dial-in')
    return isPacked(state, operation) || packingSaidLast(state, operation) ? 'why-packing' : 'why-four-jaw';
  if (operation.kind === 'find-high-spot') return 'why-high-spot';
  if (operation.kind === 'find-edge') return 'why-edge';
  if (operation.kind === 'tap') return 'why-tap';
  if (operation.kind !== 'taper' && lengths.large === undefined) return null;
  return lengths.work === undefined ? 'why-taper' : 'why-set-over';
}
