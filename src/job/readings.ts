import { micrometres, minus, plus, roundedTo, thou, type InstrumentKind, type Instruments, type Length } from '../measure/index.ts';
import type { MeasuredQuantity, Operation } from '../route/index.ts';
import { advicePieces, slipPhrase } from './advising.ts';
import { targetPieces } from './announce.ts';
import { coachedAt, contradictionOf } from './coaching.ts';
import { coldPart } from './cold.ts';
import { CLOSE_TO_SIZE, leftAt, nextCut, nextCutPieces, type Left } from './coach.ts';
import { asked, done, refused, replyOf, type Decision, type Scene } from './decision.ts';
import { doubtOf } from './doubt.ts';
import type { EventBody } from './event.ts';
import type { Intent, Thing } from './intent.ts';
import { mateHere } from './mates.ts';
import { afterwards } from './moving.ts';
import { amount, bareAmount, comma, question, sentence, size, type PhraseId, type Piece, type Tone } from './reply.ts';
import type { JobState } from './state.ts';
import type { Doubt } from './talk.ts';
import { roundnessPieces } from './roundness.ts';
import { instrumentsHere, openOperation } from './window.ts';

export type ReadingIntent = Extract<Intent, { type: 'reading' }>;

const QUANTITY_OF: Readonly<Record<Thing, MeasuredQuantity>> = {
  bore: 'bore',
  length: 'length',
  shoulder: 'length',
  width: 'width',
  depth: 'depth',
  diameter: 'diameter',
};

const DOUBTS: Readonly<Record<Doubt, PhraseId>> = {
  'bigger-than-it-was': 'bigger-than-it-was',
  'far-from-the-last': 'far-from-the-last',
  'outside-the-stock': 'outside-the-stock',
  'far-from-the-target': 'far-from-the-target',
  'under-the-low-limit': 'under-the-low-limit',
  'past-the-high-limit': 'past-the-high-limit',
  'contradicts-the-cuts': 'slip-unexplained',
};

/**
 * Takes a reading: stores what is plausible and asks about the rest (the Trust table of the voice). `sure` is true when the
 * person has already said yes to this value; `replaces` is the event that it puts right.
 */
export function takeReading(
  scene: Scene,
  intent: ReadingIntent,
  value: Length,
  sure: boolean,
  replaces: string | null,
): Decision {
  const { state, words } = scene;
  const operation = openOperation(state);
  if (operation === null) return refused(scene, 'all-done');
  const named = intent.thing === null ? operation.target?.quantity : QUANTITY_OF[intent.thing];
  // At a bore of the part, "bore" and "diameter" both mean that bore and no mate.
  const quantity = operation.target?.quantity === 'hole' && (named === 'bore' || named === 'diameter') ? 'hole' : named;
  if (quantity === undefined) return refused(scene, 'nothing-awaited');
  const mate = quantity === 'bore' || quantity === 'width' ? mateHere(state, operation) : null;
  if (mate === null && (quantity === 'bore' || quantity === 'width')) return refused(scene, 'which-mate');

  // The step's own instrument is for its own size: what a mate was read with beside it, nobody said.
  const instrument = intent.instrument ?? (mate === null || operation.feature === mate.id ? operation.instrument : null);
  const again = sure || saysItAgain(scene, value);
  const contradiction =
    again || quantity !== operation.target?.quantity ? null : contradictionOf(state, operation, value, instrument, intent.place);
  if (contradiction !== null)
    return asked(
      scene,
      'contradicts-the-cuts',
      { about: 'sure', doubt: 'contradicts-the-cuts', intent, value, replaces },
      sentence(size(value)),
      sentence('expected', size(contradiction.expected)),
      sentence(slipPhrase(contradiction.surprise.slip, instrument, contradiction.filed)),
      sentence('measure-again'),
      question('keep-it'),
    );
  const doubt = again ? null : doubtOf(state, operation, quantity, value, intent.place);
  if (doubt !== null)
    return asked(
      scene,
      doubt,
      { about: 'sure', doubt, intent, value, replaces },
      sentence(size(value)),
      sentence(DOUBTS[doubt]),
      question('keep-it'),
    );

  const shared = { operation: operation.id, value, instrument, place: intent.place, words, confirmed: again };
  const logged: EventBody =
    mate === null ? { type: 'ReadingLogged', quantity, ...shared } : { type: 'MateMeasured', mate: mate.id, ...shared };
  // The new reading is stored before the old one is struck: a crash between the two loses neither.
  const events: readonly EventBody[] = replaces === null ? [logged] : [logged, { type: 'EventStruck', event: replaces }];
  const after = afterwards(scene, events);
  const cold = mate === null ? coldPart(after, quantity, value, after.celsius) : value;
  const report =
    operation.target?.quantity === quantity
      ? reportOf(after, operation, cold, instrument)
      : mate !== null && operation.target?.fit?.mate === mate.id
        ? movedReport(after, operation)
        : notedReport;
  return done(
    events,
    replyOf(scene, report.tone, sentence(...readBack(after, value, cold)), ...roundnessPieces(after, operation), report.pieces),
  );
}

