import { assert } from '../../measure/index.ts';
import { COMMANDS, type Command } from '../../phrasebook/index.ts';
import { words } from '../words.ts';
import { PAD_ASKS, type PadAsk } from './pad.ts';
import { FIRST_ROW, type Deed, type Row, type RowButton, type RowId } from './row.ts';

const isPadAsk = (name: string): name is PadAsk => (PAD_ASKS as readonly string[]).includes(name);

/** What a command does when it is pressed or its key is: itself, or the number pad where it wants a number. */
export function deedOf(command: Command): Deed {
  if (command.takes === null) return { do: 'say', intent: command.make() };
  assert(isPadAsk(command.name), `the number pad does not know "${command.name}"`);
  return { do: 'pad', ask: command.name };
}

/** The command of the phrasebook's table under its own label; one that wants a number says so with dots. */
function named(name: string): RowButton {
  const command = COMMANDS.find((candidate) => candidate.name === name);
  assert(command !== undefined && command.button !== null, `no command with a button is called "${name}"`);
  return { label: command.takes === null ? command.button : words.buttons.wantsNumber(command.button), deed: deedOf(command) };
}

const b = words.buttons;
const turn = (label: string, row: RowId): RowButton => ({ label, deed: { do: 'row', row } });
const row = (turnsTo: RowId, one: string, two: string | null, three: string | null): Row => ({
  places: [named(one), two === null ? null : named(two), three === null ? null : named(three)],
  turnsTo,
});

/**
 * All that can be pressed. The first row holds what a hand wants most; everything that can be said stands in one of the others,
 * at most two choices away from `groups`.
 */
export const ROWS: Readonly<Record<RowId, Row>> = {
  first: FIRST_ROW,
  right: row('groups', 'back', 'scratch', 'correct'),
  groups: { places: [turn(b.ask, 'ask-1'), turn(b.cut, 'cut-1'), turn(b.fit, 'fit-1')], turnsTo: 'more-groups' },
  'more-groups': { places: [turn(b.setUp, 'set-ups'), turn(b.steps, 'steps-1'), turn(b.pages, 'pages-1')], turnsTo: 'first' },

  'ask-1': row('ask-2', 'ask-left', 'ask-target', 'repeat'),
  'ask-2': row('ask-3', 'ask-dial', 'ask-passes', 'ask-stop'),
  'ask-3': row('ask-4', 'ask-speed', 'ask-feed', 'ask-last'),
  'ask-4': row('first', 'ask-bore', 'ask-fit', 'ask-time'),
  'cut-1': row('cut-2', 'took', 'dial', 'touched-off'),
  'cut-2': row('cut-3', 'dial-zeroed', 'turning', 'filing'),
  'cut-3': row('first', 'carriage-dial', 'ask-taken', null),
  'fit-1': row('fit-2', 'tight', 'slides', 'loose'),
  'fit-2': row('fit-3', 'wont-start', 'binds', 'polishing'),
  'fit-3': row('fit-4', 'filed', 'filed-rounds', 'filed-strokes'),
  'fit-4': row('first', 'filed-seconds', 'binds-at-the-end', null),
  'set-up-1': row('set-up-2', 'jaw', 'low', 'high'),
  'set-up-2': row('set-up-3', 'edge', 'other-edge', 'end-edge'),
  'set-up-3': row('first', 'finder', 'ask-set-up', 'temperature'),
  'set-ups': {
    places: [turn(b.jawsAndEdges, 'set-up-1'), turn(b.spotAndHoles, 'holes-1'), turn(b.taperAndTap, 'taper-1')],
    turnsTo: 'first',
  },
  'holes-1': row('holes-2', 'spot', 'angle', 'readings-round'),
  'holes-2': row('holes-3', 'bolt-circle', 'hole-line', 'holes'),
  'holes-3': row('first', 'next-hole', 'hole-number', 'ask-why'),
  'taper-1': row('taper-2', 'turns', 'large-end', 'small-end'),
  'taper-2': row('taper-3', 'taper-length', 'work-length', 'ask-taper'),
  'taper-3': row('first', 'ask-packing', 'packing-on', 'packed-with'),
  'steps-1': row('steps-2', 'where-am-i', 'whats-next', 'go-to'),
  'steps-2': row('steps-3', 'skip', 'ask-caution', 'read-log'),
  'steps-3': row('first', 'memo', null, null),

  'pages-1': {
    places: [
      { label: b.jobs, deed: { do: 'page', page: 'jobs' } },
      { label: b.record, deed: { do: 'page', page: 'record' } },
      named('what-can-i-say'),
    ],
    turnsTo: 'pages-2',
  },
  'pages-2': row('pages-3', 'louder', 'quieter', 'slower'),
  'pages-3': {
    places: [
      { label: b.modeHold, deed: { do: 'listen', mode: 'hold' } },
      { label: b.modeCall, deed: { do: 'listen', mode: 'call' } },
      { label: b.modeOpen, deed: { do: 'listen', mode: 'open' } },
    ],
    turnsTo: 'pages-4',
  },
  'pages-4': {
    places: [named('stop-listening'), named('hush'), { label: b.lightDark, deed: { do: 'theme' } }],
    turnsTo: 'first',
  },
};
