import { readFileSync } from 'node:fs';
import { asDiameter, inches, type Length } from '../../src/measure/index.ts';
import {
  decide,
  folded,
  nextSeq,
  planSchema,
  silence,
  fold,
  type Decision,
  type EventBody,
  type Intent,
  type JobState,
  type Plan,
  type Talk,
} from '../../src/job/index.ts';

/** The invented belt-grinder demo: the plan that the job tests are told against. */
export const plan: Plan = planSchema.parse(
  (JSON.parse(readFileSync(new URL('../../src/shelf/demos/inch.job.json', import.meta.url), 'utf8')) as { plan: unknown }).plan,
);

export const NOON = Date.UTC(2026, 0, 5, 12);
export const inch = (value: number): Length => asDiameter(inches(value));
export const one = (value: number) => ({ as: 'one', value: inch(value) }) as const;
export const reading = (value: number): Intent => ({
  type: 'reading',
  spoken: 'with-verb',
  instrument: null,
  thing: null,
  place: null,
  value: one(value),
});

/** A state with these events behind it. */
export const given = (...bodies: readonly EventBody[]): JobState =>
  bodies.reduce(
    (state, body) => fold(state, { id: `e${nextSeq(state)}`, seq: nextSeq(state), at: NOON, v: 1, body }),
    folded(plan, []),
  );

export type Told = { readonly state: JobState; readonly talk: Talk; readonly decision: Decision };

/** Decides intents one after the other from a state; the last decision is what came of it. */
export function when(state: JobState, ...intents: readonly Intent[]): Told {
  let talk: Talk = silence;
  let decision: Decision | null = null;
  for (const intent of intents) {
    decision = decide({ state, talk, words: 'as said', now: NOON }, intent);
    talk = decision.talk;
    state = decision.events.reduce(
      (before, body) => fold(before, { id: `e${nextSeq(before)}`, seq: nextSeq(before), at: NOON, v: 1, body }),
      state,
    );
  }
  if (decision === null) throw new Error('when() needs an intent');
  return { state, talk, decision };
}

/** The fixed words and values of an answer, for assertions that do not hang on how it is spoken. */
export const pieces = (decision: Decision): string =>
  decision.reply.pieces
    .map((piece) => {
      switch (piece.say) {
        case 'phrase':
          return piece.phrase;
        case 'size':
        case 'amount':
        case 'bare-amount':
          return `${piece.say}(${piece.length / 25_400_000})`;
        case 'count':
          return String(piece.count);
        case 'temperature':
          return `${piece.temperature / 1000}°C`;
        case 'line':
          return `"${piece.text}"`;
        case 'comma':
          return ',';
        case 'stop':
          return '.';
        case 'asks':
          return '?';
      }
    })
    .join(' ');

export const turnedCollar: EventBody = { type: 'OperationFinished', operation: 'grip-bar', standing: 'no-size' };
export const openAt = (operation: string): EventBody => ({ type: 'OperationOpened', operation });
export const logged = (operation: string, value: number, quantity: 'diameter' | 'length' | 'depth' = 'diameter'): EventBody => ({
  type: 'ReadingLogged',
  operation,
  quantity,
  value: inch(value),
  instrument: 'micrometer',
  place: null,
  words: '',
  confirmed: false,
});
export const boreMeasured = (value: number): EventBody => ({
  type: 'MateMeasured',
  operation: 'measure-arm-bore',
  mate: 'arm-bore',
  value: inch(value),
  instrument: 'telescoping-gauge',
  place: null,
  words: '',
  confirmed: false,
});
