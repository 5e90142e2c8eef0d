import { goesIn } from '../part/index.ts';
import { added, downward, inOrder, newest, sizeOf, type History } from './history.ts';
import type { EventBody, JobEvent } from './event.ts';
import type { Plan } from './plan.ts';
import { editedBy, remadeAs } from './editing.ts';
import { NOTHING_SET_UP, setUpAfter, type SetUpEvent } from './setUpLog.ts';
import type { JobState, Progress, Reading, Work } from './state.ts';

const untouched: Progress = {
  status: 'waiting',
  readings: null,
  work: null,
  dialled: null,
  feel: null,
  working: 'turning',
  indicator: { low: null, high: null },
  jaws: {},
  edges: { first: null, other: null },
  setUp: NOTHING_SET_UP,
  cautioned: false,
  celsius: null,
  memos: null,
};

/** The state of a job that has just been started: nothing done, the first operation open. */
export function initialState(plan: Plan): JobState {
  return {
    plan,
    editing: { started: plan, base: plan.route, edits: [], leftOver: [] },
    open: plan.route.operations[0]?.id ?? null,
    progress: {},
    mates: {},
    celsius: null,
    log: null,
    struck: new Set(),
  };
}

/** What has happened at an operation; of one that nothing has happened at, the blank page. */
export const progressOf = (state: JobState, operation: string): Progress => state.progress[operation] ?? untouched;

/** The first operation after `from` that is still waiting, else the first waiting one at all, else null. */
function nextWaiting(state: JobState, from: string): string | null {
  const operations = state.plan.route.operations;
  const at = operations.findIndex((operation) => operation.id === from);
  const around = [...operations.slice(at + 1), ...operations.slice(0, at)];
  return around.find((operation) => progressOf(state, operation.id).status === 'waiting')?.id ?? null;
}

function change(state: JobState, operation: string, with_: Partial<Progress>): JobState {
  return { ...state, progress: { ...state.progress, [operation]: { ...progressOf(state, operation), ...with_ } } };
}

const setUp = (state: JobState, body: SetUpEvent, with_: Partial<Progress>): JobState =>
  change(state, body.operation, { ...with_, setUp: setUpAfter(progressOf(state, body.operation).setUp, body) });

const measuresMate = (state: JobState, operation: string): boolean =>
  state.plan.route.operations.some(({ id, kind }) => id === operation && kind === 'measure-mate');

/** "Reads …", then "temperature …": the first one told at a step is told of the readings just before it too. */
const warmedBy = (work: History<Work>, celsius: number): History<Work> =>
  work?.top.did === 'read' ? added(warmedBy(work.below, celsius), { ...work.top, celsius }) : work;

const warmed = (state: JobState, operation: string, celsius: number): JobState => {
  const { work, celsius: toldHere } = progressOf(state, operation);
  return { ...change(state, operation, { celsius, work: toldHere === null ? warmedBy(work, celsius) : work }), celsius };
};

/** The change, with what was done added to the work of the operation. */
const worked = (state: JobState, operation: string, did: Work, with_: Partial<Progress>): JobState =>
  change(state, operation, { work: added(progressOf(state, operation).work, did), ...with_ });

function left(state: JobState, operation: string, status: 'done' | 'skipped'): JobState {
  const marked = change(state, operation, { status });
  return { ...marked, open: nextWaiting(marked, operation) };
}

/** After the route was changed: what was open stays open while it is there and waiting, else what comes after it is. */
function reopened(state: JobState): JobState {
  const there = state.plan.route.operations.some((operation) => operation.id === state.open);
  if (there && state.open !== null && progressOf(state, state.open).status === 'waiting') return state;
  return { ...state, open: nextWaiting(state, state.open ?? '') };
}

