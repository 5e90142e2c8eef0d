import { numbered, type Command, type Found } from '../command.ts';

export const SET_UP_RULES = {
  jaw: 'one | two | three | four',
  'dial-verb': 'is | reads | at | is at | says',
} as const;

const JAWS = { one: 1, two: 2, three: 3, four: 4 } as const;

const jawOf = (found: Found): 1 | 2 | 3 | 4 => JAWS[(found.words('jaw') ?? 'one') as keyof typeof JAWS];

/** Dialling in and finding edges. */
export const setUp: readonly Command[] = [
  numbered('set-up', 'jaw', 'indicator', {
    name: 'jaw',
    says: '[at | on] jaw [number] <jaw> [<dial-verb>] <signed> | number <jaw> jaw [<dial-verb>] <signed>',
    examples: ['jaw one twelve', 'jaw three minus two'],
    help: 'What the indicator reads at a jaw.',
    changesLog: true, button: 'Jaw', key: 'j',
  }, (found) => ({ type: 'jaw', jaw: jawOf(found), value: found.length() })),
  numbered('set-up', 'indicator', 'indicator', {
    name: 'low',
    says: "[the] (low | lowest) [side | spot | point | reading] [<dial-verb>] <signed> | (low's | the low's | minimum | bottom) [<dial-verb>] <signed>",
    examples: ['low two', 'low side minus three'],
    help: 'The lowest that the indicator reads in a turn.',
    changesLog: true, button: 'Low', key: "' l",
  }, (found) => ({ type: 'indicator', end: 'low', value: found.length() })),
  numbered('set-up', 'indicator', 'indicator', {
    name: 'high',
    says: "[the] (high | highest) [side | spot | point | reading] [<dial-verb>] <signed> | (high's | the high's | maximum | top) [<dial-verb>] <signed>",
    examples: ['high twelve', 'high spot ten and a half'],
    help: 'The highest that the indicator reads in a turn.',
    changesLog: true, button: 'High', key: "' h",
  }, (found) => ({ type: 'indicator', end: 'high', value: found.length() })),
  numbered('set-up', 'edge', 'coordinate', {
    name: 'edge',
    says: '[the] [first | left | one | this] edge [<dial-verb>] <signed> | found the edge at <signed>',
    examples: ['edge one two fifty', 'edge zero'],
    help: 'Where the first edge is, as the readout shows.',
    changesLog: true, button: 'Edge', key: "' e",
  }, (found) => ({ type: 'edge', edge: 'first', value: found.length() })),
  numbered('set-up', 'edge', 'coordinate', {
    name: 'end-edge',
    says: '[the] end (edge | face) [<dial-verb>] <signed>',
    examples: ['end face zero', 'end edge two hundred'],
    help: 'Where the end of the work is, as the readout shows when the finder touches.',
    changesLog: true, button: 'End face', key: "' n",
  }, (found) => ({ type: 'edge', edge: 'end', value: found.length() })),
  numbered('set-up', 'edge', 'coordinate', {
    name: 'other-edge',
    says: '[the] ((other | second | far | opposite) (edge | side) | (right | back) edge) [<dial-verb>] <signed>',
    examples: ['other edge two seven fifty'],
    help: 'Where the edge across from it is.',
    changesLog: true, button: 'Other edge', key: "' o",
  }, (found) => ({ type: 'edge', edge: 'other', value: found.length() })),
];
