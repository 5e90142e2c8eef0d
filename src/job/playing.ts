import { expandedUncertainty, faceFor, playOf, type StackLength } from '../coach/index.ts';
import { micrometres, NM_PER_THOU, nanometres, roundedTo, thou } from '../measure/index.ts';
import type { Operation } from '../route/index.ts';
import { asLength } from '../trade/index.ts';
import { coldReading } from './cold.ts';
import { mateHere } from './mates.ts';
import { amount, comma, line, sentence, type Piece } from './reply.ts';
import type { JobState } from './state.ts';
import { instrumentsHere, lastReading, measuredMate } from './window.ts';

/** A mate of another machine is not faced by more than this without a thought: 20 thou. Common practice, no source. */
const OFF_A_MATE = nanometres(20 * NM_PER_THOU);

/**
 * The end play from the lengths that were really read: the length of the part that makes the room, the mate that fills it;
 * and the face to take where it is not what is wanted. Nothing before both are read.
 */
export function playPieces(state: JobState, operation: Operation): readonly (readonly Piece[])[] {
  const { target } = operation;
  const mate = mateHere(state, operation);
  const read = lastReading(state, operation);
  const measured = mate === null ? null : measuredMate(state, mate.id);
  if (target?.quantity !== 'length' || target.fit === null || mate === null || read === null || measured === null) return [];
  const length = coldReading(state, read);
  const spreadOf = (instrument: typeof read.instrument): number =>
    expandedUncertainty(instrument, read.value, 1, instrumentsHere(state)) / 2;
  const stack: readonly StackLength[] = [
    { name: 'end', read: length, spread: spreadOf(read.instrument), direction: 'makes-room', toFace: length },
    { name: mate.say, read: measured.most, spread: spreadOf(measured.instrument), direction: 'fills-room', toFace: OFF_A_MATE },
  ];
  const { mean, spread } = playOf(stack);
  const tenth = state.plan.part.unit === 'inch' ? thou(0.1) : micrometres(10);
  const play = roundedTo(asLength(Math.max(mean, 0), 'half-even'), tenth, 'half-even');
  const told = sentence(
    'end-play',
    amount(play),
    comma,
    'give-or-take',
    amount(roundedTo(asLength(2 * spread, 'ceiling'), tenth, 'ceiling')),
  );
  const advice = faceFor(stack, { least: target.fit.leastClearance, most: target.fit.mostClearance });
  switch (advice.kind) {
    case 'right':
      return [told];
    case 'out-of-reach':
      return [told, sentence(amount(roundedTo(advice.short, tenth, 'half-even')), 'more-than-the-faces-give')];
    case 'face':
      return [
        told,
        ...advice.faces.map(({ name, by }) => sentence('take', amount(roundedTo(by, tenth, 'half-even')), 'off-the', line(name))),
      ];
    case 'read-again':
      return [told, sentence('measure-again', comma, line(advice.name))];
  }
}
