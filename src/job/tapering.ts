import {
  asDiameter,
  degrees,
  larger,
  magnitude,
  midway,
  minus,
  roundReal,
  smaller,
  toDegrees,
  zero,
  type Angle,
  type Length,
} from '../measure/index.ts';
import type { Operation } from '../route/index.ts';
import { checkTaper, taperSetting, toParallel, type TaperReadings } from '../setups/index.ts';
import type { Taper } from '../trade/index.ts';
import { told, refused, type Decision, type Scene } from './decision.ts';
import { differenceOff } from './differenceOff.ts';
import { lengthOf, turnedOf } from './featureOf.ts';
import { progressOf } from './fold.ts';
import { inOrder } from './history.ts';
import { amount, comma, count, question, sentence, size, type Piece } from './reply.ts';
import type { JobState } from './state.ts';
import { openOperation } from './window.ts';

type Sentences = readonly (readonly Piece[])[];

/** The ends and the length of a taper as they were told, else as the part has them. */
function ends(state: JobState, operation: Operation): Partial<Record<'large' | 'small' | 'over', Length>> {
  const { large, small, over } = progressOf(state, operation.id).setUp.lengths;
  const feature = turnedOf(state, operation);
  const planned =
    feature?.kind === 'taper'
      ? { large: midway(feature.diameter.low, feature.diameter.high, 'half-even'), small: feature.small, over: lengthOf(feature) }
      : {};
  // One that is told is told whole: the part's own ends do not fill it up.
  if (large === undefined && small === undefined) return { ...planned, ...(over === undefined ? {} : { over }) };
  return {
    ...(large === undefined ? {} : { large }),
    ...(small === undefined ? {} : { small }),
    ...(over === undefined ? {} : { over }),
  };
}

/** The taper of an operation, told or of the part, once all of it is known; null before. */
export function taperHere(state: JobState, operation: Operation): Taper | null {
  const { large, small, over } = ends(state, operation);
  if (large === undefined || small === undefined || over === undefined || over <= 0) return null;
  return { large: asDiameter(large), small: asDiameter(small), over };
}

/** An angle to the hundredth: "one point eight three degrees". */
function anglePieces(angle: Angle): readonly Piece[] {
  const hundredths = Math.abs(roundReal(toDegrees(angle) * 100, 'half-away'));
  const part = hundredths % 100;
  const digits = part === 0 ? [] : part % 10 === 0 ? [part / 10] : [Math.floor(part / 10), part % 10];
  return [
    count(Math.floor(hundredths / 100)),
    ...(digits.length === 0 ? [] : [{ say: 'phrase', phrase: 'point' } as const, ...digits.map((digit) => count(digit))]),
    { say: 'phrase', phrase: 'degrees' },
  ];
}

/** What is still to be told of a taper, or how it is set. */
export function taperNext(state: JobState, operation: Operation): Sentences {
  const { lengths } = progressOf(state, operation.id).setUp;
  const { large, small } = ends(state, operation);
  if (large === undefined) return [question('large-end-what')];
  if (small === undefined) return [question('small-end-what')];
  const taper = taperHere(state, operation);
  if (taper === null) return [question('over-what-length')];
  const { compound, tailstock } = taperSetting(taper, lengths.work ?? null);
  return [
    sentence('compound', ...anglePieces(compound)),
    ...(tailstock === null ? [] : [sentence('set-over-tailstock', size(tailstock))]),
  ];
}

/** The latest diameters at the shoulder and at the end, so far apart as was said, and what their difference may be off. */
function readingsHere(state: JobState, operation: Operation): (TaperReadings & { readonly off: Length }) | null {
  const { readings } = progressOf(state, operation.id);
  const diameters = inOrder(readings).filter((reading) => reading.quantity === 'diameter');
  const shoulder = diameters.filter((reading) => reading.place === 'at-the-shoulder').at(-1);
  const end = diameters.filter((reading) => reading.place === 'at-the-end').at(-1);
  if (shoulder === undefined || end === undefined) return null;
  return {
    large: asDiameter(shoulder.value),
    small: asDiameter(end.value),
    apart: ends(state, operation).over ?? zero,
    off: differenceOff(shoulder, end, state),
  };
}

/** What two readings say of a taper: against the one that was told, or against a parallel one. Changes nothing. */
export function taperAnswer(scene: Scene): Decision {
  const operation = openOperation(scene.state);
  if (operation === null) return refused(scene, 'all-done');
  const read = readingsHere(scene.state, operation);
  const wanted = taperHere(scene.state, operation);
  if (read === null) return told(scene, ...(wanted === null ? [sentence('read-both-ends')] : taperNext(scene.state, operation)));
  const { work } = progressOf(scene.state, operation.id).setUp.lengths;
  if (wanted === null) {
    const over: Length = minus(read.large, read.small);
    if (over === 0) return told(scene, sentence('no-taper'));
    // Less than the readings may be off is no taper that anything should be moved for.
    if (magnitude(over) <= read.off) return told(scene, sentence('no-taper', comma, 'give-or-take', amount(read.off)));
    const along = read.apart > 0 ? [comma, 'in' as const, size(read.apart)] : [];
    const tapered = sentence(
      'tapers',
      amount(magnitude(over)),
      comma,
      'give-or-take',
      amount(read.off),
      ...along,
      comma,
      over > 0 ? 'big-at-the-shoulder' : 'big-at-the-end',
    );
    if (work === undefined || read.apart <= 0) return told(scene, tapered);
    const move = toParallel(read, work);
    return told(scene, tapered, sentence('tailstock', move > 0 ? 'away-from-you' : 'toward-you', amount(magnitude(move))));
  }
  // Which end is the large one is the taper's affair; the readings only know shoulder and end.
  const { large, small, apart } = read;
  const check = checkTaper(wanted, { large: larger(large, small), small: smaller(large, small), apart }, work ?? null);
  if (check.over === 0) return told(scene, sentence('taper-is-right'));
  if (magnitude(check.over) <= read.off) return told(scene, sentence('taper-is-right', comma, 'give-or-take', amount(read.off)));
  const off = sentence(amount(magnitude(check.over)), check.over > 0 ? 'too-steep' : 'too-slow');
  const compound = sentence(
    'compound',
    check.compound > 0 ? 'back-by' : 'on-by',
    ...anglePieces(degrees(Math.abs(toDegrees(check.compound)), 'half-even')),
  );
  if (check.tailstock === null) return told(scene, off, compound);
  return told(scene, off, sentence('tailstock', check.tailstock > 0 ? 'back-by' : 'on-by', amount(magnitude(check.tailstock))));
}
