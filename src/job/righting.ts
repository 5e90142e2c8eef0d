import type { Length } from '../measure/index.ts';
import { asked, done, refused, replyOf, told, type Decision, type Scene } from './decision.ts';
import type { EventBody } from './event.ts';
import { fold, lastStrikeable, nextSeq } from './fold.ts';
import type { Intent, LengthIntent } from './intent.ts';
import { leave } from './moving.ts';
import { takeReading } from './readings.ts';
import { question, sentence, size, type Piece } from './reply.ts';
import type { Question } from './talk.ts';

const one = <T>(value: T) => ({ as: 'one', value }) as const;

/** What an event was, in the fewest words, for saying what was struck. */
function nameOf(body: EventBody): readonly Piece[] {
  switch (body.type) {
    case 'ReadingLogged':
    case 'MateMeasured':
      return sentence('scratched', size(body.value));
    case 'CutTaken':
    case 'DialSet':
      return sentence('scratched', { say: 'amount', length: body.onDial });
    case 'OperationFinished':
    case 'OperationSkipped':
    case 'OperationOpened':
    case 'TemperatureNoted':
    case 'TouchedOff':
    case 'DialZeroed':
    case 'FitFelt':
    case 'Filed':
    case 'WorkingChanged':
    case 'JawRead':
    case 'IndicatorRead':
    case 'EdgeFound':
    case 'SpindleRead':
    case 'SetUpCounted':
    case 'SetUpGiven':
    case 'MemoKept':
    case 'CautionGiven':
    case 'RouteEdited':
    case 'RouteRemade':
    case 'EventStruck':
      return sentence('scratched');
  }
}

/** Takes the latest thing back: an open question first, else the latest event that stands. */
export function scratch(scene: Scene): Decision {
  if (scene.talk.question !== null) return forget(scene);
  const last = lastStrikeable(scene.state);
  if (last === null) return refused(scene, 'nothing-to-scratch');
  return done([{ type: 'EventStruck', event: last.id }], replyOf(scene, 'stored', nameOf(last.body)));
}

/** Drops the open question; nothing was stored, so nothing is struck. */
export function forget(scene: Scene): Decision {
  return done([], replyOf(scene, null, sentence('never-mind')));
}

/** The intent that logged an event, so that it can be said again with another number. Null where it held no number. */
function saidAgain(body: EventBody, value: Length): LengthIntent | null {
  switch (body.type) {
    case 'ReadingLogged':
      return {
        type: 'reading',
        spoken: 'bare',
        instrument: body.instrument,
        thing: body.quantity === 'indicator' || body.quantity === 'hole' ? null : body.quantity,
        place: body.place,
        value: one(value),
      };
    case 'MateMeasured':
      return { type: 'reading', spoken: 'bare', instrument: body.instrument, thing: null, place: body.place, value: one(value) };
    case 'CutTaken':
      return { type: 'took', value: one(value) };
    case 'DialSet':
      return { type: 'dial', value: one(value) };
    case 'JawRead':
      return { type: 'jaw', jaw: jawOf(body.jaw), value: one(value) };
    case 'IndicatorRead':
      return { type: 'indicator', end: body.end, value: one(value) };
    case 'EdgeFound':
      return { type: 'edge', edge: body.edge, value: one(value) };
    case 'SetUpGiven':
      return { type: 'set-up-length', what: body.what, value: one(value) };
    case 'SpindleRead':
      return { type: 'spot', value: one(value) };
    case 'OperationFinished':
    case 'OperationSkipped':
    case 'OperationOpened':
    case 'TemperatureNoted':
    case 'TouchedOff':
    case 'DialZeroed':
    case 'FitFelt':
    case 'Filed':
    case 'WorkingChanged':
    case 'SetUpCounted':
    case 'MemoKept':
    case 'CautionGiven':
    case 'RouteEdited':
    case 'RouteRemade':
    case 'EventStruck':
      return null;
  }
}

const jawOf = (jaw: number): 1 | 2 | 3 | 4 => (jaw === 1 ? 1 : jaw === 2 ? 2 : jaw === 3 ? 3 : 4);

/**
 * Puts the last number right: the open question's, else that of the latest event that held one. `decideOne` decides an intent
 * whose number is certain.
 */
export function correct(scene: Scene, value: Length, decideOne: (scene: Scene, intent: Intent) => Decision): Decision {
  const open = scene.talk.question;
  if (open !== null && open.about === 'sure') return takeReading(scene, open.intent, value, false, open.replaces);
  if (open !== null && open.about === 'which-value') return decideOne(scene, withValue(open.asked, value));
  const last = lastStrikeable(scene.state);
  const again = last === null ? null : saidAgain(last.body, value);
  if (last === null || again === null) return refused(scene, 'nothing-to-correct');
  // Decided as if the wrong one had never been said, then stored before the wrong one is struck.
  const strike: EventBody = { type: 'EventStruck', event: last.id };
  const without = fold(scene.state, { id: 'provisional', seq: nextSeq(scene.state), at: scene.now, v: 1, body: strike });
  const decision =
    again.type === 'reading'
      ? takeReading({ ...scene, state: without }, again, value, false, last.id)
      : decideOne({ ...scene, state: without }, again);
  if (decision.outcome !== 'done' || again.type === 'reading') return decision;
  return { ...decision, events: [...decision.events, strike] };
}

/** The same command with another, certain, number in it. */
export const withValue = (intent: LengthIntent, value: Length): LengthIntent => ({ ...intent, value: one(value) });

/** Offers the likelier of two values; the other one is offered after a no. */
export function askWhich(scene: Scene, intent: LengthIntent, values: readonly [Length, Length]): Decision {
  const open: Question = {
    about: 'which-value',
    asked: withValue(intent, values[0]),
    other: withValue(intent, values[1]),
    values,
  };
  return asked(scene, 'which-value', open, question(size(values[0]), 'yes'));
}

/** Says back a value of which the ear is not sure: a yes takes it, a no asks for it again. */
export function askWhetherHeard(scene: Scene, intent: LengthIntent, value: Length): Decision {
  const open: Question = { about: 'which-value', asked: withValue(intent, value), other: null, values: [value, value] };
  return asked(scene, 'hardly-heard', open, question(size(value), 'yes'));
}

export function sayYes(scene: Scene, decideOne: (scene: Scene, intent: Intent) => Decision): Decision {
  const open = scene.talk.question;
  if (open === null) return refused(scene, 'nothing-was-asked');
  const settled: Scene = { ...scene, talk: { ...scene.talk, question: null } };
  switch (open.about) {
    case 'which-value':
      return decideOne(settled, open.asked);
    case 'sure':
      return takeReading(settled, open.intent, open.value, true, open.replaces);
    case 'leave':
      return leave(settled, open.how, true);
  }
}

export function sayNo(scene: Scene): Decision {
  const open = scene.talk.question;
  if (open === null) return refused(scene, 'nothing-was-asked');
  switch (open.about) {
    case 'which-value': {
      if (open.other === null) return { ...told(scene, sentence('say-it-again')), talk: { question: null, lastReply: null } };
      const next: Question = { about: 'which-value', asked: open.other, other: null, values: open.values };
      return asked(scene, 'which-value', next, question(size(open.values[1]), 'yes'));
    }
    case 'sure':
      return { ...told(scene, sentence('say-it-again')), talk: { question: null, lastReply: null } };
    case 'leave':
      return forget(scene);
  }
}
