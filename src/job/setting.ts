import { celsius, dividedBy, magnitude, midway, minus, toCelsius, type Length, type Temperature } from '../measure/index.ts';
import { done, refused, replyOf, type Decision, type Scene } from './decision.ts';
import type { EventBody } from './event.ts';
import { progressOf } from './fold.ts';
import type { Feel, Intent, Working } from './intent.ts';
import { afterwards } from './moving.ts';
import { amount, count, sentence, size, type PhraseId, type Piece } from './reply.ts';
import { openOperation } from './window.ts';

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
  slides: 'leave-it-there',
  loose: 'check-with-the-micrometer',
};

export const felt = (scene: Scene, feel: Feel): Decision =>
  logged(scene, (operation) => ({ type: 'FitFelt', operation, feel }), sentence(feel), sentence(AFTER_FEEL[feel]));

export const nowWorking = (scene: Scene, working: Working): Decision =>
  logged(scene, (operation) => ({ type: 'WorkingChanged', operation, working }), sentence(working));

export function temperatureNoted(scene: Scene, value: Temperature): Decision {
  const kept = celsius(toCelsius(value), 'half-even');
  return logged(
    scene,
    (operation) => ({ type: 'TemperatureNoted', operation, celsius: toCelsius(kept) }),
    sentence({ say: 'temperature', temperature: kept }),
    sentence('noted'),
  );
}

/** The indicator swings through twice the throw: what two opposite readings differ by, and half of it (trade.md, section 5). */
const swing = (a: Length, b: Length): readonly (readonly Piece[])[] => {
  const total = magnitude(minus(a, b));
  return [sentence('total-is', amount(total)), sentence('throw-is', amount(dividedBy(total, 2, 'half-even')))];
};

export function jawRead(scene: Scene, jaw: 1 | 2 | 3 | 4, indicator: Length): Decision {
  const operation = openOperation(scene.state);
  const opposite = ({ 1: 3, 2: 4, 3: 1, 4: 2 } as const)[jaw];
  const other = operation === null ? undefined : progressOf(scene.state, operation.id).jaws[opposite];
  return logged(
    scene,
    (id) => ({ type: 'JawRead', operation: id, jaw, indicator }),
    sentence('jaw', count(jaw)),
    sentence(amount(indicator)),
    ...(other === undefined ? [] : swing(indicator, other)),
  );
}

export function indicatorRead(scene: Scene, intent: Extract<Intent, { type: 'indicator' }>, indicator: Length): Decision {
  const operation = openOperation(scene.state);
  if (operation === null) return refused(scene, 'all-done');
  const body: EventBody = { type: 'IndicatorRead', operation: operation.id, end: intent.end, indicator };
  const { low, high } = progressOf(afterwards(scene, [body]), operation.id).indicator;
  const both = low !== null && high !== null ? swing(high, low) : [];
  return done([body], replyOf(scene, 'stored', sentence(intent.end, amount(indicator)), ...both));
}

/** An edge by its coordinate; with both edges, the centre between them and the width. */
export function edgeFound(scene: Scene, edge: 'first' | 'other', coordinate: Length): Decision {
  const operation = openOperation(scene.state);
  if (operation === null) return refused(scene, 'all-done');
  const body: EventBody = { type: 'EdgeFound', operation: operation.id, edge, coordinate };
  const { first, other } = progressOf(afterwards(scene, [body]), operation.id).edges;
  const both =
    first !== null && other !== null
      ? [sentence('centre-at', size(midway(first, other, 'half-even'))), sentence('width', size(magnitude(minus(other, first))))]
      : [];
  return done(
    [body],
    replyOf(scene, 'stored', sentence(edge === 'first' ? 'edge-at' : 'other-edge-at', size(coordinate)), ...both),
  );
}
