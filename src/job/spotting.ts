import { magnitude, minus, roundReal, thou, type Length } from '../measure/index.ts';
import type { Operation } from '../route/index.ts';
import { highSpotOf, turnFrom, type HighSpot } from '../setups/index.ts';
import { done, refused, replyOf, type Decision, type Scene } from './decision.ts';
import type { EventBody } from './event.ts';
import { radiusNow, throwOf, turnedOf } from './featureOf.ts';
import { progressOf } from './fold.ts';
import { afterwards } from './moving.ts';
import { bareAmount, comma, count, line, sentence, type Piece } from './reply.ts';
import type { JobState } from './state.ts';
import { openOperation } from './window.ts';

type Sentences = readonly (readonly Piece[])[];

/** Four quarter turns by a square are what a vee block allows without a dividing head (common practice, no source). */
const USUAL_READINGS = 4;
const FEWEST_READINGS = 3;
/**
 * How far off an indicator of thous is read, its rounding and the form of the work in it; and an angle set by a square
 * (ours).
 */
const READING_ERROR: Length = thou(0.65);
const ANGLE_ERROR = 0.5;
/** A throw this far from the plan's is worth a word (ours). */
const THROW_OFF: Length = thou(3);
/** A high spot that cannot be told to this is none: the work runs true as far as the indicator tells (ours). */
const NO_SPOT_DEGREES = 30;

/** The angle of the next reading: the one that was said, else on by an equal part of the turn. */
export function nextDegrees(state: JobState, operation: Operation): number {
  const { spots, degrees, counts } = progressOf(state, operation.id).setUp;
  if (degrees !== null) return degrees;
  const last = spots.at(-1);
  if (last === undefined) return 0;
  return (last.degrees + 360 / (counts.readings ?? USUAL_READINGS)) % 360;
}

/** The high spot as the readings have it so far; null for fewer than three, or where they do not tell. */
export function spotSoFar(state: JobState, operation: Operation): HighSpot | null {
  const feature = turnedOf(state, operation);
  const radius = feature === null ? null : radiusNow(state, feature);
  const { spots } = progressOf(state, operation.id).setUp;
  return highSpotOf(spots, { radius, readingError: READING_ERROR, angleError: ANGLE_ERROR });
}

const whole = (degrees: number): Piece => count(roundReal(degrees, 'half-away') % 360);

/** What the indicator showed at the angle that was due, and where to turn next, or where the high spot is. */
export function spotRead(scene: Scene, indicator: Length): Decision {
  const operation = openOperation(scene.state);
  if (operation === null) return refused(scene, 'all-done');
  const degrees = nextDegrees(scene.state, operation);
  const body: EventBody = { type: 'SpindleRead', operation: operation.id, degrees, indicator };
  const state = afterwards(scene, [body]);
  return done(
    [body],
    replyOf(scene, 'stored', sentence(bareAmount(indicator), 'at', whole(degrees)), ...spotNext(state, operation)),
  );
}

/**
 * How far to turn on from the high spot for what is milled in time with it: an angle of the part counts clockwise seen from the
 * left, so the work goes the other way to bring it up. Nothing where it is milled at the high spot itself.
 */
function timed(state: JobState, operation: Operation): Sentences {
  return state.plan.part.milled
    .filter(({ timedTo, angle }) => timedTo !== null && timedTo === operation.feature && angle !== 0)
    .map(({ name, angle }) => sentence('for-the', line(name), comma, whole(angle), 'anticlockwise-from-left'));
}

/** What to do next about the high spot. */
export function spotNext(state: JobState, operation: Operation): Sentences {
  const { spots, counts, anglesTold } = progressOf(state, operation.id).setUp;
  // At angles that are said, three will do, and each one more tells it better.
  if (spots.length < (counts.readings ?? (anglesTold ? FEWEST_READINGS : USUAL_READINGS)))
    return [sentence('turn-on-to', whole(nextDegrees(state, operation)))];
  const spot = spotSoFar(state, operation);
  const last = spots.at(-1);
  if (spot === null || last === undefined || spot.uncertaintyDegrees > NO_SPOT_DEGREES) return [sentence('no-high-spot')];
  if (spot.disagree) return [sentence('they-disagree')];
  const turn = turnFrom(last.degrees, spot.degrees);
  const offset = throwOf(state, operation);
  const off = offset !== null && magnitude(minus(spot.offset, offset)) > THROW_OFF;
  return [
    ...(spot.odd === null ? [] : [sentence('left-out-the-one-at', whole(spot.odd.degrees))]),
    sentence('high-spot-at', whole(spot.degrees), comma, 'give-or-take', count(Math.max(1, Math.ceil(spot.uncertaintyDegrees)))),
    ...(off ? [sentence('throw', bareAmount(spot.offset), comma, 'plan-has', bareAmount(offset))] : []),
    sentence(turn < 0 ? 'turn-back' : 'turn-on', whole(Math.abs(turn)), comma, 'then-it-is-up'),
    ...timed(state, operation),
  ];
}
