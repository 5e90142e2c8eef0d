import { clearanceFrom, expandedUncertainty } from '../coach/index.ts';
import {
  celsius,
  micrometres,
  roundedTo,
  thou,
  toCelsius,
  type InstrumentKind,
  type Length,
  type Temperature,
} from '../measure/index.ts';
import { asLength } from '../trade/index.ts';
import { coldReading } from './cold.ts';
import { done, refused, replyOf, type Decision, type Scene } from './decision.ts';
import type { EventBody } from './event.ts';
import type { Feel, Working } from './intent.ts';
import { afterwards } from './moving.ts';
import { amount, sentence, size, type PhraseId, type Piece } from './reply.ts';
import { mateHere } from './mates.ts';
import type { JobState, Reading } from './state.ts';
import { nearTenth, reportOf } from './readings.ts';
import { instrumentsHere, lastReading, lastSize, measuredMate, openOperation } from './window.ts';

/** Logs a set-up, cutting or fitting fact of the open operation and answers with what it comes to. */
function logged(scene: Scene, body: (operation: string) => EventBody, ...sentences: readonly (readonly Piece[])[]): Decision {
  const operation = openOperation(scene.state);
  if (operation === null) return refused(scene, 'all-done');
  return done([body(operation.id)], replyOf(scene, 'stored', ...sentences));
}

export const tookCut = (scene: Scene, onDial: Length): Decision =>
  logged(scene, (operation) => ({ type: 'CutTaken', operation, onDial }), sentence('took-it', amount(onDial)));

export const setDial = (scene: Scene, onDial: Length): Decision =>
  logged(scene, (operation) => ({ type: 'DialSet', operation, onDial }), sentence('dial-at', amount(onDial)));

export const touchedOff = (scene: Scene): Decision =>
  logged(scene, (operation) => ({ type: 'TouchedOff', operation }), sentence('touched-off'));

export const dialZeroed = (scene: Scene): Decision =>
  logged(scene, (operation) => ({ type: 'DialZeroed', operation }), sentence('dial-zero'));

/** What to do about the way a part goes on its mate (common practice, no source). */
const AFTER_FEEL: Readonly<Record<Feel, PhraseId>> = {
  'wont-start': 'take-a-little',
  tight: 'take-a-little',
  'binds-at-the-shoulder': 'file-toward-the-shoulder',
  'binds-at-the-end': 'file-toward-the-end',
  slides: 'leave-it-there',
  loose: 'check-with-the-micrometer',
};

/** The likely clearance from feel and numbers together; nothing where the mate or the part was not measured. */
function clearanceHere(scene: Scene, feel: Feel): readonly (readonly Piece[])[] {
  const operation = openOperation(scene.state);
  const mate = operation === null ? null : mateHere(scene.state, operation);
  const bore = mate === null ? null : measuredMate(scene.state, mate.id);
  const shaft = mate === null ? null : lastFitted(scene.state, mate.id);
  if (bore === null || shaft === null || mate?.kind === 'width') return [];
  const spreadOf = (instrument: InstrumentKind, size: Length): number =>
    expandedUncertainty(instrument, size, 1, instrumentsHere(scene.state)) / 2;
  const { clearance, agree } = clearanceFrom(
    { mean: bore.least, spread: spreadOf('telescoping-gauge', bore.least) },
    { mean: coldReading(scene.state, shaft), spread: spreadOf(shaft.instrument ?? 'caliper', shaft.value) },
    feel,
  );
  if (!agree) return [sentence('feel-and-size-differ')];
  // A clearance is said to a tenth of a thou, or to five micrometres: finer is not known.
  const finest = scene.state.plan.part.unit === 'inch' ? thou(0.1) : micrometres(5);
  return clearance.mean <= 0
    ? []
    : [sentence('clearance-likely', amount(roundedTo(asLength(clearance.mean, 'half-even'), finest, 'half-even')))];
}

/** The newest reading of the diameter that goes on a mate, at whichever operation it was taken. */
function lastFitted(state: JobState, mate: string): Reading | null {
  const fitted = state.plan.route.operations.filter(({ target }) => target?.fit?.mate === mate && target.quantity === 'diameter');
  const readings = fitted.flatMap((operation) => lastReading(state, operation) ?? []);
  return readings.reduce<Reading | null>(
    (newest, reading) => (newest === null || reading.at >= newest.at ? reading : newest),
    null,
  );
}

export const felt = (scene: Scene, feel: Feel): Decision =>
  logged(
    scene,
    (operation) => ({ type: 'FitFelt', operation, feel }),
    sentence(feel),
    ...clearanceHere(scene, feel),
    sentence(AFTER_FEEL[feel]),
  );

export const nowWorking = (scene: Scene, working: Working): Decision =>
  logged(scene, (operation) => ({ type: 'WorkingChanged', operation, working }), sentence(working));

/** Rounds of filing or polishing, or one round of so many strokes or seconds. */
export function hasFiled(scene: Scene, unit: 'rounds' | 'strokes' | 'seconds', counted: number): Decision {
  const operation = openOperation(scene.state);
  if (operation === null) return refused(scene, 'all-done');
  if (counted < 1 || counted > 999) return refused(scene, 'not-a-number-here');
  const body: EventBody = { type: 'Filed', operation: operation.id, in: unit, count: counted };
  return done([body], replyOf(scene, 'stored', sentence('filed'), sentence('measure-it')));
}

export function temperatureNoted(scene: Scene, value: Temperature): Decision {
  const operation = openOperation(scene.state);
  if (operation === null) return refused(scene, 'all-done');
  const kept = celsius(toCelsius(value), 'half-even');
  const body: EventBody = { type: 'TemperatureNoted', operation: operation.id, celsius: toCelsius(kept) };
  const said = sentence({ say: 'temperature', temperature: kept });
  const after = afterwards(scene, [body]);
  const mate = operation.kind === 'measure-mate' ? mateHere(scene.state, operation) : null;
  const measured = mate === null ? null : measuredMate(after, mate.id);
  if (measured !== null) return done([body], replyOf(scene, 'stored', said, sentence('at-twenty', size(measured.least))));
  const last = operation.kind === 'measure-mate' ? null : lastReading(after, operation);
  const cold = last === null ? null : coldReading(after, last);
  // A reading that was warm all the time stands at another size now: what it means is told again.
  if (last === null || cold === null || cold === lastSize(scene.state, operation))
    return done([body], replyOf(scene, 'stored', said, sentence('noted')));
  const report = reportOf(after, operation, cold, last.instrument);
  return done([body], replyOf(scene, report.tone, said, sentence('at-twenty', size(nearTenth(after, cold))), report.pieces));
}