/** What one event does to the state, its place in the log aside. */
function applied(state: JobState, event: JobEvent, body: Exclude<EventBody, { type: 'EventStruck' }>): JobState {
  switch (body.type) {
    case 'OperationFinished':
      return left(state, body.operation, 'done');
    case 'OperationSkipped':
      return left(state, body.operation, 'skipped');
    case 'OperationOpened':
      return { ...change(state, body.operation, { status: 'waiting' }), open: body.operation };
    case 'ReadingLogged': {
      const { operation, quantity, value, instrument, place, confirmed } = body;
      const reading: Reading = { event: event.id, at: event.at, operation, quantity, value, instrument, place, confirmed };
      const { readings, work } = progressOf(state, operation);
      const did: Work = { did: 'read', reading, celsius: state.celsius };
      return change(state, operation, { readings: added(readings, reading), work: added(work, did), dialled: null });
    }
    case 'MateMeasured': {
      const { operation, mate, value, instrument, place, confirmed } = body;
      const is = state.plan.part.mates.find((candidate) => candidate.id === mate);
      const quantity = is !== undefined && (is.kind === 'width' || goesIn(is)) ? 'width' : 'bore';
      const reading: Reading = { event: event.id, at: event.at, operation, quantity, value, instrument, place, confirmed };
      const measured = { ...state, mates: { ...state.mates, [mate]: added(state.mates[mate] ?? null, reading) } };
      return change(measured, operation, { readings: added(progressOf(state, operation).readings, reading) });
    }
    case 'TemperatureNoted':
      return measuresMate(state, body.operation)
        ? change(state, body.operation, { celsius: body.celsius })
        : warmed(state, body.operation, body.celsius);
    case 'CutTaken':
      return worked(state, body.operation, { did: 'cut', onDial: body.onDial }, { dialled: body.onDial });
    case 'DialSet':
      return worked(state, body.operation, { did: 'dialled', onDial: body.onDial }, { dialled: body.onDial });
    case 'TouchedOff':
      return worked(state, body.operation, { did: 'touched-off' }, { dialled: null });
    case 'DialZeroed':
      return change(state, body.operation, { dialled: null });
    case 'FitFelt':
      return worked(state, body.operation, { did: 'felt', feel: body.feel }, { feel: body.feel });
    case 'Filed':
      return worked(state, body.operation, { did: 'filed', amount: { in: body.in, count: body.count } }, {});
    case 'WorkingChanged':
      return worked(state, body.operation, { did: 'working', working: body.working }, { working: body.working });
    case 'JawRead':
      // A jaw is read to move the work: what low and high were before says nothing any more.
      return setUp(state, body, {
        jaws: { ...progressOf(state, body.operation).jaws, [body.jaw]: body.indicator },
        indicator: { low: null, high: null },
      });
    case 'IndicatorRead':
      return setUp(state, body, {
        indicator: { ...progressOf(state, body.operation).indicator, [body.end]: body.indicator },
      });
    case 'EdgeFound': {
      const { edges } = progressOf(state, body.operation);
      return setUp(state, body, body.edge === 'end' ? {} : { edges: { ...edges, [body.edge]: body.coordinate } });
    }
    case 'SpindleRead':
    case 'SetUpCounted':
    case 'SetUpGiven':
      return setUp(state, body, {});
    case 'MemoKept': {
      const memo = { clip: body.clip, seconds: body.seconds, at: event.at };
      return change(state, body.operation, { memos: added(progressOf(state, body.operation).memos, memo) });
    }
    case 'CautionGiven':
      return change(state, body.operation, { cautioned: true });
    case 'RouteEdited': {
      const edited = editedBy(state, body.edit);
      if (body.edit.edit === 'skip' && edited.editing.edits.length > state.editing.edits.length)
        return reopened(change(edited, body.edit.operation, { status: 'skipped' }));
      return reopened(edited);
    }
    case 'RouteRemade':
      return reopened(remadeAs(state, body.part, body.route));
  }
}

/** The events that stand, folded from the start. */
function refolded(plan: Plan, events: readonly JobEvent[], struck: ReadonlySet<string>): JobState {
  let state = initialState(plan);
  for (const event of events)
    if (event.body.type !== 'EventStruck' && !struck.has(event.id)) state = applied(state, event, event.body);
  return state;
}

/** So many events back the state before each is remembered: a slip is taken back soon or not at all. */
const REMEMBERED = 32;
/** What a state was before the newest event of its log. Only saves folding the log again; states share nearly all they hold. */
const before = new WeakMap<NonNullable<History<JobEvent>>, JobState>();

function remember(log: NonNullable<History<JobEvent>>, state: JobState): void {
  before.set(log, state);
  let old: History<JobEvent> = log;
  for (let back = 0; back < REMEMBERED && old !== null; back += 1) old = old.below;
  if (old !== null) before.delete(old);
}

/**
 * The state before an event where that is remembered and nothing that stands has come since: what came since was struck, and
 * what was struck since came since. Null where it is not so.
 */
function stateBefore(id: string, log: History<JobEvent>, struck: ReadonlySet<string>): JobState | null {
  const since = new Set<string>();
  const strikes: string[] = [];
  let at = log;
  for (let back = 0; back <= REMEMBERED && at !== null; back += 1, at = at.below) {
    const { top } = at;
    since.add(top.id);
    if (top.body.type === 'EventStruck') strikes.push(top.body.event);
    else if (!struck.has(top.id)) return null;
    if (top.id === id) return strikes.every((each) => since.has(each)) ? (before.get(at) ?? null) : null;
  }
  return null;
}

/**
 * The state after one more event. Striking and never having said are the same: a strike takes up the state before what it
 * strikes, or folds the whole log again without it.
 */
export function fold(state: JobState, event: JobEvent): JobState {
  const log = { size: sizeOf(state.log) + 1, top: event, below: state.log };
  if (event.body.type !== 'EventStruck') {
    remember(log, state);
    return { ...applied(state, event, event.body), log };
  }
  const struck = new Set([...state.struck, event.body.event]);
  const taken = stateBefore(event.body.event, log, struck) ?? refolded(state.editing.started, inOrder(log), struck);
  return { ...taken, log, struck };
}

/** The state after all the events of a job, in the order of their numbers; the same as folding them one by one. */
export function folded(plan: Plan, events: readonly JobEvent[]): JobState {
  const struck = new Set<string>();
  for (const event of events) if (event.body.type === 'EventStruck') struck.add(event.body.event);
  let log: JobState['log'] = null;
  for (const event of events) log = added(log, event);
  return { ...refolded(plan, events, struck), log, struck };
}

/** The number that the next event of the job gets. */
export const nextSeq = (state: JobState): number => (newest(state.log)?.seq ?? 0) + 1;

/** The latest event that can be taken back: not a strike, not struck, and not the mere showing of a caution. */
export function lastStrikeable(state: JobState): JobEvent | null {
  for (const event of downward(state.log))
    if (event.body.type !== 'EventStruck' && event.body.type !== 'CautionGiven' && !state.struck.has(event.id)) return event;
  return null;
}

/** How many readings of the part and its mates stand. */
export const standingReadings = (state: JobState): number =>
  state.plan.route.operations.reduce((count, operation) => count + sizeOf(progressOf(state, operation.id).readings), 0);
