import { plain, type Command } from '../command.ts';

/** How the part goes on its mate, and what the hands are doing to the metal. */
export const fit: readonly Command[] = [
  plain('fit', { type: 'feel', feel: 'wont-start' }, {
    name: 'wont-start',
    says: "[it] won't start | [it] won't go [on | in] | it's not starting | doesn't (start | go [on | in]) | too big | no go | not even close | still too big | won't enter",
    examples: ["won't start", "won't go on"],
    help: 'The mate does not start on the part.',
    changesLog: true, button: "Won't start",
  }),
  plain('fit', { type: 'feel', feel: 'tight' }, {
    name: 'tight',
    says: "[it's] [too | still | a bit | a little] tight | [it's] [too | a bit] (stiff | snug) | goes on tight | [it] starts but (it's tight | tight)",
    examples: ['tight', 'still tight'],
    help: 'It goes on, but tight.',
    changesLog: true, button: 'Tight',
  }),
  plain('fit', { type: 'feel', feel: 'binds-at-the-shoulder' }, {
    name: 'binds',
    says: `[it] binds [at the (shoulder | end) | up] | [it's] binding [at the shoulder] | (jams | hangs up | tight) at the shoulder
      | [it] (goes on | slides on) then (binds | sticks) | tight by the shoulder`,
    examples: ['binds at the shoulder', 'tight at the shoulder'],
    help: 'It slides on, then binds at the shoulder.',
    changesLog: true, button: 'Binds at the shoulder',
  }),
  plain('fit', { type: 'feel', feel: 'slides' }, {
    name: 'slides',
    says: "[it] slides [on | in | fine | nice | nicely | freely] | [it] goes on [nice | nicely | fine | easy] | [it] fits [nice | nicely | fine] | (good | nice | perfect) fit | slips on",
    examples: ['slides', 'it fits'],
    help: 'It slides as it should.',
    changesLog: true, button: 'Slides',
  }),
  plain('fit', { type: 'feel', feel: 'loose' }, {
    name: 'loose',
    says: "[it's] [too | a bit | a little] loose | [it's] sloppy | [it] rattles | too much play | too small",
    examples: ['loose', 'too loose'],
    help: 'It is loose.',
    changesLog: true, button: 'Loose',
  }),
  plain('fit', { type: 'working', working: 'turning' }, {
    name: 'turning',
    says: "[i'm | back to] turning",
    examples: ['turning', 'back to turning'],
    help: 'Metal now comes off with the tool.',
    changesLog: true, button: 'Turning',
  }),
  plain('fit', { type: 'working', working: 'filing' }, {
    name: 'filing',
    says: "[i'm | back to | started] filing | using the file | on to the file",
    examples: ['filing', "i'm filing"],
    help: 'Metal now comes off with a file.',
    changesLog: true, button: 'Filing',
  }),
  plain('fit', { type: 'working', working: 'polishing' }, {
    name: 'polishing',
    says: "[i'm | back to | started] polishing | emery | using emery | using the emery",
    examples: ['polishing', 'emery'],
    help: 'Metal now comes off with abrasive cloth.',
    changesLog: true, button: 'Polishing',
  }),
];
