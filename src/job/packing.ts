import { asDiameter, magnitude, micrometres, minus, roundedTo, thou, type Diameter, type Length } from '../measure/index.ts';
import type { Operation } from '../route/index.ts';
import { packingAgain, packingFor } from '../setups/index.ts';
import { refused, told, type Decision, type Scene } from './decision.ts';
import { throwOf } from './featureOf.ts';
import { progressOf } from './fold.ts';
import { sentence, size, type Piece } from './reply.ts';
import type { JobState } from './state.ts';
import { openOperation } from './window.ts';

/** The throw is set by a packing piece under one jaw of three: the plan says so of the holding. */
export function isPacked(state: JobState, operation: Operation): boolean {
  const setup = state.plan.route.setups.find(({ id }) => id === operation.setup);
  return operation.kind === 'dial-in' && /packing piece/i.test(setup?.holding ?? '');
}

/** The bar that is packed out: the one that was said, else the stock. */
const barHere = (state: JobState, operation: Operation): Diameter =>
  asDiameter(progressOf(state, operation.id).setUp.lengths.bar ?? state.plan.part.stock.size);

/** A packing piece is made to the thou or the hundredth; more is not worth saying. */
const near = (state: JobState, packing: Length): Length =>
  roundedTo(packing, state.plan.part.unit === 'inch' ? thou(1) : micrometres(10), 'half-even');

/** The packing piece for the throw here; where one was made and low and high are read with it, the one to make instead. */
export function packingPieces(state: JobState, operation: Operation): readonly (readonly Piece[])[] {
  const offset = throwOf(state, operation);
  if (offset === null) return [sentence('no-throw-here')];
  const bar = barHere(state, operation);
  // Beyond this throw no packing piece holds the bar: trade.md, section 5.
  if (bar * bar <= 3 * offset * offset) return [sentence('throw-too-big')];
  const { setUp, indicator } = progressOf(state, operation.id);
  const made = setUp.lengths.packing;
  if (made === undefined || indicator.low === null || indicator.high === null)
    return [sentence('packing-piece', size(near(state, packingFor(bar, offset, 'point'))), 'under-one-jaw')];
  const range: Length = magnitude(minus(indicator.high, indicator.low));
  const again = near(state, packingAgain(bar, made, offset, range));
  return [again === near(state, made) ? sentence('that-is-it') : sentence('packing-should-be', size(again))];
}

export function packingAnswer(scene: Scene): Decision {
  const operation = openOperation(scene.state);
  return operation === null ? refused(scene, 'all-done') : told(scene, ...packingPieces(scene.state, operation));
}
