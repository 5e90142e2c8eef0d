import type { Intent } from '../../job/index.ts';
import type { ListeningMode } from '../../app/assistantState.ts';
import { words } from '../words.ts';
import type { PadAsk } from './pad.ts';

/** What pressing a button does. */
export type Deed =
  | { readonly do: 'say'; readonly intent: Intent }
  | { readonly do: 'pad'; readonly ask: PadAsk }
  | { readonly do: 'row'; readonly row: RowId }
  | { readonly do: 'page'; readonly page: 'jobs' | 'record' | 'phrases' }
  | { readonly do: 'listen'; readonly mode: ListeningMode }
  | { readonly do: 'stop-listening' }
  | { readonly do: 'theme' }
  | { readonly do: 'talk' };

export type RowButton = { readonly label: string; readonly deed: Deed };

/** Three places; the fourth is always the button that turns the row over. `null` leaves a place empty. */
export type Row = { readonly places: readonly [RowButton, RowButton | null, RowButton | null]; readonly turnsTo: RowId };

const b = words.buttons;
const say = (label: string, intent: Intent): RowButton => ({ label, deed: { do: 'say', intent } });
const pad = (label: string, ask: PadAsk): RowButton => ({ label, deed: { do: 'pad', ask } });
const turn = (label: string, row: RowId): RowButton => ({ label, deed: { do: 'row', row } });

export type RowId =
  | 'first' | 'right' | 'groups' | 'more-groups'
  | 'ask-1' | 'ask-2' | 'ask-3' | 'ask-4'
  | 'cut-1' | 'cut-2' | 'fit-1' | 'fit-2'
  | 'setup-1' | 'setup-2' | 'steps-1' | 'steps-2'
  | 'pages-1' | 'pages-2' | 'pages-3' | 'pages-4';

/**
 * All that can be pressed. The first row holds what a hand wants most; everything that can be said stands in one of the others,
 * at most two choices away from `groups`.
 */
export const ROWS: Readonly<Record<RowId, Row>> = {
  first: { places: [pad(b.reading, 'reading'), { label: b.talk.hold, deed: { do: 'talk' } }, say(b.next, { type: 'next' })], turnsTo: 'right' },
  right: { places: [say(b.back, { type: 'back' }), say(b.scratch, { type: 'scratch' }), pad(b.correct, 'correct')], turnsTo: 'groups' },
  groups: { places: [turn(b.ask, 'ask-1'), turn(b.cut, 'cut-1'), turn(b.fit, 'fit-1')], turnsTo: 'more-groups' },
  'more-groups': { places: [turn(b.setup, 'setup-1'), turn(b.steps, 'steps-1'), turn(b.pages, 'pages-1')], turnsTo: 'first' },

  'ask-1': { places: [say(b.left, { type: 'ask-left' }), say(b.target, { type: 'ask-target' }), say(b.repeat, { type: 'repeat' })], turnsTo: 'ask-2' },
  'ask-2': { places: [say(b.dial, { type: 'ask-dial' }), say(b.passes, { type: 'ask-passes' }), say(b.stop, { type: 'ask-stop' })], turnsTo: 'ask-3' },
  'ask-3': { places: [say(b.speed, { type: 'ask-speed' }), say(b.feed, { type: 'ask-feed' }), say(b.last, { type: 'ask-last' })], turnsTo: 'ask-4' },
  'ask-4': { places: [say(b.bore, { type: 'ask-bore' }), say(b.fitAsked, { type: 'ask-fit' }), say(b.time, { type: 'ask-time' })], turnsTo: 'first' },

  'cut-1': { places: [pad(b.took, 'took'), pad(b.dialled, 'dial'), say(b.touchedOff, { type: 'touched-off' })], turnsTo: 'cut-2' },
  'cut-2': { places: [say(b.zeroed, { type: 'dial-zeroed' }), say(b.turning, { type: 'working', working: 'turning' }), say(b.filing, { type: 'working', working: 'filing' })], turnsTo: 'first' },
  'fit-1': {
    places: [say(b.tight, { type: 'feel', feel: 'tight' }), say(b.slides, { type: 'feel', feel: 'slides' }), say(b.loose, { type: 'feel', feel: 'loose' })],
    turnsTo: 'fit-2',
  },
  'fit-2': {
    places: [
      say(b.wontStart, { type: 'feel', feel: 'wont-start' }),
      say(b.binds, { type: 'feel', feel: 'binds-at-the-shoulder' }),
      say(b.polishing, { type: 'working', working: 'polishing' }),
    ],
    turnsTo: 'first',
  },
  'setup-1': { places: [pad(b.jaw, 'jaw'), pad(b.low, 'low'), pad(b.high, 'high')], turnsTo: 'setup-2' },
  'setup-2': { places: [pad(b.edge, 'edge'), pad(b.otherEdge, 'other-edge'), pad(b.temperature, 'temperature')], turnsTo: 'first' },
  'steps-1': { places: [say(b.where, { type: 'where-am-i' }), say(b.whatsNext, { type: 'whats-next' }), pad(b.goTo, 'step')], turnsTo: 'steps-2' },
  'steps-2': { places: [say(b.skip, { type: 'skip' }), say(b.cautionAsked, { type: 'ask-caution' }), say(b.log, { type: 'read-log' })], turnsTo: 'first' },

  'pages-1': {
    places: [
      { label: b.jobs, deed: { do: 'page', page: 'jobs' } },
      { label: b.record, deed: { do: 'page', page: 'record' } },
      { label: b.phrases, deed: { do: 'page', page: 'phrases' } },
    ],
    turnsTo: 'pages-2',
  },
  'pages-2': { places: [say(b.louder, { type: 'louder' }), say(b.quieter, { type: 'quieter' }), say(b.slower, { type: 'slower' })], turnsTo: 'pages-3' },
  'pages-3': {
    places: [
      { label: b.modeHold, deed: { do: 'listen', mode: 'hold' } },
      { label: b.modeCall, deed: { do: 'listen', mode: 'call' } },
      { label: b.modeOpen, deed: { do: 'listen', mode: 'open' } },
    ],
    turnsTo: 'pages-4',
  },
  'pages-4': {
    places: [{ label: b.stopListening, deed: { do: 'stop-listening' } }, say(b.memo, { type: 'memo' }), { label: b.lightDark, deed: { do: 'theme' } }],
    turnsTo: 'first',
  },
};

/** Every button there is, in the order of the rows. */
export const everyButton = (): readonly RowButton[] =>
  Object.values(ROWS).flatMap((row) => row.places.filter((button): button is RowButton => button !== null));
