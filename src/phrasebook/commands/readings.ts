import type { Place, Thing } from '../../job/index.ts';
import type { InstrumentKind } from '../../measure/index.ts';
import { numbered, type Command, type Found } from '../command.ts';

/** Rules that only readings use: the verb, the instrument, the thing and the place. */
export const READING_RULES = {
  verb: `reads | it reads | reading | it's reading | i read | measures | measure | it measures | measured | i (get | got) | i've got | it's | it is
       | we're at | i'm at | it's at | comes to | comes out at | that's | now it's | it's now | now | got`,
  'mike-verb': '(mike | mikes | the mike (says | reads)) [it] [at | is | reads] | micrometer [reads | says] | the micrometer (reads | says)',
  'caliper-verb': '(caliper | calipers) [it] [at | is | reads | read | say | says] | the (caliper | calipers) (say | says | read | reads)',
  thing: 'bore | hole | length | shoulder | width | depth | diameter',
  'thing-verb': 'is | reads | measures | at | is at | comes to',
  place: `at the (shoulder | end | middle) | by the shoulder | near the shoulder | at the (free | far | outer | chuck) end | in the middle
        | halfway | across | the other way`,
} as const;

const PLACES: readonly (readonly [RegExp, Place])[] = [
  [/shoulder|chuck/, 'at-the-shoulder'],
  [/middle|halfway/, 'in-the-middle'],
  [/end/, 'at-the-end'],
  [/across|way/, 'across'],
];

/** The place that the words of `<place>` name. The chuck's end of a turned length is where its shoulder is. */
const placeOf = (words: string | null): Place | null =>
  words === null ? null : (PLACES.find(([pattern]) => pattern.test(words))?.[1] ?? null);

const THINGS: Readonly<Record<string, Thing>> = {
  bore: 'bore', hole: 'bore', length: 'length', shoulder: 'shoulder', width: 'width', depth: 'depth', diameter: 'diameter',
};

const instrumentOf = (found: Found): InstrumentKind | null =>
  found.words('mike-verb') !== null ? 'micrometer' : found.words('caliper-verb') !== null ? 'caliper' : null;

/** Readings of the part and of its mates, with a verb, a thing or a place, or bare where one is awaited. */
export const readings: readonly Command[] = [
  numbered('readings', 'reading', 'size', {
    name: 'reading',
    says: `[<verb> | <mike-verb> | <caliper-verb>] [<place>] <size> [<place>]
      | [the] <thing> [<place>] [<thing-verb>] <size> [<place>]
      | <place> (<verb> | <mike-verb> | <caliper-verb>) <size>
      | [the] <thing> (<mike-verb> | <caliper-verb>) <size>
      | <place> it's <size>`,
    examples: ['reads six twenty seven', 'mike six twenty seven and a half', 'six twenty seven at the shoulder', 'bore six twenty eight', 'two over'],
    help: 'Log a reading. A bare number will do when one is awaited.',
    changesLog: true, button: 'Reading', key: 'Enter',
  }, (found) => {
    const thing = found.words('thing');
    const place = placeOf(found.words('place'));
    const instrument = instrumentOf(found);
    const bare = thing === null && place === null && instrument === null && found.words('verb') === null;
    return {
      type: 'reading', spoken: bare ? 'bare' : 'with-verb', instrument, thing: thing === null ? null : (THINGS[thing] ?? null), place, value: found.length(),
    };
  }),
  numbered('readings', 'temperature', 'temperature', {
    name: 'temperature',
    says: '[the | part] (temperature | temp) [is | reads | at] <temperature> | [the] part is at <temperature>',
    examples: ['temperature seventy two', 'temperature twenty four celsius'],
    help: 'Note how warm the work is.',
    changesLog: true, button: 'Temperature',
  }, (found) => ({ type: 'temperature', value: found.temperature() })),
];
