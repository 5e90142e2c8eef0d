import { numbered, plain, type Command } from '../command.ts';

/** How the part goes on its mate, and what the hands are doing to the metal. */
export const fit: readonly Command[] = [
  plain('fit', { type: 'feel', feel: 'wont-start' }, {
    name: 'wont-start',
    says: `[it | still] won't (start | fit | enter | go [on | in]) | it's not (starting | going on) | not going on | [it] doesn't (start | fit | go [on | in]) | [it's | still | way | it's still | it's way] too big
      | no go | not even close | can't get it (on | started)`,
    examples: ["won't start", "won't go on"],
    help: 'The mate does not start on the part.',
    changesLog: true, button: "Won't start", key: '; w',
  }),
  plain('fit', { type: 'feel', feel: 'tight' }, {
    name: 'tight',
    says: `[it's] [too | still | a bit | a little | still too | still a bit | pretty | very | really] tight | [it's] [too | a bit] (stiff | snug)
      | [it] goes on but (tight | it's tight) | [it] starts but (it's tight | tight) | [it] drags`,
    examples: ['tight', 'still tight'],
    help: 'It goes on, but tight.',
    changesLog: true, button: 'Tight', key: '; t',
  }),
  plain('fit', { type: 'feel', feel: 'binds-at-the-shoulder' }, {
    name: 'binds',
    says: `[it] binds [(at | near | by) the shoulder | up [at the shoulder]] | [it's] binding [at the shoulder] | [it] (jams | hangs up | catches) at the shoulder
      | [it's] tight (at | by) the shoulder | [it] (goes on | slides on) then (binds | sticks) | stops short of the shoulder | (won't | doesn't) go all the way [on]`,
    examples: ['binds at the shoulder', 'tight at the shoulder'],
    help: 'It slides on, then binds at the shoulder.',
    changesLog: true, button: 'Binds at the shoulder', key: '; b',
  }),
  plain('fit', { type: 'feel', feel: 'binds-at-the-end' }, {
    name: 'binds-at-the-end',
    says: `([it] binds | [it's] (binding | tight)) at the end`,
    examples: ['binds at the end', 'tight at the end'],
    help: 'It binds at the free end of the part.',
    changesLog: true, button: 'Binds at the end', key: '; e',
  }),
  plain('fit', { type: 'feel', feel: 'slides' }, {
    name: 'slides',
    says: `[it] slides [[on | in] [fine | nice | nicely | freely | easy] | right on] | [it's] sliding | [it] goes (on [nice | nicely | fine | easy] | in | right on) | [it | that] fits [nice | nicely | fine | well | good]
      | [it's a] (good | nice | perfect) fit | slips on | drops on`,
    examples: ['slides', 'it fits'],
    help: 'It slides as it should.',
    changesLog: true, button: 'Slides', key: '; s',
  }),
  plain('fit', { type: 'feel', feel: 'loose' }, {
    name: 'loose',
    says: `[it's] [too | a bit | a little | pretty | very | way too] loose | [it's] sloppy | [it] (rattles | wobbles) | too much (play | clearance) | there's play | [it's] too small`,
    examples: ['loose', 'too loose'],
    help: 'It is loose.',
    changesLog: true, button: 'Loose', key: '; l',
  }),
  plain('fit', { type: 'working', working: 'turning' }, {
    name: 'turning',
    says: `[i'm | back to] turning [now | again]`,
    examples: ['turning', 'back to turning'],
    help: 'Metal now comes off with the tool.',
    changesLog: true, button: 'Turning', key: '; u',
  }),
  plain('fit', { type: 'working', working: 'filing' }, {
    name: 'filing',
    says: `[i'm | back to | started] filing [now | it] | [i'm] using (a | the) file | (on to | switching to | with) the file`,
    examples: ['filing', "i'm filing"],
    help: 'Metal now comes off with a file.',
    changesLog: true, button: 'Filing', key: '; f',
  }),
  plain('fit', { type: 'working', working: 'polishing' }, {
    name: 'polishing',
    says: `[i'm | back to | started] polishing [now | it] | [i'm] sanding | [using [the]] emery [cloth]`,
    examples: ['polishing', 'emery'],
    help: 'Metal now comes off with abrasive cloth.',
    changesLog: true, button: 'Polishing', key: '; p',
  }),
  plain('fit', { type: 'filed', in: 'rounds', value: { as: 'one', value: 1 } }, {
    name: 'filed',
    says: 'filed [it | a bit | some] | [i] filed a round | one round [of filing] | polished [it | a bit] | that\'s a round',
    examples: ['filed', 'one round'],
    help: 'One round with the file or the cloth.',
    changesLog: true, button: 'Filed', key: '; d',
  }),
  ...(
    [
      ['rounds', '; r'],
      ['strokes', '; k'],
      ['seconds', '; c'],
    ] as const
  ).map(([unit, key]) =>
    numbered('fit', 'filed', 'count', {
      name: `filed-${unit}`,
      says: `filed <step> ${unit} | polished <step> ${unit}`,
      examples: [`filed twenty ${unit}`, `polished ten ${unit}`],
      help: `So many ${unit} with the file or the cloth.`,
      changesLog: true, button: `Filed, ${unit}`, key,
    }, (found) => ({ type: 'filed', in: unit, value: found.count() })),
  ),
];
