export type { Feel, Heard, Intent, IntentType, NumberRefusal, Place, Thing, Working } from './intent.ts';
export type { Context, NumberSlot } from './context.ts';
export { PHRASES, type PhraseId, type Piece, type Reply, type Tone } from './reply.ts';
export { planSchema, type Plan } from './plan.ts';
export { eventBodySchema, jobEventSchema, type EventBody, type EventType, type JobEvent } from './event.ts';
