import type { Place, Thing } from '../../job/index.ts';
import type { InstrumentKind } from '../../measure/index.ts';
import { numbered, type Command, type Found } from '../command.ts';

const INSTRUMENT_SAYS = '[it] [at | is | reads | read | say | says]';

/** Rules that only readings use: the verb, the instrument, the thing and the place. */
export const READING_RULES = {
  verb: `[it | that] (reads | measures | measured) | reading | the reading is | (it's | i'm) reading | i (read | get | got | measure | measured | have) | i've got
       | i'm getting | measure | measuring | it's [at | now] | it is | (we're | i'm | we are | i am | now i'm) at | [it] (comes | came) (to | out at | in at)
       | that's | that is | now [it's] | got | call it | log | write down | size is`,
  // The two end alike, so that the grammar holds their ends once.
  'short-verb': "[it] (reads | measures) | it's | it is | i get",
  'mike-verb': `[it | i] (mike | mikes | micrometer) ${INSTRUMENT_SAYS} | the (mike | micrometer) (says | reads) | (on | with) the (mike | micrometer)`,
  'caliper-verb': `(caliper | calipers) ${INSTRUMENT_SAYS} | the (caliper | calipers) (say | says | read | reads) | (on | with) the (caliper | calipers)`,
  thing: 'bore | hole | length | shoulder | width | depth | diameter | oh d | outside diameter | i d | overall length | slot',
  'thing-verb': 'is [at] | reads | measures | measured | at | comes to',
  // Before its number a place is said in few ways, after it in many.
  'place-first': 'at the (shoulder | end | middle) | at the (far | outer | free) end | in the middle | across | the other way',
  place: `(at | by | near) the shoulder | at the (end | middle | chuck [end] | tailstock [end] | headstock [end]) | at the (free | far | outer | tail) end
        | in the (middle | center) | halfway | across | the other way`,
} as const;

const PLACES: readonly (readonly [RegExp, Place])[] = [
  [/shoulder|chuck|headstock/, 'at-the-shoulder'],
  [/middle|halfway|center/, 'in-the-middle'],
  [/end|tailstock/, 'at-the-end'],
  [/across|way/, 'across'],
];

/** The place that the words of `<place>` name. The chuck's end of a turned length is where its shoulder is. */
const placeOf = (words: string | null): Place | null =>
  words === null ? null : (PLACES.find(([pattern]) => pattern.test(words))?.[1] ?? null);

const THINGS: Readonly<Record<string, Thing>> = {
  bore: 'bore', hole: 'bore', length: 'length', shoulder: 'shoulder', width: 'width', depth: 'depth', diameter: 'diameter',
  'oh d': 'diameter', 'outside diameter': 'diameter', 'i d': 'bore', 'overall length': 'length', slot: 'width',
};

const instrumentOf = (found: Found): InstrumentKind | null =>
  found.words('mike-verb') !== null ? 'micrometer' : found.words('caliper-verb') !== null ? 'caliper' : null;

/** Readings of the part and of its mates, with a verb, a thing or a place, or bare where one is awaited. */
export const readings: readonly Command[] = [
  numbered('readings', 'reading', 'size', {
    name: 'reading',
    says: `[<verb> | <mike-verb> | <caliper-verb>] [<place-first>] <size> [<place>]
      | [the] <thing> [<place-first>] [<thing-verb>] <size> [<place>]
      | <place-first> <short-verb> <size>
      | [the] <thing> (<mike-verb> | <caliper-verb>) <size>`,
    examples: ['reads six twenty seven', 'mike six twenty seven and a half', 'six twenty seven at the shoulder', 'bore six twenty eight', 'two over'],
    help: 'Log a reading. A bare number will do when one is awaited.',
    changesLog: true, button: 'Reading', key: 'Enter',
  }, (found) => {
    const thing = found.words('thing');
    const place = placeOf(found.words('place') ?? found.words('place-first'));
    const instrument = instrumentOf(found);
    const bare = thing === null && place === null && instrument === null && found.words('verb') === null && found.words('short-verb') === null;
    return {
      type: 'reading', spoken: bare ? 'bare' : 'with-verb', instrument, thing: thing === null ? null : (THINGS[thing] ?? null), place, value: found.length(),
    };
  }),
  numbered('readings', 'temperature', 'temperature', {
    name: 'temperature',
    says: `[the | part | work | shop | room] (temperature | temp) [is | reads | at] <temperature> | (temp's | part's | part's at | work's at) <temperature> | [the] (part | work) is [at] <temperature>`,
    examples: ['temperature seventy two', 'temperature twenty four celsius'],
    help: 'Note how warm the work is.',
    changesLog: true, button: 'Temperature', key: '; h',
  }, (found) => ({ type: 'temperature', value: found.temperature() })),
];