/** A size at 20 °C is worked out, not read: said to a tenth or a hundredth of a millimetre. */
export const nearTenth = ({ plan }: JobState, cold: Length): Length =>
  roundedTo(cold, plan.part.unit === 'inch' ? thou(0.1) : micrometres(10), 'half-even');

/** A reading as it was said, and in the same breath what it is cold, where its warmth was told and makes a difference. */
export function readBack(state: JobState, value: Length, cold: Length): readonly (Piece | PhraseId)[] {
  const said = nearTenth(state, cold);
  return said === nearTenth(state, value) ? [size(value)] : [size(value), comma, 'at-twenty', size(said)];
}

type Report = { readonly tone: Tone; readonly pieces: readonly Piece[] };

const notedReport: Report = { tone: 'stored', pieces: sentence('noted') };

/** A mate measured at the work that goes with it moves the size wanted: said, since it is the next one to be read. */
const movedReport = (state: JobState, operation: Operation): Report => ({
  tone: 'stored',
  pieces: [...sentence('noted'), ...targetPieces(state, operation).flat()],
});

/** A second reading that agrees with the one that was doubted is as good as a yes. */
function saysItAgain({ talk }: Scene, value: Length): boolean {
  const open = talk.question;
  return (
    open !== null && open.about === 'sure' && open.doubt === 'contradicts-the-cuts' && Math.abs(open.value - value) <= AGREES
  );
}
/** Two readings by hand agree within this: half a thou. Common practice, no source. */
const AGREES: Length = thou(0.5);

/** What a stored reading means by its size at 20 °C, shortest first: where it stands, what is left, what to do. */
export function reportOf(state: JobState, operation: Operation, value: Length, instrument: InstrumentKind | null): Report {
  const left = leftAt(state, operation);
  if (left === null) return notedReport;
  const bench = coachedAt(state, operation);
  const next = bench === null ? null : advicePieces(bench).flat();
  switch (left.standing) {
    case 'in-window': {
      if (bench !== null && next !== null)
        return bench.advice.kind === 'accept'
          ? { tone: 'at-size', pieces: next }
          : { tone: 'close-to-size', pieces: [...sentence('in-the-window'), ...next] };
      const doubtful = tells(value, left, instrument, instrumentsHere(state)) ? [] : sentence('check-with-the-micrometer');
      return { tone: 'at-size', pieces: [...sentence('at-size'), ...doubtful] };
    }
    case 'more-to-take': {
      const tone: Tone = left.onPart <= CLOSE_TO_SIZE ? 'close-to-size' : 'stored';
      return { tone, pieces: [...sentence(bareAmount(left.onPart), 'to-go'), ...(next ?? whatToDo(state, operation))] };
    }
    case 'past':
      return { tone: 'under-size', pieces: pastPieces(operation, value, left) };
    case 'beside':
      return { tone: 'stored', pieces: sentence('off-what-is-wanted') };
  }
}

/** Whether an instrument can tell a size from its limits: accepted only inside them less its error (ISO 14253-1). */
function tells(value: Length, left: Left, instrument: InstrumentKind | null, instruments: Instruments): boolean {
  if (instrument !== 'caliper') return true;
  const error = instruments[instrument].permissibleError(value);
  return value >= plus(left.window.low, error) && value <= minus(left.window.high, error);
}

/** What to do where the coach has nothing to say: the plan's cut. */
function whatToDo(state: JobState, operation: Operation): readonly Piece[] {
  const cut = nextCut(state, operation);
  if (cut === null) return [];
  return nextCutPieces(cut);
}

/** How far past its limit a size is, and what that means: for a fit, so much looser than it was meant to be. */
function pastPieces(operation: Operation, value: Length, left: Left): readonly Piece[] {
  if (operation.target?.quantity === 'depth') return sentence('too-deep-by', amount(minus(value, left.window.high)));
  const under = minus(left.window.low, value);
  const pieces = sentence(amount(under), 'under-the-low-limit');
  return operation.target?.fit === null ? pieces : [...pieces, ...sentence('loose-by', amount(under))];
}
