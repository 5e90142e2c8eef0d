import { inOrder, windowOf, type EventBody, type JobEvent, type JobState, type Place } from '../../job/index.ts';
import type { InstrumentKind, Length } from '../../measure/index.ts';
import type { Operation, SizeWindow } from '../../route/index.ts';

/** A reading of the log as the record shows it. */
export type RecordRow = {
  readonly id: string;
  readonly at: number;
  readonly step: number;
  readonly operation: Operation;
  /** The name of the mate that was measured, or null where it was the part. */
  readonly mate: string | null;
  readonly value: Length;
  readonly window: SizeWindow | null;
  readonly instrument: InstrumentKind | null;
  readonly place: Place | null;
  readonly confirmed: boolean;
};

type ReadingBody = Extract<EventBody, { type: 'ReadingLogged' | 'MateMeasured' }>;

function rowOf(state: JobState, event: JobEvent, body: ReadingBody): RecordRow | null {
  const operations = state.plan.route.operations;
  const at = operations.findIndex((candidate) => candidate.id === body.operation);
  const operation = operations[at];
  if (operation === undefined) return null;
  const mate =
    body.type === 'MateMeasured'
      ? (state.plan.part.mates.find((candidate) => candidate.id === body.mate)?.name ?? body.mate)
      : null;
  return {
    id: event.id,
    at: event.at,
    step: at + 1,
    operation,
    mate,
    value: body.value,
    window: mate === null ? windowOf(state, operation) : null,
    instrument: body.instrument,
    place: body.place,
    confirmed: body.confirmed,
  };
}

/** The readings of a job in the order they were taken: those that stand, and those that were struck. */
export function recordRows(state: JobState): { readonly standing: readonly RecordRow[]; readonly struck: readonly RecordRow[] } {
  const standing: RecordRow[] = [];
  const struck: RecordRow[] = [];
  for (const event of inOrder(state.log)) {
    const { body } = event;
    if (body.type !== 'ReadingLogged' && body.type !== 'MateMeasured') continue;
    const row = rowOf(state, event, body);
    if (row !== null) (state.struck.has(event.id) ? struck : standing).push(row);
  }
  return { standing, struck };
}

/** Whether a row's size lies in its window, or null where there is none to lie in. */
export const liesInWindow = (row: RecordRow): boolean | null =>
  row.window === null ? null : row.value >= row.window.low && row.value <= row.window.high;
