import { z } from 'zod';
import { assert } from '../measure/index.ts';
import { eventBodySchema, jobEventSchema, type JobEvent } from '../job/index.ts';
import { readKeepingUnknown, type Misfit } from './fieldProblem.ts';
import { valueAt, type Json, type Path } from './json.ts';
import { carriedForward, EVENT_STEPS, EVENT_VERSION } from './steps.ts';

/**
 * An event that this build does not understand: written by a newer build, or of a shape that does not fit. It is kept, shown
 * as unknown and exported as it came; it is never dropped, and it does not change the state.
 */
export type UnknownEvent = {
  readonly id: string;
  readonly seq: number;
  readonly at: number;
  readonly v: number;
  readonly type: string;
  readonly why: 'newer-version' | 'unknown-type' | 'does-not-fit';
};

export type LoggedEvent =
  | { readonly as: 'known'; readonly event: JobEvent; readonly unknownFields: readonly Path[] }
  | { readonly as: 'unknown'; readonly event: UnknownEvent }
  /** An event of a known type and version whose body is wrong. */
  | { readonly as: 'misfit'; readonly event: UnknownEvent; readonly misfit: Misfit }
  /** Not even the number, id and time of an event can be read. */
  | { readonly as: 'not-an-event'; readonly misfit: Misfit };

/** What every event of every version has. */
const envelopeSchema = z.looseObject({
  id: z.string().min(1).max(64),
  seq: z.number().int().positive(),
  at: z.number().int().nonnegative(),
  v: z.number().int().positive(),
  body: z.looseObject({ type: z.string().min(1).max(100) }),
});

const KNOWN_TYPES: ReadonlySet<string> = new Set(eventBodySchema.options.map((option) => option.shape.type.value));

/** Reads one event of a log or a file, of this version or an older one. `base` is put before the paths of what is wrong. */
export function readLoggedEvent(json: Json, base: Path): LoggedEvent {
  // Nearly every event is of the newest version and has no field too many: one reading then is enough.
  const direct = jobEventSchema.safeParse(json);
  if (direct.success) return { as: 'known', event: direct.data, unknownFields: [] };
  const envelope = readKeepingUnknown(envelopeSchema, json, base);
  if (!envelope.ok) return { as: 'not-an-event', misfit: envelope.error };
  const { id, seq, at, v, body } = envelope.value.value;
  const unknown = { id, seq, at, v, type: body.type };
  if (v > EVENT_VERSION) return { as: 'unknown', event: { ...unknown, why: 'newer-version' } };
  const current = carriedForward(json, v, EVENT_STEPS);
  const type = valueAt(current, ['body', 'type']);
  if (typeof type !== 'string' || !KNOWN_TYPES.has(type)) return { as: 'unknown', event: { ...unknown, why: 'unknown-type' } };
  const read = readKeepingUnknown(jobEventSchema, current, base);
  if (!read.ok) return { as: 'misfit', event: { ...unknown, why: 'does-not-fit' }, misfit: read.error };
  return { as: 'known', event: read.value.value, unknownFields: read.value.unknownFields };
}

/** The exact text under which an event is stored and its digest taken. */
export function writeEvent(event: JobEvent): string {
  const encoded = z.safeEncode(jobEventSchema, event);
  assert(encoded.success, `an event to be stored fits its schema: ${encoded.error?.message ?? ''}`);
  return JSON.stringify(encoded.data);
}
