import {
  advise,
  cutTaken,
  endsOf,
  filedOff,
  perRoundFrom,
  removedBy,
  roundsBeforeReading,
  shaken,
  sizeOf,
  sizeRead,
  startModel,
  surpriseOf,
  touchedOff,
  type Cutter,
  type CutModel,
  type Filed,
  type FileWhere,
  type SizeReading,
  type Warmth,
} from '../../../src/coach/index.ts';
import { micrometres, nanometres, thou } from '../../../src/measure/index.ts';
import type { Estimate } from '../../../src/trade/index.ts';
import { outcomeOf, type Journal, type Outcome } from './journal.ts';
import type { Tool } from './person.ts';

const PLACES = { 'chuck-end': -0.5, middle: 0, 'free-end': 0.5, anywhere: 0 } as const;

/** Two readings by hand agree within this, and nobody measures the same thing more often than this for being asked. */
const AGREES_NM = 15_000;
const ASKED_AT_MOST = 4;

/** The size where the file goes. */
const atPlace = (model: CutModel, where: FileWhere): Estimate =>
  where === 'all-along' ? sizeOf(model) : where === 'free-end' ? endsOf(model)[1] : endsOf(model)[0];

/** Follows the coach from the first reading to its verdict, doing what it says and no more. */
export function byCoach(journal: Journal): Outcome {
  const { lathe, person, window, kind } = journal;
  const cutter: Cutter = {
    step: nanometres(Math.round(lathe.division / 2)),
    turn: nanometres(Math.round(lathe.division * kind.dial.perTurn)),
    deepest: micrometres(kind.deepest),
    thinnest: thou(1),
    tapers: true,
    perK: 11.5,
  };
  const finishing = thou(10);
  let model: CutModel = startModel(cutter, { mean: journal.from, spread: 100_000 });
  let warm = false;
  let removed = 0;
  const filed: Filed[] = [];
  let open: { readonly size: number; readonly spread: number; readonly rounds: number; readonly where: FileWhere } | null = null;

  const readAt = (tool: Tool, place: SizeReading['place']): SizeReading => {
    const warmth: Warmth = { kelvin: 1, spread: warm ? 6 : 2 };
    return { value: person.read(tool, PLACES[place]), instrument: tool, place, warmth };
  };
  const take = (tool: Tool, place: SizeReading['place']): void => {
    person.noteWarm();
    let reading = readAt(tool, place);
    // Asked to measure again until a reading is as expected, or agrees with the one before it: then it is believed.
    for (let asked = 0; asked < ASKED_AT_MOST && surpriseOf(model, reading) !== null; asked += 1) {
      const again = readAt(tool, place);
      const agrees = Math.abs(again.value - reading.value) < AGREES_NM;
      reading = again;
      if (!agrees) continue;
      model = shaken(model, again, surpriseOf(model, again)?.by ?? again.value - sizeOf(model).mean);
      break;
    }
    model = sizeRead(model, reading);
  };

  for (let turn = 0; turn < 60; turn += 1) {
    const advice = advise(model, { window, finishing, micrometer: true, turning: true, warm, binds: null });
    switch (advice.kind) {
      case 'measure':
        if (advice.cool) {
          person.cool(journal.waits);
          warm = false;
        }
        take(advice.instrument === 'micrometer' ? 'micrometer' : 'caliper', advice.place);
        break;
      case 'cut':
        for (const asked of [
          ...new Array<number>(advice.passes).fill(advice.onPart),
          ...(advice.then === null ? [] : [advice.then]),
        ]) {
          person.cut(asked);
          removed += asked;
          model = cutTaken(model, asked);
        }
        if (removed > 800_000) {
          warm = true;
          removed = 0;
        }
        break;
      case 'file': {
        if (open !== null) {
          const now = atPlace(model, open.where);
          filed.push({
            removed: { mean: open.size - now.mean, spread: Math.hypot(open.spread, now.spread) },
            rounds: open.rounds,
          });
          open = null;
        }
        const rate = perRoundFrom('polishing', filed);
        const now = sizeOf(model);
        const from = atPlace(model, advice.where);
        const room = (advice.where === 'all-along' ? Math.min(...endsOf(model).map(({ mean }) => mean)) : from.mean) - window.low;
        const rounds = roundsBeforeReading({ mean: advice.onPart, spread: now.spread }, room, rate, filed.length > 0);
        if (rounds === 0) return outcomeOf(journal, 'undecided');
        open = { size: from.mean, spread: from.spread, rounds, where: advice.where };
        person.file(rounds, advice.where);
        const taken = removedBy(rate, rounds);
        model = filedOff(model, advice.where, taken.mean, taken.spread);
        break;
      }
      case 'touch-off':
        lathe.touchOff();
        model = touchedOff(model);
        break;
      case 'accept':
        return outcomeOf(journal, 'accepted');
      case 'stop':
        return outcomeOf(journal, advice.why === 'under-for-certain' ? 'given-up' : 'undecided');
    }
  }
  return outcomeOf(journal, 'undecided');
}
