import {
  asDiameter,
  dividedBy,
  inches,
  magnitude,
  millimetres,
  minus,
  thou,
  type Diameter,
  type Length,
} from '../measure/index.ts';
import type { Operation } from '../route/index.ts';
import { acrossEdges, inFromEnd } from '../setups/index.ts';
import { done, refused, replyOf, type Decision, type Scene } from './decision.ts';
import type { EventBody } from './event.ts';
import { diameterNow, lengthOf, turnedOf } from './featureOf.ts';
import { progressOf } from './fold.ts';
import { afterwards } from './moving.ts';
import { comma, sentence, size, type Piece } from './reply.ts';
import type { JobState } from './state.ts';
import { openOperation } from './window.ts';

type Sentences = readonly (readonly Piece[])[];

/** A width found this far from the feature's own says that the finder, or an edge, was not what it was taken for (ours). */
const WIDTH_OFF: Length = thou(5);

/** The tip of the finder in use: the one that was said, else the usual one of its unit (common practice, no source). */
export function finderTip(state: JobState, operation: Operation): Diameter {
  const said = progressOf(state, operation.id).setUp.lengths.finder;
  return asDiameter(said ?? (state.plan.part.unit === 'inch' ? inches(0.2) : millimetres(10)));
}

/** What is milled next into the feature whose edges are found, and how far from its end its middle lies. */
export function milledHere(state: JobState, operation: Operation): { readonly name: string; readonly fromEnd: Length } | null {
  const feature = turnedOf(state, operation);
  const milled = state.plan.part.milled.find((candidate) => candidate.on === feature?.id);
  if (feature === null || milled === undefined) return null;
  // A feature that is along so far from the left shoulder is the rest of the length from the right one; with none said it
  // is in the middle.
  return { name: milled.name, fromEnd: milled.along ?? dividedBy(lengthOf(feature), 2, 'half-even') };
}

/**
 * An edge by the readout, with half the finder; an end, with how far in the feature lies; two sides, with their middle
 * and width.
 */
export function edgeFound(scene: Scene, edge: 'first' | 'other' | 'end', coordinate: Length): Decision {
  const operation = openOperation(scene.state);
  if (operation === null) return refused(scene, 'all-done');
  const body: EventBody = { type: 'EdgeFound', operation: operation.id, edge, coordinate };
  const state = afterwards(scene, [body]);
  const tip = finderTip(state, operation);
  if (edge === 'end')
    return done([body], replyOf(scene, 'stored', sentence('end-at', size(coordinate)), ...inFrom(state, operation, tip)));
  const said = sentence(edge === 'first' ? 'edge-at' : 'other-edge-at', size(coordinate));
  const { first, other } = progressOf(state, operation.id).edges;
  if (first === null || other === null)
    return done(
      [body],
      replyOf(scene, 'stored', said, sentence('in', size(dividedBy(tip, 2, 'half-even')), comma, 'over-the-edge')),
    );
  const { centre, width } = acrossEdges(first, other, tip, 'outside');
  return done(
    [body],
    replyOf(
      scene,
      'stored',
      said,
      sentence('centre-at', size(centre), comma, 'width', size(width)),
      ...oddWidth(state, operation, width),
    ),
  );
}

function inFrom(state: JobState, operation: Operation, tip: Diameter): Sentences {
  const milled = milledHere(state, operation);
  const edge = sentence('in', size(dividedBy(tip, 2, 'half-even')), comma, 'over-the-end');
  if (milled === null) return [edge];
  return [edge, sentence('in', size(inFromEnd(tip, milled.fromEnd)), comma, 'over-its-middle')];
}

/** A width that is not the feature's: said, since the finder is the likeliest reason. */
function oddWidth(state: JobState, operation: Operation, width: Length): Sentences {
  const feature = turnedOf(state, operation);
  const across = feature === null ? null : diameterNow(state, feature);
  if (across === null || magnitude(minus<Length>(width, across)) <= WIDTH_OFF) return [];
  return [sentence('should-be', size(across)), sentence('check-the-finder')];
}
