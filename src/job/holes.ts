import type { Operation } from '../route/index.ts';
import { holesOf, pitchOf, type HolePattern } from '../setups/index.ts';
import { done, refused, replyOf, type Decision, type Scene } from './decision.ts';
import { progressOf } from './fold.ts';
import { comma, count, line, question, sentence, size, type Piece } from './reply.ts';
import type { JobState } from './state.ts';
import { openOperation } from './window.ts';

type Sentences = readonly (readonly Piece[])[];

/** The holes of an operation: a pattern that was said, else its own coordinates; null where it has neither. */
export function holesHere(
  state: JobState,
  operation: Operation,
): { readonly pattern: HolePattern | null; readonly holes: number } | null {
  const { pattern, lengths, counts, firstAngle } = progressOf(state, operation.id).setUp;
  const pitch = pattern === null ? undefined : lengths[pattern];
  if (pattern !== null && pitch !== undefined && counts.holes !== undefined)
    return { pattern: { shape: pattern, size: pitch, holes: counts.holes, first: firstAngle }, holes: counts.holes };
  return operation.coordinates.length === 0 || pattern !== null ? null : { pattern: null, holes: operation.coordinates.length };
}

/** What to say of the pattern now: what is still to be told, or the hole that it stands at. */
export function patternNext(state: JobState, operation: Operation): Sentences {
  const { pattern, counts } = progressOf(state, operation.id).setUp;
  if (pattern !== null && counts.holes === undefined) return [question('how-many-holes')];
  const here = holesHere(state, operation);
  if (here === null) return [sentence('no-holes-here')];
  const chord = here.pattern === null || (counts.hole ?? 1) > 1 ? null : pitchOf(here.pattern);
  return [...(chord === null ? [] : [sentence('hole-to-hole', size(chord))]), holeAt(state, operation, counts.hole ?? 1)];
}

function holeAt(state: JobState, operation: Operation, hole: number): readonly Piece[] {
  const here = holesHere(state, operation);
  if (here === null) return sentence('no-holes-here');
  if (here.pattern === null) {
    const place = operation.coordinates[hole - 1];
    return place === undefined
      ? sentence('no-such-hole')
      : sentence(line(place.at), comma, 'ex', size(place.x), comma, 'why-axis', size(place.y));
  }
  const at = holesOf(here.pattern)[hole - 1];
  return at === undefined
    ? sentence('no-such-hole')
    : sentence('hole', count(hole), comma, 'ex', size(at.x), comma, 'why-axis', size(at.y));
}

/** Goes to the hole after the one that was read out, or says that there are no more. */
export function nextHole(scene: Scene): Decision {
  const operation = openOperation(scene.state);
  if (operation === null) return refused(scene, 'all-done');
  const { counts, pattern } = progressOf(scene.state, operation.id).setUp;
  const here = holesHere(scene.state, operation);
  if (here === null)
    return done([], replyOf(scene, null, pattern === null ? sentence('no-holes-here') : question('how-many-holes')));
  // The coordinates of a plan have not been read out at all before the first "next hole".
  const hole = counts.hole === undefined ? 1 : counts.hole + 1;
  if (hole > here.holes) return done([], replyOf(scene, null, sentence('last-hole')));
  return done(
    [{ type: 'SetUpCounted', operation: operation.id, what: 'hole', count: hole }],
    replyOf(scene, 'stored', holeAt(scene.state, operation, hole)),
  );
}
